"""Closed curves of straight and arc segments, as outlines and openings are given."""

import math
from dataclasses import dataclass
from functools import cached_property

from shapely import Polygon
from shapely.geometry.polygon import orient

from kerfline.geometry.tolerance import ARC_STEP, SAGITTA, TOUCH

Point = tuple[float, float]

LEAST_BULGE = 1e-9
"""An arc of less cannot be told from its chord: over 10 km they are 5 micrometres apart."""

GREATEST_BULGE = 1e4
"""An arc of more is a full circle but for a hair, and no end of it can be told from the other."""


@dataclass(frozen=True)
class Ring:
    """A closed curve.

    Attributes:
        points: Corner points in mm, in order, the first not repeated at the end.
        bulges: For each point the bulge of the segment to the next one: the tangent of a quarter of
            the arc's included angle, positive where the arc runs anticlockwise, 0 for a straight
            segment. Empty means all straight.
    """

    points: tuple[Point, ...]
    bulges: tuple[float, ...] = ()

    @property
    def has_arcs(self) -> bool:
        """Whether any segment is an arc."""
        return any(self.bulges)

    def bulge(self, index: int) -> float:
        """The bulge of the segment that starts at point ``index``."""
        return self.bulges[index] if self.bulges else 0.0

    @cached_property
    def coordinates(self) -> tuple[Point, ...]:
        """The curve flattened to chords, first point not repeated."""
        count = len(self.points)
        out: list[Point] = []
        for i, start in enumerate(self.points):
            out.append(start)
            bulge = self.bulge(i)
            if bulge:
                out.extend(flatten_arc(start, self.points[(i + 1) % count], bulge)[1:-1])
        return tuple(out)

    @cached_property
    def polygon(self) -> Polygon:
        """The area inside, flattened, anticlockwise; not checked for validity."""
        return orient(Polygon(self.coordinates))

    @staticmethod
    def of(polygon: Polygon) -> "Ring":
        """The outer boundary of a polygon as a ring of straight segments."""
        return Ring(tuple((float(x), float(y)) for x, y in polygon.exterior.coords[:-1]))


@dataclass(frozen=True)
class Arc:
    """A circular arc.

    Attributes:
        centre: Centre in mm.
        radius: Radius in mm.
        start: Angle of the first point in degrees, anticlockwise from x.
        sweep: Signed included angle in degrees, positive anticlockwise.
    """

    centre: Point
    radius: float
    start: float
    sweep: float

    def at(self, share: float) -> Point:
        """The point at a share (0 to 1) of the sweep."""
        angle = math.radians(self.start + self.sweep * share)
        return (
            self.centre[0] + self.radius * math.cos(angle),
            self.centre[1] + self.radius * math.sin(angle),
        )


def arc_of(start: Point, end: Point, bulge: float) -> Arc:
    """The arc that a bulge describes.

    Args:
        start: First point in mm.
        end: Last point in mm, different from the first.
        bulge: Tangent of a quarter of the included angle, not 0.
    """
    dx, dy = end[0] - start[0], end[1] - start[1]
    chord = math.hypot(dx, dy)
    offset = (1 - bulge * bulge) / (4 * bulge)
    centre = ((start[0] + end[0]) / 2 - dy * offset, (start[1] + end[1]) / 2 + dx * offset)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    angle = math.degrees(math.atan2(start[1] - centre[1], start[0] - centre[0]))
    return Arc(centre, radius, angle, math.degrees(4 * math.atan(bulge)))


def flatten_arc(start: Point, end: Point, bulge: float) -> list[Point]:
    """Points along an arc, both ends included, within ``SAGITTA`` of it."""
    arc = arc_of(start, end, bulge)
    steps = chord_count(arc.radius, abs(arc.sweep))
    (x, y), radius = arc.centre, arc.radius
    angles = [math.radians(arc.start + arc.sweep * (i / steps)) for i in range(1, steps)]
    between = [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles]
    return [start, *between, end]


def tangent_at(centre: Point, radius: float, at: Point, way: Point) -> Point | None:
    """The direction of an arc at a point on it, for an edge there that is a chord of it; None for any other edge.

    Args:
        centre: Centre of the arc in mm.
        radius: Its radius in mm.
        at: The point, on the arc or on a chord of it.
        way: Unit vector along the edge from there.
    """
    half = min(math.sqrt(2 * radius * SAGITTA), radius * math.radians(ARC_STEP / 2))
    on = (at[0] + half * way[0], at[1] + half * way[1])
    if any(abs(math.dist(p, centre) - radius) > TOUCH for p in (at, on)):
        return None
    x, y = (at[0] - centre[0]) / radius, (at[1] - centre[1]) / radius
    size = math.hypot(x, y) or 1.0
    tangent = (-y / size, x / size)
    return tangent if tangent[0] * way[0] + tangent[1] * way[1] > 0.0 else (y / size, -x / size)


def chord_count(radius: float, sweep: float) -> int:
    """How many chords stand for an arc of this radius (mm) and sweep (degrees)."""
    if radius <= SAGITTA:
        return max(1, math.ceil(sweep / ARC_STEP))
    by_sagitta = math.degrees(2 * math.acos(1 - SAGITTA / radius))
    return max(1, math.ceil(sweep / min(by_sagitta, ARC_STEP)))


def circle(centre: Point, radius: float) -> Ring:
    """A circle as a ring of two half-circle arcs."""
    x, y = centre
    return Ring(((x - radius, y), (x + radius, y)), (1.0, 1.0))
