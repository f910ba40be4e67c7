"""When each point of a placement gets its concrete."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon, affinity

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.placement.division import lane_count
from kerfline.placement.setting import Course

STATIONS = 12
"""Places along a lane at which the volume behind the front is measured."""

Reach = Callable[[Point], float]
"""How far a point lies from the trucks, mm."""

VolumeOf = Callable[[Polygon | MultiPolygon], float]
"""Concrete (mm3) over a region of the plan."""


@dataclass(frozen=True, kw_only=True)
class Lane:
    """One pass of the screed: a strip of a placement along its direction of travel.

    Attributes:
        low: Lower edge across the direction, mm in the placement's own frame.
        high: Upper edge.
        stations: Places along the direction, rising.
        times: Clock hours at which the front is there.
    """

    low: float
    high: float
    stations: tuple[float, ...]
    times: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class PlacingClock:
    """The front of a placement against the clock.

    Attributes:
        angle: Direction of travel, degrees anticlockwise from x.
        lanes: In the order of placing.
    """

    angle: float
    lanes: tuple[Lane, ...]

    def at(self, point: Point) -> tuple[float, float]:
        """Clock hours of the first and the last concrete at a point; outside, of the nearest place."""
        first, last = self.times(np.array([point]))
        return float(first[0]), float(last[0])

    def times(self, points: Course) -> tuple[Course, Course]:
        """Clock hours of the first and the last concrete at points, an array of x and y.

        The two differ where a point lies between two lanes, whose concrete comes one after the other.
        """
        cos, sin = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        along, across = points @ (cos, sin), points @ (-sin, cos)
        off = np.array(
            [
                np.maximum(0.0, np.maximum(lane.low - across, across - lane.high))
                for lane in self.lanes
            ]
        )
        there = np.array([np.interp(along, lane.stations, lane.times) for lane in self.lanes])
        near = off <= off.min(axis=0) + TOUCH
        first: Course = np.where(near, there, np.inf).min(axis=0)
        last: Course = np.where(near, there, -np.inf).max(axis=0)
        return first, last

    @property
    def pass_time(self) -> float:
        """Hours of the longest lane: how long a lane's side waits for the next one."""
        return max(lane.times[-1] - lane.times[0] for lane in self.lanes)


def placing_clock(
    area: Polygon | MultiPolygon,
    angle: float,
    start: float,
    rate: float,
    screed: float,
    volume_of: VolumeOf,
    reach: Reach = lambda _: 0.0,
) -> PlacingClock:
    """The clock of one placement.

    Args:
        area: Of the placement.
        angle: Direction of travel, degrees.
        start: Clock hours of its first concrete.
        rate: Placing rate, mm3 per hour.
        screed: Reach of the screed (mm), infinite for one front across the whole width.
        volume_of: Concrete over a region.
        reach: How far a point lies from the trucks: the farthest lane comes first.
    """
    turned = affinity.rotate(area, -angle, origin=(0, 0))
    x0, y0, x1, y1 = turned.bounds
    count = 1 if math.isinf(screed) else lane_count(y1 - y0, screed)
    edges = np.linspace(y0, y1, count + 1)
    lanes, now = [], start
    for low, high in sorted(pairwise(edges), key=lambda e: _nearness(e, x0, x1, angle, reach)):
        stations = np.linspace(x0, x1, STATIONS + 1)
        boxes = [shapely.box(a, low, b, high) for a, b in pairwise(stations)]
        times = [now]
        for volume in _volumes(boxes, area, angle, volume_of):
            times.append(times[-1] + volume / rate)
        lanes.append(
            Lane(
                low=float(low),
                high=float(high),
                stations=tuple(float(s) for s in stations),
                times=tuple(times),
            )
        )
        now = times[-1]
    return PlacingClock(angle=angle, lanes=tuple(lanes))


def _nearness(
    edges: tuple[float, float], x0: float, x1: float, angle: float, reach: Reach
) -> tuple[float, float]:
    """A key that puts the lane that is farthest from the trucks first."""
    middle = affinity.rotate(shapely.Point((x0 + x1) / 2, sum(edges) / 2), angle, origin=(0, 0))
    return (-round(reach((float(middle.x), float(middle.y))), 0), edges[0])


def _volumes(
    boxes: Sequence[Polygon], area: Polygon | MultiPolygon, angle: float, volume_of: VolumeOf
) -> list[float]:
    """Concrete in each box of the placement's own frame."""
    back = [affinity.rotate(box, angle, origin=(0, 0)) for box in boxes]
    return [volume_of(MultiPolygon(polygons_of(area.intersection(box)))) for box in back]


def front_speed(rate: float, width: float, thickness: float) -> float:
    """Speed of a front (mm per hour) across a width at a thickness (mm)."""
    return rate / (width * thickness)
