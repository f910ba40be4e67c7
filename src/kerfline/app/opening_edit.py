"""Adds, moves, sizes and takes away openings. Openings have no names: they are numbered from 1, in order."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from kerfline.app.ring_corners import ring_of, with_ring
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import DEGREES, SAME
from kerfline.model.slab import Slab

RECTANGLE = 4
CIRCLE = 2


@dataclass(frozen=True, slots=True)
class Size:
    """One size of an opening that can be changed.

    Attributes:
        field: Its name in a message.
        words: Its name for people.
        mm: The size.
        way: Unit vector along which it is measured; (0, 0) where the whole opening grows in proportion.
    """

    field: str
    words: str
    mm: float
    way: Point


def add_opening(slab: Slab, first: Point, opposite: Point) -> Slab:
    """The slab with one opening more, a rectangle between two opposite corners.

    Raises:
        InputRefused: It would have no area.
    """
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(first, opposite, strict=True))
    if min(x1 - x0, y1 - y0) <= SAME:
        raise InputRefused(
            Mistake(what="the opening has no area", remedy="tap two opposite corners of it")
        )
    ring = Ring(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    return replace(slab, openings=(*slab.openings, ring))


def remove_opening(slab: Slab, number: int) -> Slab:
    """The slab without one opening; what is known of the edges of the others stays with them."""
    _opening(slab, number)
    edges = (
        replace(edge, ring=edge.ring - (edge.ring > number))
        for edge in slab.edges
        if edge.ring != number
    )
    openings = (*slab.openings[: number - 1], *slab.openings[number:])
    return replace(slab, openings=openings, edges=tuple(edges))


def move_opening(slab: Slab, number: int, by: Point) -> Slab:
    """The slab with one opening moved, mm."""
    return _mapped(slab, number, lambda p: (p[0] + by[0], p[1] + by[1]))


def place_opening(slab: Slab, number: int, axis: int, mm: float) -> Slab:
    """The slab with one opening so far from the slab's left (axis 0) or lower (1) side."""
    here = place_of(slab, number)[axis]
    return move_opening(slab, number, (mm - here, 0.0) if axis == 0 else (0.0, mm - here))


def place_of(slab: Slab, number: int) -> Point:
    """How far the left and the lower side of an opening lie from those of the slab, mm."""
    x0, y0, _, _ = slab.gross.bounds
    left, low, _, _ = _opening(slab, number).polygon.bounds
    return (float(left - x0), float(low - y0))


def resize_opening(slab: Slab, number: int, field: str, mm: float) -> Slab:
    """The slab with one size of an opening changed; its left or lower side stays, a circle its centre.

    Args:
        slab: The slab.
        number: Which opening.
        field: Name of the size, one of those of ``sizes_of``.
        mm: The new size, above zero.

    Raises:
        InputRefused: The opening has no such size.
    """
    ring = _opening(slab, number)
    size = next((s for s in sizes_of(ring) if s.field == field), None)
    if size is None:
        raise InputRefused(
            Mistake(what="an opening of this shape has no such size", where=f"opening {number}")
        )
    share = mm / size.mm
    x0, y0, x1, y1 = ring.polygon.bounds
    if size.way == (0.0, 0.0):
        fx, fy = ((x0 + x1) / 2, (y0 + y1) / 2) if field == "diameter" else (x0, y0)
        return _mapped(slab, number, lambda p: (fx + (p[0] - fx) * share, fy + (p[1] - fy) * share))
    least = min(_along(p, size.way) for p in ring.points)

    def stretched(point: Point) -> Point:
        step = (_along(point, size.way) - least) * (share - 1)
        return (point[0] + step * size.way[0], point[1] + step * size.way[1])

    return _mapped(slab, number, stretched)


def sizes_of(ring: Ring) -> tuple[Size, ...]:
    """The sizes of an opening that can be changed.

    A circle has its diameter. A rectangle has its sides; turned, the longer is its length. Anything else
    has what it takes up to the right and upwards; with arcs in it, it grows in proportion.
    """
    x0, y0, x1, y1 = map(float, ring.polygon.bounds)
    if len(ring.points) == CIRCLE:
        return (Size("diameter", "Diameter", math.dist(*ring.points), (0.0, 0.0)),)
    if ring.has_arcs:
        still = (0.0, 0.0)
        return (
            Size("across", "Left to right", x1 - x0, still),
            Size("up", "Bottom to top", y1 - y0, still),
        )
    if _turned_rectangle(ring):
        (a, b, c, _) = ring.points
        sides = sorted(((a, b), (b, c)), key=lambda s: -math.dist(*s))
        return tuple(
            Size(field, words, math.dist(*side), direction(*side))
            for (field, words), side in zip(
                (("length", "Length"), ("width", "Width")), sides, strict=True
            )
        )
    return (
        Size("across", "Left to right", x1 - x0, (1.0, 0.0)),
        Size("up", "Bottom to top", y1 - y0, (0.0, 1.0)),
    )


def _turned_rectangle(ring: Ring) -> bool:
    """Whether a ring is a rectangle whose sides do not run to the right and upwards."""
    points = ring.points
    if len(points) != RECTANGLE:
        return False
    ways = [direction(points[i - 1], points[i]) for i in range(RECTANGLE)]
    slack = math.sin(math.radians(DEGREES))
    square = all(
        abs(ways[i - 1][0] * ways[i][0] + ways[i - 1][1] * ways[i][1]) <= slack
        for i in range(RECTANGLE)
    )
    return square and min(abs(ways[0][0]), abs(ways[0][1])) > slack


def _opening(slab: Slab, number: int) -> Ring:
    if number < 1:
        raise InputRefused(Mistake(what="there is no such opening", where=f"opening {number}"))
    return ring_of(slab, number)


def _mapped(slab: Slab, number: int, to: Callable[[Point], Point]) -> Slab:
    ring = _opening(slab, number)
    return with_ring(slab, number, Ring(tuple(map(to, ring.points)), ring.bulges))


def _along(point: Point, way: Point) -> float:
    return point[0] * way[0] + point[1] * way[1]
