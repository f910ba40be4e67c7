"""What every job ends in: the slab's layout and what was found when it was held against the rules."""

from dataclasses import dataclass, field

from kerfline.checks.check import Held, held_against
from kerfline.checks.measures import measures_of
from kerfline.model.finding import Finding, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """A layout held against the rules of its job.

    Attributes:
        job: The slab and the choices.
        rules: The rules.
        layout: The layout.
        findings: All that was found.
        beside: Those of the findings that come from another plan or slab.
        held: How it was held against the rules, for whoever changes it; None where that was not kept.
    """

    job: Job
    rules: SlabRules
    layout: Layout
    findings: tuple[Finding, ...]
    beside: tuple[Finding, ...] = ()
    held: Held | None = field(default=None, compare=False, repr=False)

    def count(self, severity: Severity) -> int:
        """How many findings are of a severity."""
        return sum(f.severity is severity for f in self.findings)

    @property
    def clean(self) -> bool:
        """Whether no finding is an error."""
        return not self.count(Severity.ERROR)


def held(job: Job, rules: SlabRules, layout: Layout) -> Outcome:
    """A layout held against the rules of its job."""
    result = held_against(measures_of(job.slab, layout, rules, job.display))
    return Outcome(job=job, rules=rules, layout=layout, findings=result.findings, held=result)
