"""The baselines that everything on the sheets is measured from: two faces of the slab edge."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

import numpy as np
import shapely
from shapely import LineString, MultiPolygon, Polygon, affinity

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import points_of, polygons_of
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import Slab
from kerfline.units import MM_PER_INCH

Shape = TypeVar("Shape", bound=shapely.Geometry)

ALIGNED_SHARE = 0.8
"""The drawing's axes are kept where this share of the edge that lies along the main direction lies along them."""

ONE_WAY = 0.75
"""Edges whose directions agree within this (degrees) are one direction: a survey's sides are never quite square."""

ALONG_AXES = 0.05
"""A main direction this near the drawing's axes (degrees) is theirs."""

MAIN_SHARE = 0.25
"""Share of the slab's straight edge that must lie along one direction to be its main one."""


OUT_OF_SQUARE = 0.75 * MM_PER_INCH
"""A line whose ends lie within this (mm) of one offset is square: one mark holds it within half of the 3/4 in by
which a joint may lie beside its place (ACI 117)."""


ON_BASELINE = TOUCH
"""A line that ends this near (mm) to a baseline ends on it."""


RIGHT_ANGLE = 90.0


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

    def shape(self, shape: Shape) -> Shape:
        """A shape in the baselines' own coordinates."""
        return shapely.transform(shape, self._placed)

    def back(self, shape: Shape) -> Shape:
        """A shape in the baselines' own coordinates on the slab again."""
        turned: Shape = affinity.rotate(shape, self.turn, origin=(0, 0))
        return shapely.transform(turned, lambda points: points + self.origin)

    def shapes(self, shapes: Sequence[Shape]) -> list[Shape]:
        """Shapes in the baselines' own coordinates."""
        return list(shapely.transform(np.asarray(shapes, dtype=object), self._placed))

    def _placed(self, points: Numbers) -> Numbers:
        """Points in the baselines' own coordinates, a row each."""
        cos, sin = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        moved: Numbers = (points - self.origin) @ np.array([[cos, -sin], [sin, cos]])
        return moved


def way_of(line: LineString) -> Way:
    """How a line in the baselines' own coordinates (mm) runs: along one of them, or aslant or bent."""
    x0, y0, x1, y1 = line.bounds
    if min(x1 - x0, y1 - y0) > OUT_OF_SQUARE:
        return Way.SLANTING
    return Way.UPRIGHT if x1 - x0 < y1 - y0 else Way.LEVEL


def baselines(slab: Slab, region: Polygon | MultiPolygon | None = None) -> Baselines:
    """The left and the bottom face of the slab edge.

    Args:
        slab: The slab.
        region: The part of it whose faces are meant; None for all of it.

    They lie along the drawing's axes where about as much of the edge does as along any direction, else along the
    direction that most of the edge has; a slab whose edge has no main direction keeps the drawing's. A part of the
    slab, such as a wing, may have a direction of its own in the same way, else it keeps the slab's.
    """
    turn = main_turn(sides_of(slab.outline), 0.0)
    if region is not None:
        rings = (Ring(points_of(part.exterior)[:-1]) for part in polygons_of(region))
        turn = main_turn([side for ring in rings for side in sides_of(ring)], turn)
    outline = slab.outline.polygon if region is None else region
    turned = affinity.rotate(outline, -turn, origin=(0, 0))
    x0, y0, *_ = turned.bounds
    origin = affinity.rotate(shapely.Point(x0, y0), turn, origin=(0, 0))
    spot = (float(origin.x), float(origin.y))
    corners = shapely.MultiPoint(shapely.get_coordinates(outline))
    return Baselines(origin=spot, turn=turn, corner=bool(corners.distance(origin) <= TOUCH))


Side = tuple[float, float]
"""Direction of a straight side, 0 to 90 degrees, and its length in mm."""


def main_turn(sides: Sequence[Side], kept: float) -> float:
    """The direction that most of some sides have, -45 < turn <= 45; the kept one where about as much has that."""
    if not sides:
        return kept
    reach = [
        sum(length for other, length in sides if apart(angle, other) <= ONE_WAY)
        for angle, _ in sides
    ]
    most = max(reach)
    near = ALONG_AXES if kept == 0 else ONE_WAY
    along = sum(length for angle, length in sides if apart(angle, kept) <= near)
    if most < MAIN_SHARE * sum(length for _, length in sides) or along >= ALIGNED_SHARE * most:
        return kept
    best = max(
        (length, -angle)
        for (angle, length), total in zip(sides, reach, strict=True)
        if total >= most - SAME
    )
    main = mean_turn([side for side in sides if apart(side[0], -best[1]) <= ONE_WAY], -best[1])
    return 0.0 if abs(main) <= ALONG_AXES else main


def sides_of(ring: Ring) -> list[Side]:
    """The straight sides of a ring."""
    points, count = ring.points, len(ring.points)
    found = []
    for i, (x0, y0) in enumerate(points):
        x1, y1 = points[(i + 1) % count]
        if ring.bulge(i) == 0:
            angle = math.degrees(math.atan2(y1 - y0, x1 - x0)) % RIGHT_ANGLE
            found.append((angle, math.hypot(x1 - x0, y1 - y0)))
    return found


def apart(first: float, second: float) -> float:
    """Angle between two directions that repeat every 90 degrees."""
    off = abs(first - second) % RIGHT_ANGLE
    return min(off, RIGHT_ANGLE - off)


def mean_turn(sides: Sequence[Side], near: float) -> float:
    """Mean direction by length of sides near one direction, -45 < mean <= 45."""
    half = RIGHT_ANGLE / 2
    offs = [((angle - near + half) % RIGHT_ANGLE - half, length) for angle, length in sides]
    off = sum(o * length for o, length in offs) / sum(length for _, length in offs)
    mean = (near + off) % RIGHT_ANGLE
    return mean - RIGHT_ANGLE if mean > half else mean
