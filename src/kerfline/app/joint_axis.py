"""Where a straight joint may begin and end: the line that it lies on and the stops along it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString

from kerfline.app.working import DrawnJoint
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area, lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

STRAIGHT = 2
"""Points of a straight joint."""

OVERLAP = 2 * TOUCH
"""Two stops nearer than this (mm) are one."""

SHORTEST = 25.4
"""A joint shorter than this (mm) is dropped: nobody cuts an inch."""


@dataclass(frozen=True, slots=True)
class Axis:
    """The endless line that a straight joint lies on: a point and a unit direction."""

    origin: Point
    way: Point

    def at(self, t: float) -> Point:
        """The point at a distance (mm) along it."""
        return (self.origin[0] + t * self.way[0], self.origin[1] + t * self.way[1])

    def place(self, point: Point) -> float:
        """How far along it a point lies, mm."""
        return (point[0] - self.origin[0]) * self.way[0] + (point[1] - self.origin[1]) * self.way[1]


def line_of(joint: DrawnJoint) -> LineString:
    """A joint's path as a line."""
    return LineString(joint.path)


def straight(joint: DrawnJoint) -> bool:
    """Whether a joint is one straight line."""
    return len(joint.path) == STRAIGHT


def axis_of(joint: DrawnJoint) -> Axis:
    """The endless line of a straight joint, from its first point to its last."""
    return Axis(joint.path[0], direction(joint.path[0], joint.path[-1]))


def crossings(axis: Axis, shape: shapely.Geometry, reach: float) -> list[float]:
    """Where an endless line meets a shape's lines: distances along it, sorted.

    Args:
        axis: The line.
        shape: Lines or the boundary of an area.
        reach: Half the length (mm) of line that is looked at, about the axis's origin.
    """
    ray = LineString([axis.at(-reach), axis.at(reach)])
    met = shapely.get_coordinates(ray.intersection(shape))
    return sorted(axis.place((float(x), float(y))) for x, y in met)


def reach_of(concrete: Area, point: Point) -> float:
    """A distance from a point that is beyond every part of the slab, mm."""
    x0, y0, x1, y1 = concrete.bounds
    return sum(math.dist(point, corner) for corner in ((x0, y0), (x1, y1))) + 1.0


def inside(concrete: Area, axis: Axis, span: tuple[float, float]) -> list[tuple[Point, Point]]:
    """The parts of a stretch of line that lie in concrete, in order along it.

    Args:
        concrete: The slab's concrete.
        axis: The line.
        span: From where to where along it, mm, in either order.
    """
    low, high = min(span), max(span)
    if high - low < SHORTEST:
        return []
    line = LineString([axis.at(low), axis.at(high)])
    parts = [part for part in lines_of(line.intersection(concrete)) if part.length >= SHORTEST]
    ends = [_ends(part, axis) for part in parts]
    return sorted(ends, key=lambda pair: axis.place(pair[0]))


def _ends(part: LineString, axis: Axis) -> tuple[Point, Point]:
    points = sorted(((float(x), float(y)) for x, y in part.coords), key=axis.place)
    return points[0], points[-1]


def stops_along(concrete: Area, axis: Axis, others: Sequence[DrawnJoint]) -> list[float]:
    """Everything along an axis that a joint may end on, distances in mm."""
    reach = reach_of(concrete, axis.origin)
    stops = crossings(axis, concrete.boundary, reach)
    for other in others:
        stops += crossings(axis, line_of(other), reach)
    return sorted(stops)


def next_stop(concrete: Area, axis: Axis, start: float, others: Sequence[DrawnJoint]) -> float:
    """The first edge or joint along an axis from a place on (mm); the place itself where there is none."""
    stops = stops_along(concrete, axis, others)
    return next((t for t in stops if t > start - TOUCH), start)
