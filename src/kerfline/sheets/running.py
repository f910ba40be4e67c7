"""Running and chain dimensions: stations along a baseline, rounded once, so that every chain closes."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from kerfline.units import MM_PER_INCH, SIXTEENTHS, Display, feet_inches


def step(display: Display) -> float:
    """What dimensions are rounded to: 1/16 in, or one millimetre."""
    return MM_PER_INCH / SIXTEENTHS if display is Display.FEET_INCHES else 1.0


def dimension_text(mm: float, display: Display) -> str:
    """A dimension as it stands on the sheet; metric drawings say once that they are in millimetres."""
    return feet_inches(mm) if display is Display.FEET_INCHES else f"{round(mm)}"


def between(start: float, end: float, display: Display) -> float:
    """Length (mm) between two offsets as they are written, so that a table's columns agree."""
    unit = step(display)
    return abs(round(end / unit) - round(start / unit)) * unit


@dataclass(frozen=True)
class Running:
    """Dimensions along one baseline.

    Attributes:
        steps: Offsets from the origin in whole rounding steps, ascending, the origin (0) first.
        display: How they are written.
    """

    steps: tuple[int, ...]
    display: Display

    @staticmethod
    def of(offsets: Iterable[float], display: Display) -> "Running":
        """Rounds offsets (mm from the origin); those that read the same become one."""
        unit = step(display)
        return Running(tuple(sorted({0, *(round(o / unit) for o in offsets)})), display)

    @property
    def offsets(self) -> tuple[float, ...]:
        """Rounded offsets in mm."""
        return tuple(s * step(self.display) for s in self.steps)

    @property
    def chain(self) -> tuple[float, ...]:
        """Distances between neighbours in mm: differences of the rounded offsets, so they add up."""
        unit = step(self.display)
        return tuple((b - a) * unit for a, b in pairwise(self.steps))

    @property
    def running_texts(self) -> tuple[str, ...]:
        """The running dimensions as written."""
        return tuple(dimension_text(o, self.display) for o in self.offsets)

    @property
    def chain_texts(self) -> tuple[str, ...]:
        """The chain dimensions as written."""
        return tuple(dimension_text(c, self.display) for c in self.chain)
