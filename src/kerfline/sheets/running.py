"""Running and chain dimensions: stations along a baseline, rounded once, so that every chain closes."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from kerfline.units import MM_PER_INCH, Display, feet_inches, format_length

EIGHTHS = 8
"""Parts of an inch that dimensions are rounded to."""


def step(display: Display) -> float:
    """What dimensions are rounded to: 1/8 in, a sixth of what a joint may lie beside its place, or one millimetre."""
    return MM_PER_INCH / EIGHTHS if display is Display.FEET_INCHES else 1.0


EVEN = 2e-3
"""Share of a step by which a length at the middle of two may be short and is rounded up all the same."""


def in_steps(mm: float, display: Display) -> int:
    """A length in whole steps; one half way between two goes up, so that equal lengths read the same."""
    return math.floor(mm / step(display) + 0.5 + EVEN)


def dimension_text(mm: float, display: Display) -> str:
    """A dimension as it stands on the sheet; metric drawings say once that they are in millimetres."""
    written = in_steps(mm, display) * step(display)
    return feet_inches(written) if display is Display.FEET_INCHES else f"{round(written) or 0}"


def length_text(mm: float, display: Display) -> str:
    """A length in a table outside the sheets: the figure that the sheets show, with its unit."""
    return format_length(in_steps(mm, display) * step(display), display)


def between(start: float, end: float, display: Display) -> float:
    """Length (mm) between two offsets as they are written, so that a table's columns agree."""
    return abs(in_steps(end, display) - in_steps(start, display)) * step(display)


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
        return Running(tuple(sorted({0, *(in_steps(o, display) for o in offsets)})), display)

    @property
    def offsets(self) -> tuple[float, ...]:
        """Rounded offsets in mm."""
        return tuple(s * step(self.display) for s in self.steps)
