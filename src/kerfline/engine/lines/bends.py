"""Where a line bends that would meet something too flat: square to what it ends on, or across a slanted joint.

Pavement guidance bends joints square to a curved or skew edge within the last 0.5 to 1.0 m (1.5 to 3 ft); the same
stretch serves here at skew edges and diagonal walls.

A line that goes on beyond a slanted joint jogs: bent on one side only it would meet its partner of the other side a
few feet along the wall; bent on both sides, the two meet at one point. Beyond the wall the line runs parallel to its
course before it, moved over by the jog.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.lines.candidates import CandidateLine
from kerfline.engine.lines.charts import SquareChart
from kerfline.geometry.corners import ahead, angle_between, direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, SAME, TOUCH

LEVER = 50.0
"""How far (mm) along an edge its direction is read at an end."""

STRETCHES = (700.0, 500.0, 950.0)
"""How far (mm) before the edge a joint may bend, the best first."""

CLEAR = 300.0
"""A bend stays this far (mm) from where the joint crosses another."""

GRAZING = 15.0
"""A joint that comes in flatter than this (degrees) runs along the edge: no bend mends it."""

SQUARE_ON = 15.0
"""A bent end comes in within this (degrees) of square."""

REACH = 500.0
"""How far (mm) before and behind a slanted joint a line bends: the least in guidance, for a small jog."""


@dataclass(frozen=True)
class Bend:
    """How the end of a line may bend.

    Attributes:
        knee: Where it leaves its straight course.
        foot: Where it meets, square, what it ends on.
    """

    knee: Point
    foot: Point


def bends_at(
    stops: Sequence[LineString], inner: Point, tip: Point, least: float, room: float
) -> Iterator[Bend]:
    """Ways to bend the end of a line, the best first; none where it comes in square enough.

    Args:
        stops: What the line may end on.
        inner: A point of its last straight stretch.
        tip: Its end.
        least: The least angle, degrees.
        room: How far (mm) it runs straight before its end.
    """
    target = under(stops, tip)
    if target is None:
        return
    way = direction(inner, tip)
    along = tangent(target, tip)
    flat = angle_between(way, along)
    if not GRAZING <= min(flat, 180.0 - flat) < least - DEGREES:
        return
    for stretch in STRETCHES:
        back = stretch / math.sin(math.radians(flat))
        if back > room - CLEAR:
            continue
        knee = ahead(tip, way, -back)
        foot = _foot(target, knee, along, tip)
        if foot is not None:
            yield Bend(knee, foot)


def _foot(line: LineString, knee: Point, along: Point, tip: Point) -> Point | None:
    """The point of a line square across from a knee; None where the line ends before."""
    spot = line.interpolate(line.project(shapely.Point(knee)))
    foot = (float(spot.x), float(spot.y))
    way = direction(knee, foot)
    if abs(way[0] * along[0] + way[1] * along[1]) > math.sin(math.radians(SQUARE_ON)):
        return None
    return foot if math.dist(foot, tip) > TOUCH else None


def under(lines: Sequence[LineString], tip: Point) -> LineString | None:
    """The line that an end stops on."""
    away = np.round(shapely.distance(np.asarray(lines, dtype=object), shapely.Point(tip)), 6)
    nearest = int(np.argmin(away)) if len(lines) else -1
    return lines[nearest] if len(lines) and away[nearest] <= TOUCH else None


def tangent(line: LineString, at: Point) -> Point:
    """The direction of a line at a point on it."""
    where = line.project(shapely.Point(at))
    before = line.interpolate(max(0.0, where - LEVER))
    after = line.interpolate(min(line.length, where + LEVER))
    return direction((before.x, before.y), (after.x, after.y))


def arrival(lines: Sequence[LineString], inner: Point, tip: Point) -> float | None:
    """Angle (degrees, up to 90) at which a stretch comes in on the line that it stops on."""
    target = under(lines, tip)
    if target is None:
        return None
    flat = angle_between(direction(inner, tip), tangent(target, tip))
    return min(flat, 180.0 - flat)


Crossing = tuple[Point, Point, Point]
"""Where a line bends, crosses and bends back: place along its axis of position, place along itself."""


Bar = tuple[Point, Point]
"""A straight piece of a slanted joint: the position of either end across lines, and its place along them."""


def bars_of(chart: SquareChart, joints: Sequence[LineString], axis: int) -> list[Bar]:
    """The straight pieces of joints, seen along the lines of one axis of a chart."""
    bars: list[Bar] = []
    for joint in joints:
        places = chart.measure(shapely.get_coordinates(joint))
        turned = [(float(p[axis]), float(p[1 - axis])) for p in np.asarray(places)]
        bars += pairwise(turned)
    return bars


def jogged(line: CandidateLine, axis: int, bars: Sequence[Bar], least: float) -> CandidateLine:
    """A candidate line that jogs at every slanted joint that it would cross under the least angle.

    The line keeps its place on the whole: it is moved half the jog one way and half the other.
    """
    low, high = line.through[0], line.through[-1]
    at = line.place(axis)
    reach = (low[1 - axis], high[1 - axis])
    plain = list(_crossings(at, reach, bars, least, -math.inf))  # only to know how far it moves
    if not plain:
        return line
    start = at - (plain[-1][-1][0] - at) / 2
    crossings = list(_crossings(start, reach, bars, least))
    if not crossings:
        return line
    course = [
        (start, reach[0]),
        *(p for c in crossings for p in c),
        (crossings[-1][-1][0], reach[1]),
    ]
    through = tuple((p, q) if axis == 0 else (q, p) for p, q in course)
    return CandidateLine(through, line.reason)


def knees_of(chart: SquareChart, line: CandidateLine) -> tuple[Point, ...]:
    """Where a jogged line bends, in the frame."""
    points = shapely.get_coordinates(chart.curve(line.through))[1:-1]
    return tuple((float(x), float(y)) for x, y in points)


def _crossings(
    at: float,
    reach: tuple[float, float],
    bars: Sequence[Bar],
    least: float,
    clear: float = CLEAR,
) -> Iterator[Crossing]:
    """The crossings of a line that starts at a position, each moving it over for the next.

    Bends stay so far (mm) from both ends of the line and from one another.
    """
    floor = reach[0]
    while True:
        hits = sorted((h, n) for n, b in enumerate(bars) if (h := _hit(b, at)) is not None)
        ahead = [(h, n) for h, n in hits if floor + SAME < h < reach[1]]
        if not ahead:
            return
        hit, number = ahead[0]
        crossing = _square_across(at, hit, bars[number], least)
        if crossing is None or crossing[0][1] < floor + clear or crossing[-1][1] > reach[1] - clear:
            floor = hit
            continue
        yield crossing
        at, floor = crossing[-1]


def _hit(bar: Bar, at: float) -> float | None:
    """Where along itself a line at a position meets a straight piece."""
    (p0, q0), (p1, q1) = bar
    if abs(p1 - p0) <= SAME or not min(p0, p1) <= at <= max(p0, p1):
        return None
    return q0 + (q1 - q0) * (at - p0) / (p1 - p0)


def _square_across(at: float, hit: float, bar: Bar, least: float) -> Crossing | None:
    """How a line crosses a straight piece square; None where it is steep enough, grazes it, or misses."""
    (p0, q0), (p1, q1) = bar
    dp, dq = p1 - p0, q1 - q0
    size = math.hypot(dp, dq)
    flat = math.degrees(math.asin(min(1.0, abs(dp) / size)))
    if not GRAZING <= flat < least - DEGREES:
        return None
    sign = 1.0 if dp > 0 else -1.0
    normal = (-sign * dq / size, sign * dp / size)
    first = (at, hit - REACH / normal[1])
    middle = (at + REACH * normal[0], first[1] + REACH * normal[1])
    last = (middle[0] + REACH * normal[0], middle[1] + REACH * normal[1])
    share = ((middle[0] - p0) * dp + (middle[1] - q0) * dq) / size**2
    return (first, middle, last) if 0.0 < share < 1.0 else None
