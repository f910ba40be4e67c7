"""The order of the placements, their days and their clocks."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import MultiPolygon, Polygon

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import Side
from kerfline.placement.clock import PlacingClock, VolumeOf, placing_clock
from kerfline.placement.division import (
    SLACK,
    DayLimit,
    Region,
    Sizes,
    exact_union,
    joined,
    members,
    outer_reentrant,
)
from kerfline.units import HOURS_PER_DAY

HALF_TURN = 180.0


@dataclass(frozen=True, kw_only=True)
class Site:
    """What the order and the clock depend on.

    Attributes:
        bounds: Of the concrete, mm.
        panels: Id of each panel.
        sizes: Of the panels.
        sides: From which trucks come.
        limit: What one day can take.
        starts: Clock hours of the first discharge of each placement of a day, as far as they are given.
        rate: Placing rate, mm3 per hour.
        volume_of: Concrete over a region of the plan.
    """

    bounds: tuple[float, float, float, float]
    panels: tuple[str, ...]
    sizes: Sizes
    sides: tuple[Side, ...]
    limit: DayLimit
    starts: tuple[float, ...]
    rate: float
    volume_of: VolumeOf

    def reach(self, point: Point) -> float:
        """Distance of a point from the nearest side that trucks come to."""
        x0, y0, x1, y1 = self.bounds
        reach = {
            Side.LEFT: point[0] - x0,
            Side.RIGHT: x1 - point[0],
            Side.BOTTOM: point[1] - y0,
            Side.TOP: y1 - point[1],
        }
        return min(reach[side] for side in self.sides)

    def polygons(self, region: Region) -> list[Polygon]:
        """The panels of a region."""
        return [self.sizes.polygons[i] for i in members(region)]

    def volume(self, region: Region) -> float:
        """Concrete of a region."""
        return sum(self.sizes.volumes[i] for i in members(region))


@dataclass(frozen=True, kw_only=True)
class Slot:
    """A placement's day and the hour of its first concrete."""

    region: Region
    day: int
    start: float


@dataclass(frozen=True, kw_only=True)
class Pour:
    """One placement.

    Attributes:
        id: ``1``, ``2``, ... in the order of placing.
        panels: Ids of its panels.
        area: Its plan, mm.
        volume: Its concrete, mm3.
        reach: How far its farthest point lies from the sides that trucks come to, mm.
        corners: Re-entrant corners that it wraps.
        day: Day of placing, from 1.
        start: Clock hours of its first concrete.
        end: Clock hours of its last.
        clock: When each of its points gets its concrete.
    """

    id: str
    panels: tuple[str, ...]
    area: Polygon | MultiPolygon
    volume: float
    reach: float
    corners: tuple[Point, ...]
    day: int
    start: float
    end: float
    clock: PlacingClock

    @cached_property
    def near(self) -> Polygon | MultiPolygon:
        """Its plan with what touches it."""
        shape = self.area.buffer(TOUCH)
        shapely.prepare(shape)
        return shape

    @property
    def width(self) -> float:
        """Extent across the direction of travel, mm."""
        lanes = self.clock.lanes
        return max(lane.high for lane in lanes) - min(lane.low for lane in lanes)


def in_order(regions: Sequence[Region], site: Site) -> list[Region]:
    """Farthest from the trucks first, so that they never drive over what is placed."""

    def key(region: Region) -> tuple[float, float, float]:
        centre = exact_union(site.polygons(region)).centroid
        return (
            -round(site.reach((centre.x, centre.y)), 0),
            round(centre.y, 0),
            round(centre.x, 0),
        )

    return sorted(regions, key=key)


def against_the_clock(regions: Sequence[Region], site: Site) -> list[Pour]:
    """The placements with their days and hours, one after another within a day's limit."""
    return [_pour(str(n), slot, site) for n, slot in enumerate(_slots(regions, site), 1)]


def _slots(regions: Sequence[Region], site: Site) -> list[Slot]:
    out: list[Slot] = []
    day, placed, covered, free, turn = 1, 0.0, 0.0, -math.inf, 0
    for region in regions:
        volume = site.volume(region)
        area = sum(p.area for p in site.polygons(region))
        full = _over(placed + volume, site.limit.volume) or _over(covered + area, site.limit.area)
        if placed and full:
            day, placed, covered, turn = day + 1, 0.0, 0.0, 0
        given = site.starts[turn : turn + 1] if turn else site.starts[:1]
        start = max([free, *(hour + (day - 1) * HOURS_PER_DAY for hour in given)])
        out.append(Slot(region=region, day=day, start=start))
        placed, covered, turn = placed + volume, covered + area, turn + 1
        free = start + volume / site.rate
    return out


def _over(amount: float, limit: float) -> bool:
    return amount > limit * (1 + SLACK)


def _pour(name: str, slot: Slot, site: Site) -> Pour:
    polygons = site.polygons(slot.region)
    area = exact_union(polygons)
    clock = placing_clock(
        area,
        _travel(area, site),
        slot.start,
        site.rate,
        site.limit.screed,
        site.volume_of,
        site.reach,
    )
    return Pour(
        id=name,
        panels=tuple(site.panels[i] for i in members(slot.region)),
        area=area,
        volume=site.volume(slot.region),
        reach=max(site.reach((float(x), float(y))) for x, y in shapely.get_coordinates(area)),
        corners=tuple(outer_reentrant(joined(polygons), site.sizes.holes)),
        day=slot.day,
        start=slot.start,
        end=clock.lanes[-1].times[-1],
        clock=clock,
    )


def _travel(area: Polygon | MultiPolygon, site: Site) -> float:
    """Direction of travel (degrees): along the long side, backing towards the trucks."""
    box = enclosing_rectangle(max(polygons_of(area.convex_hull), key=lambda p: p.area))
    centre = area.convex_hull.centroid
    half = box.length / 2
    cos, sin = math.cos(math.radians(box.angle)), math.sin(math.radians(box.angle))
    ahead = site.reach((centre.x + half * cos, centre.y + half * sin))
    behind = site.reach((centre.x - half * cos, centre.y - half * sin))
    return box.angle if ahead <= behind + TOUCH else box.angle - HALF_TURN
