"""A named set of limits with their sources."""

from collections.abc import Mapping
from dataclasses import dataclass

from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Mix
from kerfline.rules.cut import CutRow, row_for
from kerfline.rules.limits import Figure, Limits
from kerfline.rules.span import SpanRule


@dataclass(frozen=True, kw_only=True)
class RuleSet:
    """A named set of limits.

    Attributes:
        name: Its name, such as ``floor``.
        title: The name in words.
        use: When to choose it, one sentence.
        conditions: What must hold for its figures to hold, in sentences for the sheets.
        span: Greatest length of a panel.
        aspect: Greatest length / width.
        width: Least width, mm.
        angle: Least angle, degrees.
        area: Greatest area of a panel, mm2; None where the set has none.
        cut: Rows of the least depth of cut, by method.
    """

    name: str
    title: str
    use: str
    span: SpanRule
    aspect: Figure
    width: Figure
    angle: Figure
    cut: Mapping[str, tuple[CutRow, ...]]
    area: Figure | None = None
    conditions: tuple[str, ...] = ()

    def limits(self, thickness: float, mix: Mix) -> Limits:
        """What the set allows for a slab.

        Args:
            thickness: Thickness of the slab in mm.
            mix: What is known of the concrete; where a table asks for more, its most cautious column
                holds (see ``assumptions``).
        """
        return Limits(
            rule_set=self.name,
            thickness=thickness,
            span=self.span.at(thickness, mix),
            aspect=self.aspect,
            width=self.width,
            angle=self.angle,
            area=self.area,
        )

    def cut_limit(self, thickness: float, method: str) -> Figure:
        """Least depth of cut in mm.

        Args:
            thickness: Thickness of the slab in mm.
            method: How the joint is cut, such as ``conventional`` or ``early-entry``.

        Raises:
            InputRefused: The set has no such method.
        """
        if method not in self.cut:
            raise InputRefused(
                Mistake(
                    what=f"the rule set {self.name} has no such method of cutting",
                    where="cut.method",
                    found=repr(method),
                    allowed=" or ".join(self.cut),
                )
            )
        return row_for(self.cut[method], thickness).at(thickness)

    def assumptions(self, mix: Mix) -> tuple[str, ...]:
        """What the limits assume about the concrete, in sentences for the user to confirm."""
        return self.span.assumptions(mix)
