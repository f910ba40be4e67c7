"""Corners where two walls butt and neither goes around: each stops at the other's centre line.

Their outer faces leave a notch at the corner that nobody builds. Sizes are common practice, tried on the drawings of
the forge (``tests/forge``).
"""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from kerfline.geometry.chains import crossing
from kerfline.geometry.corners import direction, turn_between
from kerfline.geometry.ring import Point

DEEPEST = 310.0
"""A notch reaches in by half a wall's thickness: up to this (mm) for the thickest."""

LONG = 2.0
"""Each outer face beside a notch is longer than it by this factor at least."""

SLACK = 3.0
"""A drawn line lies on an edge within this (mm)."""

DRAWN = 0.9
"""Share of a side of a notch that lines cover where it is drawn."""

RUNS_ON = 25.0
"""A wall's end goes on past the notch's inner corner for this long (mm), into the other wall."""

HALF_TURN = 180.0
"""Degrees up to which an edge turns left."""

LEAST_CORNERS = 6
"""A rectangle with one notch has as many."""


def straight_past(area: Polygon, faces: Sequence[LineString]) -> tuple[Polygon, int]:
    """An area around walls with its outer faces carried on to where they meet at butted corners.

    Args:
        area: The area within the outer faces.
        faces: The lines that the walls are drawn with.

    Returns:
        The area without the notches that no line goes around, or only ends of walls that go on into one another, and
        how many they were. A notch that is drawn as such stays.
    """
    points = [(float(x), float(y)) for x, y in orient(area).exterior.coords[:-1]]
    lines = shapely.union_all([f for f in faces if f.dwithin(area.exterior, SLACK)])
    filled, index = 0, 0
    while index < len(points) and len(points) >= LEAST_CORNERS:
        ring = [*points[index:], *points[:index]]
        tip = _tip(ring[:5])
        if tip and not _drawn(ring[1:4], lines):
            points, filled, index = [ring[0], tip, *ring[4:]], filled + 1, 0
        else:
            index += 1
    whole = Polygon(points)
    return (whole, filled) if filled and whole.is_valid else (area, 0)


def _tip(corners: Sequence[Point]) -> Point | None:
    """Where two long edges meet across the notch between them; None where there is no notch at a corner.

    Args:
        corners: The far end of one edge, the notch's outer, inner and outer corner, the far end of the other edge.
    """
    sides = list(pairwise(corners))
    first, into, back, last = (math.dist(*s) for s in sides)
    deep = max(into, back)
    if deep > DEEPEST or min(first, last) < LONG * deep:
        return None
    ways = [direction(*s) for s in sides]
    left = [turn_between(a, b) < HALF_TURN for a, b in pairwise(ways)]
    if left != [True, False, True]:
        return None
    tip = crossing((corners[0], corners[1]), (corners[4], corners[3]), DEEPEST)
    beyond = tip and math.dist(tip, corners[0]) > first and math.dist(tip, corners[4]) > last
    return tip if beyond else None


def _drawn(notch: Sequence[Point], lines: BaseGeometry) -> bool:
    """Whether lines go along both sides of a notch and stop at its inner corner."""
    start, inner, end = notch
    return all(_stops(LineString([outer, inner]), lines) for outer in (start, end))


def _stops(side: LineString, lines: BaseGeometry) -> bool:
    outer, inner = map(np.asarray, side.coords)
    way = (inner - outer) / side.length
    beyond = LineString([inner + SLACK * way, inner + RUNS_ON * way])
    return _share(side, lines) >= DRAWN > _share(beyond, lines)


def _share(line: LineString, lines: BaseGeometry) -> float:
    """Share of a line that others lie on."""
    strip = line.buffer(SLACK, cap_style="flat")
    return min(1.0, lines.intersection(strip).length / line.length)
