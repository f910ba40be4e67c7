"""The rules of one job, asked by thickness: what the engine works to and the checks hold against."""

from dataclasses import dataclass

from kerfline.model.job import CutChoice, Mix
from kerfline.model.layout import WorkingLimits
from kerfline.rules.limits import Figure, Limits
from kerfline.rules.rule_set import RuleSet


@dataclass(frozen=True, kw_only=True)
class SlabRules:
    """A rule set with what the job says of the mix, the cut and the span to work to."""

    rule_set: RuleSet
    mix: Mix = Mix()
    cut: CutChoice = CutChoice()
    to_maximum: bool = False

    def limits(self, thickness: float) -> Limits:
        """What the rule set allows at a thickness (mm)."""
        return self.rule_set.limits(thickness, self.mix)

    def working(self, thickness: float) -> WorkingLimits:
        """What the engine works to at a thickness (mm)."""
        return self.limits(thickness).working(to_maximum=self.to_maximum)

    def cut_limit(self, thickness: float) -> Figure:
        """Least depth of cut (mm) at a thickness: ``advised`` and ``bound``."""
        return self.rule_set.cut_limit(thickness, self.cut.method)

    def cut_depth(self, thickness: float) -> float:
        """Depth (mm) that joints are cut to: the user's own, else the advised one."""
        return self.cut_limit(thickness).advised if self.cut.depth is None else self.cut.depth

    @property
    def assumptions(self) -> tuple[str, ...]:
        """What the limits assume and ask, in sentences for the user to confirm and for the sheets."""
        return (*self.rule_set.assumptions(self.mix), *self.rule_set.conditions)
