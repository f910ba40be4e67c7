"""A slab read from a drawing, rounded to what a person would write: 1/16 in, or 1 mm."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import Slab
from kerfline.units import MM_PER_INCH, SIXTEENTHS, Unit, feet_inches, parse_length

METRE_DECIMALS = 3
"""A metre's decimals down to the millimetre."""


def rounded(slab: Slab, unit: Unit) -> Slab:
    """The slab with every length rounded to the working unit; nothing moves by more than half of it.

    A line that rounding would spoil, since its points lie closer than that, is left as it is.

    Args:
        slab: The slab.
        unit: The unit of the job.
    """

    def at(point: Point) -> Point:
        return (_length(point[0], unit), _length(point[1], unit))

    def path(points: Sequence[Point]) -> tuple[Point, ...]:
        moved = tuple(map(at, points))
        return moved if all(a != b for a, b in pairwise(moved)) else tuple(points)

    def ring(old: Ring) -> Ring:
        new = Ring(path(old.points), old.bulges)
        return new if new.points[0] != new.points[-1] and new.polygon.is_valid else old

    def size(mm: float) -> float:
        return _length(mm, unit) or mm

    return replace(
        slab,
        outline=ring(slab.outline),
        openings=tuple(ring(o) for o in slab.openings),
        walls=tuple(replace(w, path=path(w.path), thickness=size(w.thickness)) for w in slab.walls),
        columns=tuple(replace(c, at=at(c.at), size=size(c.size)) for c in slab.columns),
        penetrations=tuple(
            replace(p, at=at(p.at), diameter=size(p.diameter)) for p in slab.penetrations
        ),
        keep_outs=tuple(replace(k, outline=ring(k.outline)) for k in slab.keep_outs),
    )


def _length(mm: float, unit: Unit) -> float:
    """A length at the nearest step of the working unit, as it reads back from what is written for it."""
    if unit is Unit.FT:
        return parse_length(feet_inches(mm), Unit.IN)
    if unit is Unit.IN:
        return round(mm / MM_PER_INCH * SIXTEENTHS) / SIXTEENTHS * MM_PER_INCH + 0.0
    decimals = METRE_DECIMALS if unit is Unit.M else 0
    return round(mm / unit.mm, decimals) * unit.mm + 0.0
