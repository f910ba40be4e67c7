"""Bent joints as lines: their knees, their stretches, and the parts of them that lie in concrete."""

import itertools
import math
from collections.abc import Sequence

import shapely
from shapely import LineString

from kerfline.app.joint_axis import SHORTEST
from kerfline.geometry.corners import direction, turn_between
from kerfline.geometry.faces import Area, lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import ARC_STEP, DEGREES

Path = tuple[Point, ...]

CURVED = 3
"""So many points in succession that turn the same way by no more than the chords of an arc do are a curve."""


def length_of(path: Sequence[Point]) -> float:
    """Length of a path, mm."""
    return sum(math.dist(a, b) for a, b in itertools.pairwise(path))


def knees_of(path: Sequence[Point]) -> list[int]:
    """Which points of a path are knees: all between its ends but those of a flattened arc."""
    turns = [_turn(path, i) for i in range(1, len(path) - 1)]
    arc = [DEGREES < abs(t) <= ARC_STEP + DEGREES for t in turns]
    found: list[int] = []
    start = 0
    for curved, group in itertools.groupby(
        range(len(turns)), key=lambda i: (arc[i], turns[i] > 0) if arc[i] else (False, False)
    ):
        count = len(list(group))
        if not curved[0] or count < CURVED:
            found.extend(range(start + 1, start + count + 1))
        start += count
    return found


def _turn(path: Sequence[Point], index: int) -> float:
    """How far a path turns at a point, degrees, -180 to 180, positive to the left."""
    before = direction(path[index - 1], path[index])
    after = direction(path[index], path[index + 1])
    turn = turn_between(before, after)
    return turn if turn <= 180.0 else turn - 360.0  # noqa: PLR2004 - half a circle


def longest_stretch(path: Sequence[Point]) -> int:
    """Index of the first point of the longest straight stretch; the first of those of one length."""
    return max(range(len(path) - 1), key=lambda i: (math.dist(path[i], path[i + 1]), -i))


def within(concrete: Area, path: Path) -> list[Path]:
    """The parts of a bent line that lie in concrete, in order and direction along it.

    Args:
        concrete: The slab's concrete.
        path: A line that does not cross itself.
    """
    line = LineString(path)
    if concrete.covers(line):
        return [path]
    merged = shapely.line_merge(shapely.MultiLineString(lines_of(line.intersection(concrete))))
    parts = [part for part in lines_of(merged) if part.length >= SHORTEST]
    return sorted((_along(line, part) for part in parts), key=lambda p: _place(line, p[0]))


def _along(line: LineString, part: LineString) -> Path:
    """The points of a part of a line in the direction of the line."""
    points = tuple((float(x), float(y)) for x, y in part.coords)
    return points if _place(line, points[0]) <= _place(line, points[-1]) else points[::-1]


def _place(line: LineString, point: Point) -> float:
    return float(line.project(shapely.Point(point)))
