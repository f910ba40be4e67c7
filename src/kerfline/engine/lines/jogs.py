"""Lines that cross a slanted joint square: they bend before it, cross it, and run on a little to the side.

A bend on one side only would leave the joint to meet its partner of the other side a few feet along the
wall; bent on both sides, the two meet at one point. Beyond the wall the line runs parallel to its course
before it, moved over by the jog.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.lines.bends import CLEAR, GRAZING
from kerfline.engine.lines.candidates import CandidateLine
from kerfline.engine.lines.charts import SquareChart
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, SAME

REACH = 500.0
"""How far (mm) before and behind a slanted joint a line bends: the least in guidance, for a small jog."""

Crossing = tuple[Point, Point, Point]
"""Where a line bends, crosses and bends back: place along its axis of position, place along itself."""


@dataclass(frozen=True)
class Bar:
    """A straight piece of a slanted joint, as a line's position and place along it.

    Attributes:
        start: One end.
        end: The other end.
    """

    start: Point
    end: Point


def bars_of(chart: SquareChart, joints: Sequence[LineString], axis: int) -> list[Bar]:
    """The straight pieces of joints, seen along the lines of one axis of a chart."""
    bars = []
    for joint in joints:
        places = chart.measure(shapely.get_coordinates(joint))
        turned = [(float(p[axis]), float(p[1 - axis])) for p in np.asarray(places)]
        bars += [Bar(a, b) for a, b in pairwise(turned)]
    return bars


def jogged(line: CandidateLine, axis: int, bars: Sequence[Bar], least: float) -> CandidateLine:
    """A candidate line that jogs at every slanted joint that it would cross under the least angle.

    The line keeps its place on the whole: it is moved half the jog one way and half the other.
    """
    low, high = line.through[0], line.through[-1]
    at = sum(p[axis] for p in line.through) / len(line.through)
    reach = (low[1 - axis], high[1 - axis])
    plain = list(_crossings(at, reach, bars, least))
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
    at: float, reach: tuple[float, float], bars: Sequence[Bar], least: float
) -> Iterator[Crossing]:
    """The crossings of a line that starts at a position, each moving it over for the next."""
    floor = reach[0]
    while True:
        hits = sorted((h, n) for n, b in enumerate(bars) if (h := _hit(b, at)) is not None)
        ahead = [(h, n) for h, n in hits if floor + SAME < h < reach[1]]
        if not ahead:
            return
        hit, number = ahead[0]
        crossing = _square_across(at, hit, bars[number], least)
        if crossing is None or crossing[0][1] < floor + CLEAR:
            floor = hit
            continue
        yield crossing
        at, floor = crossing[-1]


def _hit(bar: Bar, at: float) -> float | None:
    """Where along itself a line at a position meets a straight piece."""
    (p0, q0), (p1, q1) = bar.start, bar.end
    if abs(p1 - p0) <= SAME or not min(p0, p1) <= at <= max(p0, p1):
        return None
    return q0 + (q1 - q0) * (at - p0) / (p1 - p0)


def _square_across(at: float, hit: float, bar: Bar, least: float) -> Crossing | None:
    """How a line crosses a straight piece square; None where it is steep enough, grazes it, or misses."""
    dp, dq = bar.end[0] - bar.start[0], bar.end[1] - bar.start[1]
    size = math.hypot(dp, dq)
    flat = math.degrees(math.asin(min(1.0, abs(dp) / size)))
    if not GRAZING <= flat < least - DEGREES:
        return None
    sign = 1.0 if dp > 0 else -1.0
    normal = (-sign * dq / size, sign * dp / size)
    first = (at, hit - REACH / normal[1])
    middle = (at + REACH * normal[0], first[1] + REACH * normal[1])
    last = (middle[0] + REACH * normal[0], middle[1] + REACH * normal[1])
    share = ((middle[0] - bar.start[0]) * dp + (middle[1] - bar.start[1]) * dq) / size**2
    return (first, middle, last) if 0.0 < share < 1.0 else None
