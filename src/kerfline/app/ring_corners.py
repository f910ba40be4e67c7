"""Moves, adds and takes away corners of the outline and of openings; what is known of each edge stays with it.

Rings are numbered as in ``Edge``: 0 is the outline, n the nth opening. Nothing is checked for sense here.
"""

import math
from collections.abc import Iterable
from dataclasses import replace

from shapely import LineString
from shapely import Point as ShapelyPoint

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point, Ring, arc_of, flatten_arc
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import Edge, Slab

APART = 2 * TOUCH
"""Two corners nearer than this (mm) would be one."""

LEAST_CORNERS = 3
"""Corners of the simplest ring of straight edges."""


def ring_of(slab: Slab, number: int) -> Ring:
    """The outline (0) or an opening (from 1).

    Raises:
        InputRefused: There is no such opening.
    """
    if not 0 <= number <= len(slab.openings):
        raise InputRefused(Mistake(what="there is no such opening", where=f"opening {number}"))
    return slab.openings[number - 1] if number else slab.outline


def name_of(number: int) -> str:
    """What the user is told of a ring."""
    return f"opening {number}" if number else "outline"


def with_ring(slab: Slab, number: int, ring: Ring) -> Slab:
    """The slab with one ring in another's place."""
    if not number:
        return replace(slab, outline=ring)
    openings = (*slab.openings[: number - 1], ring, *slab.openings[number:])
    return replace(slab, openings=openings)


def move_corner(slab: Slab, number: int, index: int, to: Point) -> Slab:
    """The slab with one corner elsewhere; arcs beside it keep their sweep.

    Raises:
        InputRefused: There is no such corner, or it would lie on another.
    """
    return with_ring(slab, number, with_moved(ring_of(slab, number), name_of(number), index, to))


def with_moved(ring: Ring, name: str, index: int, to: Point) -> Ring:
    """A ring with one corner elsewhere; ``name`` is what the user calls it.

    Raises:
        InputRefused: There is no such corner, or it would lie on another.
    """
    _ask_corner(ring, name, index)
    others = (*ring.points[:index], *ring.points[index + 1 :])
    if min(math.dist(to, point) for point in others) < APART:
        raise InputRefused(
            Mistake(
                what="there is a corner already",
                where=name,
                remedy="take this corner away instead",
            )
        )
    points = (*ring.points[:index], to, *ring.points[index + 1 :])
    return Ring(points, ring.bulges)


def add_corner(
    slab: Slab, number: int, at: Point | None = None, segment: int | None = None
) -> Slab:
    """The slab with one corner more, on an edge as it runs now.

    Args:
        slab: The slab.
        number: Which ring.
        at: Where, brought onto the nearest edge; None for the middle of an edge.
        segment: Index of the corner that the edge begins at; None for the longest.

    Raises:
        InputRefused: A corner is there already, or there is no such edge.
    """
    ring, segment = with_added(ring_of(slab, number), name_of(number), at, segment)
    split = with_ring(slab, number, ring)
    return replace(split, edges=tuple(_split_edges(slab.edges, number, segment)))


def with_added(
    ring: Ring, name: str, at: Point | None = None, segment: int | None = None
) -> tuple[Ring, int]:
    """A ring with one corner more, and the index of the edge that it divides; as ``add_corner``.

    Raises:
        InputRefused: A corner is there already, or there is no such edge.
    """
    lines = [_line(ring, i) for i in range(len(ring.points))]
    if at is not None:
        spot = ShapelyPoint(at)
        segment = min(range(len(lines)), key=lambda i: lines[i].distance(spot))
        share = float(lines[segment].project(spot, normalized=True))
    else:
        segment = (
            max(range(len(lines)), key=lambda i: lines[i].length) if segment is None else segment
        )
        share = 0.5
    _ask_corner(ring, name, segment)
    if min(share, 1 - share) * lines[segment].length < APART:
        raise InputRefused(Mistake(what="the edge has a corner there already", where=name))
    return _split(ring, segment, share), segment


