"""What is told of one slab among many: a line of the summary."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from enum import StrEnum
from typing import Any

from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import run_mark
from kerfline.model.finding import Severity
from kerfline.model.joint_lines import joint_lines
from kerfline.quantities.concrete import concrete_body
from kerfline.units import Display


class Fate(StrEnum):
    """What became of a slab."""

    DONE = "done"
    UNCHANGED = "unchanged"
    SAME = "same plan"
    REFUSED = "refused"
    FAILED = "failed"


CLEAN, ERRORS, REFUSED = 0, 1, 2


@dataclass(frozen=True, kw_only=True)
class Line:
    """One slab of many.

    Attributes:
        source: Its file as the user named it.
        name: Its name; that of the file where it could not be read.
        fate: What became of it.
        words: Why it was refused or failed, or which plan it is the same as.
        metric: Whether its lengths are written in millimetres.
        area: Of its concrete, mm2.
        panels: How many.
        joints: Length of its joints, mm.
        sawn: Of them, what is sawn, mm.
        dowels: How many.
        concrete: Volume in place, mm3.
        errors: Errors found.
        warnings: Warnings found.
        folder: Where its files are.
        files: How many were written.
        mark: Its run mark.
    """

    source: str
    name: str
    fate: Fate = Fate.DONE
    words: str = ""
    metric: bool = False
    area: float = 0.0
    panels: int = 0
    joints: float = 0.0
    sawn: float = 0.0
    dowels: int = 0
    concrete: float = 0.0
    errors: int = 0
    warnings: int = 0
    folder: str = ""
    files: int = 0
    mark: str = ""

    @property
    def counts(self) -> bool:
        """Whether its figures belong into the totals."""
        return self.fate not in (Fate.REFUSED, Fate.FAILED)

    @property
    def status(self) -> int:
        """The exit status that it would have alone."""
        if not self.counts:
            return REFUSED
        return ERRORS if self.errors else CLEAN

    @property
    def display(self) -> Display:
        """How its lengths are written."""
        return Display.METRIC if self.metric else Display.FEET_INCHES


def line_of(outcome: Outcome, source: str) -> Line:
    """The line of a layout, before its files are written."""
    job, layout = outcome.job, outcome.layout
    return Line(
        source=source,
        name=job.name,
        metric=job.display is Display.METRIC,
        area=float(job.slab.concrete.area),
        panels=len(layout.panels),
        joints=float(layout.joint_length),
        sawn=joint_lines(layout).sawn_length,
        dowels=sum(j.dowels.count for j in layout.joints if j.dowels),
        concrete=concrete_body(job.slab).volume(),
        errors=outcome.count(Severity.ERROR),
        warnings=outcome.count(Severity.WARNING),
        mark=run_mark(job, layout),
    )


def line_data(line: Line) -> dict[str, Any]:
    """A line as plain data."""
    return asdict(line)


def read_line(data: Mapping[str, Any]) -> Line:
    """A line that was kept.

    Raises:
        TypeError: It is none.
    """
    return Line(**{**data, "fate": Fate.UNCHANGED})
