"""The lines that may divide a piece at a point, and their chords in its concrete."""

import itertools
from collections.abc import Iterable

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.corners import Corner, direction
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME

Chords = tuple[tuple[Point, Point], ...]

REACH = 4.0
"""How far cuts are drawn beyond a piece, as a share of its size."""


def corner_ways(piece: Polygon, corner: Corner) -> Iterable[Point]:
    """Directions in which a joint may leave a re-entrant corner, into the concrete."""
    before, after = corner.before, corner.after
    halving = direction((0.0, 0.0), (-(before[0] + after[0]), -(before[1] + after[1])))
    square = [(before[1], -before[0]), (-after[1], after[0])]
    return [
        (-before[0], -before[1]),
        (-after[0], -after[1]),
        halving,
        *square,
        *_facing(piece, corner),
    ]


def _facing(piece: Polygon, corner: Corner) -> list[Point]:
    """The direction square to the nearest edge that the corner looks at."""
    ring = piece.exterior.coords
    spot = shapely.Point(corner.at)
    best: tuple[float, Point] | None = None
    for start, end in itertools.pairwise(ring):
        side = LineString([start, end])
        foot = side.interpolate(side.project(spot))
        reach = foot.distance(spot)
        inside = reach > 1.0 and piece.covers(
            LineString([corner.at, (foot.x, foot.y)]).interpolate(0.5, normalized=True)
        )
        if inside and (best is None or reach < best[0] - SAME):
            best = (reach, direction(corner.at, (foot.x, foot.y)))
    return [best[1]] if best else []


def chords(piece: Polygon, at: Point, way: Point, *, through: bool = False) -> list[Chords]:
    """The chords of a piece on the line through a point; with ``through`` the one that touches it.

    A piece with holes takes the whole line, for a chord between outline and hole parts nothing.
    """
    x0, y0, x1, y1 = piece.bounds
    size = REACH * max(x1 - x0, y1 - y0)
    ends = [
        (at[0] - way[0] * size, at[1] - way[1] * size),
        (at[0] + way[0] * size, at[1] + way[1] * size),
    ]
    parts = [_ends_of(part) for part in lines_of(LineString(ends).intersection(piece))]
    if piece.interiors:
        return [tuple(parts)] if parts else []
    spot = shapely.Point(at)
    return [(p,) for p in parts if not through or LineString(p).distance(spot) <= 1.0]


def _ends_of(part: LineString) -> tuple[Point, Point]:
    (x0, y0), (x1, y1) = part.coords[0], part.coords[-1]
    return (float(x0), float(y0)), (float(x1), float(y1))
