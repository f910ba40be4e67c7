"""The baselines that everything on the sheets is measured from: two faces of the slab edge."""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import shapely
from shapely import LineString, affinity

from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.slab import Slab
from kerfline.units import MM_PER_INCH

ALIGNED_SHARE = 0.25
"""Share of the slab's straight edge that must lie along the drawing's axes to keep them."""

DIRECTION_STEP = 0.05
"""Edges whose directions agree within this (degrees) count as one direction."""

OUT_OF_SQUARE = 0.75 * MM_PER_INCH
"""A line whose ends lie within this (mm) of one offset is square: one mark holds it within half of the 3/4 in by
which a joint may lie beside its place (ACI 117)."""


ON_BASELINE = TOUCH
"""A line that ends this near (mm) to a baseline ends on it."""


class Way(StrEnum):
    """How a line runs, seen from the baselines."""

    UPRIGHT = "upright"
    LEVEL = "level"
    SLANTING = "slanting"


@dataclass(frozen=True, kw_only=True)
class Baselines:
    """An origin and two directions, square to each other.

    Attributes:
        origin: Where the baselines meet, in mm of the drawing.
        turn: Direction of the first baseline, degrees anticlockwise from the drawing's x.
        corner: Whether the origin is a corner of the slab, which then carries the letter A.
    """

    origin: Point
    turn: float
    corner: bool

    def local(self, point: Point) -> Point:
        """Offsets of a point along the first and the second baseline, mm."""
        x, y = point[0] - self.origin[0], point[1] - self.origin[1]
        cos, sin = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        return (x * cos + y * sin, y * cos - x * sin)

    def line(self, path: Iterable[Point]) -> LineString:
        """A line in the baselines' own coordinates."""
        return LineString([self.local(p) for p in path])


def way_of(line: LineString) -> Way:
    """How a line in the baselines' own coordinates (mm) runs: along one of them, or aslant or bent."""
    x0, y0, x1, y1 = line.bounds
    if min(x1 - x0, y1 - y0) > OUT_OF_SQUARE:
        return Way.SLANTING
    return Way.UPRIGHT if x1 - x0 < y1 - y0 else Way.LEVEL


def baselines(
    slab: Slab, region: shapely.Polygon | shapely.MultiPolygon | None = None
) -> Baselines:
    """The left and the bottom face of the slab edge.

    Args:
        slab: The slab.
        region: The part of it whose faces are meant; None for all of it.

    They lie along the drawing's axes where a fair share of the edge does, else along the direction that
    most of the edge has; a slab whose edge has no main direction keeps the drawing's.
    """
    turn = _turn(slab)
    outline = slab.outline.polygon if region is None else region
    turned = affinity.rotate(outline, -turn, origin=(0, 0))
    x0, y0, *_ = turned.bounds
    origin = affinity.rotate(shapely.Point(x0, y0), turn, origin=(0, 0))
    spot = (float(origin.x), float(origin.y))
    corners = shapely.MultiPoint(shapely.get_coordinates(outline))
    return Baselines(origin=spot, turn=turn, corner=bool(corners.distance(origin) <= TOUCH))


def _turn(slab: Slab) -> float:
    """Direction of the baselines in degrees, -45 < turn <= 45."""
    lengths: dict[float, float] = defaultdict(float)
    points, count = slab.outline.points, len(slab.outline.points)
    for i, (x0, y0) in enumerate(points):
        x1, y1 = points[(i + 1) % count]
        if slab.outline.bulge(i) == 0:
            angle = math.degrees(math.atan2(y1 - y0, x1 - x0)) % 90.0
            key = round(angle / DIRECTION_STEP) * DIRECTION_STEP % 90.0
            lengths[key] += math.hypot(x1 - x0, y1 - y0)
    if not lengths:
        return 0.0
    best = max(sorted(lengths), key=lambda a: lengths[a])
    fair = ALIGNED_SHARE * sum(lengths.values())
    if lengths.get(0.0, 0.0) >= fair or lengths[best] < fair:
        return 0.0
    exact = _exact(slab, best)
    return exact - 90.0 if exact > 45.0 else exact  # noqa: PLR2004 - half of a right angle


def _exact(slab: Slab, near: float) -> float:
    """The direction of the longest edge that lies within a step of a rounded one."""
    points, count = slab.outline.points, len(slab.outline.points)
    found = []
    for i, (x0, y0) in enumerate(points):
        x1, y1 = points[(i + 1) % count]
        angle = math.degrees(math.atan2(y1 - y0, x1 - x0)) % 90.0
        if abs(angle - near) <= DIRECTION_STEP:
            found.append((math.hypot(x1 - x0, y1 - y0), angle))
    return max(found)[1] if found else near
