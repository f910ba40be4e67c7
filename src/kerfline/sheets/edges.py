"""The edges of the concrete from corner to corner, which a tape is laid along."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely import LineString, MultiPolygon, Polygon
from shapely import Point as ShapelyPoint
from shapely.geometry.polygon import orient

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN, SAME

STRAIGHT = 9.0
"""An edge whose points lie this near (mm) to the chord between its corners is straight to a tape: half of the 3/4 in by
which a joint may lie beside its place."""


@dataclass(frozen=True)
class FormEdge:
    """An edge between two corners, straight or curved; a round one without a corner is one edge.

    Attributes:
        points: Its points in mm, the concrete on its left.
        cornered: Whether its ends are corners.
    """

    points: tuple[Point, ...]
    cornered: bool

    @cached_property
    def line(self) -> LineString:
        """The edge as a line."""
        return LineString(self.points)

    @cached_property
    def straight(self) -> bool:
        """Whether it runs straight from corner to corner."""
        chord = LineString([self.points[0], self.points[-1]])
        return self.cornered and self.line.hausdorff_distance(chord) <= STRAIGHT

    def way_at(self, at: Point) -> Point:
        """Unit vector along the edge beside a point; outward from the concrete is to its right."""
        here = self.line.project(ShapelyPoint(at))
        before = self.line.interpolate(max(0.0, here - 1.0))
        after = self.line.interpolate(min(self.line.length, here + 1.0))
        return direction((before.x, before.y), (after.x, after.y))

    def grows_from(self, corner: Point, to: Point) -> bool:
        """Whether a straight tape held at one of its corners grows along it all the way to a point on it."""
        reach = math.dist(corner, to)
        walk = self.points if math.dist(corner, self.points[0]) <= SAME else self.points[::-1]
        here = LineString(walk).project(ShapelyPoint(to))
        gone, last = 0.0, walk[0]
        longest = 0.0
        for point in walk[1:]:
            gone += math.dist(last, point)
            last = point
            if gone >= here:
                break
            if math.dist(corner, point) < longest:
                return False
            longest = math.dist(corner, point)
        return longest <= reach


def form_edges(concrete: Polygon | MultiPolygon) -> list[FormEdge]:
    """The edges of every ring, outer ones anticlockwise and openings clockwise, in ring order."""
    out: list[FormEdge] = []
    for polygon in polygons_of(concrete):
        solid = orient(polygon)
        for ring in (solid.exterior, *solid.interiors):
            out.extend(_edges_of([(float(x), float(y)) for x, y in ring.coords[:-1]]))
    return out


def _edges_of(points: Sequence[Point]) -> list[FormEdge]:
    turns = [i for i, at in enumerate(points) if _is_corner(points, i, at)]
    if not turns:
        return [FormEdge((*points, points[0]), cornered=False)]
    ends = [*turns[1:], turns[0] + len(points)]
    return [
        FormEdge(tuple(points[k % len(points)] for k in range(a, b + 1)), cornered=True)
        for a, b in zip(turns, ends, strict=True)
    ]


def _is_corner(points: Sequence[Point], i: int, at: Point) -> bool:
    before = direction(points[i - 1], at)
    after = direction(at, points[(i + 1) % len(points)])
    return angle_between(before, after) > CORNER_TURN
