"""How findings write places and measures."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.units import (
    Display,
    enumerated,
    exact_length,
    format_area,
    format_depth,
    format_length,
    grid_step,
)

NAMED = 3
"""How many ids a sentence names before it counts the rest."""


@dataclass(frozen=True, kw_only=True)
class Wording:
    """Writes for one job.

    Attributes:
        display: How lengths are written.
        origin: The slab's lower left corner in mm, which places are measured from.
    """

    display: Display
    origin: Point

    @property
    def metric(self) -> bool:
        """Whether lengths are written in millimetres."""
        return self.display is Display.METRIC

    def length(self, mm: float) -> str:
        """A length: ``12'-6 1/2"`` or ``3823 mm``."""
        return format_length(mm, self.display)

    def exact(self, mm: float) -> str:
        """A length to 1/16 in, where a step of the sheets does not tell two apart."""
        return exact_length(mm, self.display)

    def depth(self, mm: float) -> str:
        """A thickness, depth or small distance: ``1 1/4"`` or ``32 mm``."""
        return format_depth(mm, self.display)

    def area(self, mm2: float) -> str:
        """An area: ``112.5 ft2`` or ``10.45 m2``."""
        return format_area(mm2, self.display)

    def lengths(self, value: float, limit: float) -> tuple[str, str]:
        """A length and its limit, written so that they differ."""
        return apart(value, limit, self.length, self.exact, millimetres)

    def depths(self, value: float, limit: float) -> tuple[str, str]:
        """A depth and its limit, written so that they differ."""
        return apart(value, limit, self.depth, millimetres)

    def place(self, at: Point) -> str:
        """A place, along and up from the slab's lower left corner: ``(12'-0", 8'-6")``."""
        along, up = at[0] - self.origin[0], at[1] - self.origin[1]
        return f"({self.length(along)}, {self.length(up)})"

    def near(self, at: Point) -> str:
        """A place to the nearest inch or 10 mm, for what has no one point."""
        step = grid_step(self.display)
        x, y = (round((v - o) / step) * step + o for v, o in zip(at, self.origin, strict=True))
        return self.place((x, y))

    def either(self, feet_inches: str, metric: str) -> str:
        """The one of two texts that suits the job's units."""
        return metric if self.metric else feet_inches


def apart(value: float, limit: float, *formats: Callable[[float], str]) -> tuple[str, str]:
    """A measure and its limit in the first of some formats, coarse to fine, in which they differ.

    A panel a millimetre too long is never told to be as long as it may be.
    """
    pairs = [(write(value), write(limit)) for write in formats]
    return next((pair for pair in pairs if pair[0] != pair[1]), pairs[-1])


def ratio(value: float) -> str:
    """A ratio to two decimals at most: ``1.5``."""
    return f"{round(value, 2):g}"


def fine(value: float) -> str:
    """A ratio or an angle to three decimals at most."""
    return f"{round(value, 3):g}"


def degrees(value: float) -> str:
    """An angle in whole degrees."""
    return f"{value:.0f}"


def millimetres(mm: float) -> str:
    """A length to a tenth of a millimetre, where sixteenths of an inch do not tell."""
    return f"{mm:.1f} mm"


def wording_of(slab: Slab, display: Display) -> Wording:
    """Writes for a slab: places from its lower left corner."""
    x0, y0, _, _ = slab.outline.polygon.bounds
    return Wording(display=display, origin=(float(x0), float(y0)))


def listed(ids: Sequence[str]) -> str:
    """Ids in a sentence: ``J1``, ``J1, J2 and J3``, or ``J1, J2, J3 and 9 more``."""
    more = [f"{len(ids) - NAMED} more"] if len(ids) > NAMED else []
    return enumerated([*ids[:NAMED], *more])


def subject_of(ids: Sequence[str]) -> str:
    """Subject of a finding about several: ``J1`` or ``J1 and 11 more``."""
    return ids[0] if len(ids) == 1 else f"{ids[0]} and {len(ids) - 1} more"
