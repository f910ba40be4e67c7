"""Corners of a figure and the angles at them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, pairwise

from shapely import LineString, Polygon
from shapely.geometry.polygon import orient

from kerfline.geometry.faces import Area, points_of, rings_of
from kerfline.geometry.rectangle import KEPT
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of a figure.

    Attributes:
        at: Place in mm.
        angle: Angle inside the figure in degrees; above 180 the corner is re-entrant.
        before: Unit vector from the corner back along the edge that arrives.
        after: Unit vector from the corner along the edge that leaves.
    """

    at: Point
    angle: float
    before: Point
    after: Point

    @property
    def reentrant(self) -> bool:
        """Whether the inside angle is above 180 degrees."""
        return self.angle > 180.0 + CORNER_TURN


def corners(polygon: Area) -> list[Corner]:
    """Every vertex that turns by more than ``CORNER_TURN``, outer ring first, in ring order.

    The vertices of flattened arcs turn by at most ``ARC_STEP`` and are no corners.
    """
    return list(_corners(polygon))


@lru_cache(maxsize=KEPT)
def _corners(polygon: Area) -> tuple[Corner, ...]:
    return tuple(chain.from_iterable(corners_by_ring(polygon)))


def corners_by_ring(polygon: Area) -> list[list[Corner]]:
    """The corners of each ring, outer ring first, in ring order with the figure on the left."""
    return [
        _ring_corners([(float(x), float(y)) for x, y in ring.coords[:-1]])
        for piece in ([polygon] if isinstance(polygon, Polygon) else polygon.geoms)
        for ring in rings_of(orient(piece))
    ]


JOG = 75.0
"""A step in an edge shallower than this (mm, about 3 in) is a surveyor's jog rather than a corner to
plan joints for. Common practice; no publication gives a number."""


@dataclass(frozen=True, slots=True)
class CornerGroup:
    """One re-entrant corner, which a chamfer may make of several vertices.

    Attributes:
        corners: Its vertices, in ring order.
        jog: Whether it is only a step shallower than ``JOG``.
    """

    corners: tuple[Corner, ...]
    jog: bool

    @property
    def whole(self) -> Corner:
        """All of it as one corner: at its middle vertex, between the edges that arrive and leave."""
        first, last = self.corners[0], self.corners[-1]
        middle = self.corners[len(self.corners) // 2]
        angle = turn_between(last.after, first.before)
        return Corner(middle.at, angle, first.before, last.after)


def corner_groups(ring: Sequence[Corner]) -> list[CornerGroup]:
    """The re-entrant corners of a ring.

    Re-entrant vertices that a run shorter than ``JOG`` joins are one chamfered corner. A corner that so
    short a run parts from an outward corner is a jog.
    """
    count = len(ring)
    near = [math.dist(ring[i].at, ring[(i + 1) % count].at) <= JOG for i in range(count)]
    starts = [
        i
        for i, c in enumerate(ring)
        if c.reentrant and not (count > 1 and near[i - 1] and ring[i - 1].reentrant)
    ]
    groups = []
    for start in starts:
        end = start
        while near[end % count] and ring[(end + 1) % count].reentrant and end - start < count - 1:
            end += 1
        members = tuple(ring[i % count] for i in range(start, end + 1))
        groups.append(CornerGroup(members, near[start - 1] or near[end % count]))
    return groups


def reentrant_corners(polygon: Area) -> list[Corner]:
    """The corners whose angle inside the figure is above 180 degrees."""
    return [c for c in corners(polygon) if c.reentrant]


def _ring_corners(points: list[Point]) -> list[Corner]:
    """Corners of one ring with the solid on its left."""
    out = []
    for i, at in enumerate(points):
        before = direction(at, points[i - 1])
        after = direction(at, points[(i + 1) % len(points)])
        angle = turn_between(after, before)
        if abs(angle - 180.0) > CORNER_TURN:
            out.append(Corner(at, angle, before, after))
    return out


def direction(start: Point, end: Point) -> Point:
    """Unit vector from one point to another; (0, 0) where they coincide."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = math.hypot(dx, dy)
    return (dx / size, dy / size) if size else (0.0, 0.0)


def turn_between(first: Point, second: Point) -> float:
    """Anticlockwise angle from one vector to another, degrees, 0 <= angle < 360."""
    cross = first[0] * second[1] - first[1] * second[0]
    dot = first[0] * second[0] + first[1] * second[1]
    return math.degrees(math.atan2(cross, dot)) % 360.0


def angle_between(first: Point, second: Point) -> float:
    """Angle between two vectors, degrees, 0 to 180."""
    turn = turn_between(first, second)
    return min(turn, 360.0 - turn)


def sine_between(first: Point, second: Point) -> float:
    """Sine of the angle between two lines along unit vectors, whichever way they run: 0 where they are parallel."""
    return abs(first[0] * second[1] - first[1] * second[0])


def ahead(at: Point, way: Point, far: float) -> Point:
    """The point so far (mm) from another along a unit vector."""
    return (at[0] + way[0] * far, at[1] + way[1] * far)


def seen_along(start: Point, way: Point, at: Point) -> Point:
    """How far (mm) a point lies from a start along a unit vector, and how far to the right of it."""
    dx, dy = at[0] - start[0], at[1] - start[1]
    return (dx * way[0] + dy * way[1], dx * way[1] - dy * way[0])


def runs_of(line: LineString) -> list[LineString]:
    """A line cut at its sharp bends: each run is straight, or bends little by little."""
    points = points_of(line)
    cuts = [
        i
        for i in range(1, len(points) - 1)
        if angle_between(direction(points[i - 1], points[i]), direction(points[i], points[i + 1]))
        > CORNER_TURN
    ]
    return [LineString(points[a : b + 1]) for a, b in pairwise([0, *cuts, len(points) - 1])]