def remove_corner(slab: Slab, number: int, index: int) -> Slab:
    """The slab with one corner less; the edges beside it become one.

    Raises:
        InputRefused: There is no such corner, or too few would be left.
    """
    ring = with_removed(ring_of(slab, number), name_of(number), index)
    joined = with_ring(slab, number, ring)
    return replace(joined, edges=tuple(_joined_edges(slab, number, index)))


def with_removed(ring: Ring, name: str, index: int) -> Ring:
    """A ring with one corner less.

    Raises:
        InputRefused: There is no such corner, or too few would be left.
    """
    _ask_corner(ring, name, index)
    if len(ring.points) <= LEAST_CORNERS:
        raise InputRefused(
            Mistake(
                what=f"{LEAST_CORNERS} corners are the fewest that enclose anything",
                where=name,
                remedy="move the corner instead",
            )
        )
    return _joined(ring, index)


def _ask_corner(ring: Ring, name: str, index: int) -> None:
    if not 0 <= index < len(ring.points):
        raise InputRefused(Mistake(what="there is no such corner", where=name))


def _line(ring: Ring, segment: int) -> LineString:
    """One edge, an arc flattened."""
    start, end = ring.points[segment], ring.points[(segment + 1) % len(ring.points)]
    bulge = ring.bulge(segment)
    return LineString(flatten_arc(start, end, bulge) if bulge else (start, end))


def _split(ring: Ring, segment: int, share: float) -> Ring:
    """A ring with one edge in two, an arc in two arcs of the same circle."""
    start, end = ring.points[segment], ring.points[(segment + 1) % len(ring.points)]
    bulge = ring.bulge(segment)
    if bulge:
        new = arc_of(start, end, bulge).at(share)
        quarter = math.atan(bulge)
        parts = (math.tan(quarter * share), math.tan(quarter * (1 - share)))
    else:
        new = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        parts = (0.0, 0.0)
    points = (*ring.points[: segment + 1], new, *ring.points[segment + 1 :])
    bulges = (*ring.bulges[:segment], *parts, *ring.bulges[segment + 1 :]) if ring.bulges else ()
    return Ring(points, bulges)


def _joined(ring: Ring, index: int) -> Ring:
    """A ring without one corner; two arcs of one circle become one, else the new edge is straight."""
    before = (index - 1) % len(ring.points)
    points = (*ring.points[:index], *ring.points[index + 1 :])
    if not ring.bulges:
        return Ring(points)
    bulges = list(ring.bulges)
    bulges[before] = _one_arc(ring, before, index)
    del bulges[index]
    return Ring(points, tuple(bulges) if any(bulges) else ())


def _one_arc(ring: Ring, first: int, second: int) -> float:
    """The bulge of two neighbouring edges as one; 0 where they are not arcs of one circle."""
    one, two = ring.bulge(first), ring.bulge(second)
    if one * two <= 0:
        return 0.0
    middle, end = ring.points[second], ring.points[(second + 1) % len(ring.points)]
    arcs = arc_of(ring.points[first], middle, one), arc_of(middle, end, two)
    if math.dist(arcs[0].centre, arcs[1].centre) > SAME:
        return 0.0
    quarter = math.atan(one) + math.atan(two)
    return math.tan(quarter) if abs(quarter) < math.pi / 2 - SAME else 0.0


def _split_edges(edges: Iterable[Edge], ring: int, segment: int) -> Iterable[Edge]:
    """What is known of the edges after one became two, both as it was."""
    for edge in edges:
        if edge.ring != ring or edge.segment < segment:
            yield edge
        elif edge.segment == segment:
            yield edge
            yield replace(edge, segment=segment + 1)
        else:
            yield replace(edge, segment=edge.segment + 1)


def _joined_edges(slab: Slab, number: int, index: int) -> Iterable[Edge]:
    """What is known of the edges after two became one: of that one, what the longer was."""
    ring = ring_of(slab, number)
    before = (index - 1) % len(ring.points)
    longer = before if _line(ring, before).length >= _line(ring, index).length else index
    for edge in slab.edges:
        if edge.ring != number:
            yield edge
        elif edge.segment in (before, index):
            if edge.segment == longer:
                yield replace(edge, segment=before - (before > index))
        else:
            yield replace(edge, segment=edge.segment - (edge.segment > index))
