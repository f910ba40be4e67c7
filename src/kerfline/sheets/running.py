"""Running and chain dimensions: stations along a baseline, rounded once, so that every chain closes."""

from collections.abc import Iterable
from dataclasses import dataclass

from kerfline.sheets.baselines import Baselines
from kerfline.units import Display, feet_inches, in_steps, step


def dimension_text(mm: float, display: Display) -> str:
    """A dimension as it stands on the sheet; metric drawings say once that they are in millimetres."""
    written = in_steps(mm, display) * step(display)
    return feet_inches(written) if display is Display.FEET_INCHES else f"{round(written) or 0}"


def level_text(mm: float, display: Display) -> str:
    """A level with its sign, in the unit of the dimensions: ``+100'-6"``, ``-50 mm``."""
    sign = "-" if mm < 0 else "+"
    unit = "" if display is Display.FEET_INCHES else " mm"
    return f"{sign}{dimension_text(abs(mm), display)}{unit}"


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


def place_words(whole: Baselines, own: Baselines, display: Display) -> str:
    """Where the corner of a part lies from that of the slab: ``90'-0" right, 3'-0" down from corner A``."""
    x, y = whole.local(own.origin)
    across, up = (dimension_text(abs(offset), display) for offset in (x, y))
    unit = "" if display is Display.FEET_INCHES else " mm"
    ways = ("left" if x < 0 else "right", "down" if y < 0 else "up")
    return f"{across}{unit} {ways[0]} and {up}{unit} {ways[1]} from corner A"
