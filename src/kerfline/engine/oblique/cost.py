"""What a panel costs, in mm of joint: the one scale on which shapes are traded against saw work."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon

from kerfline.geometry.corners import corners
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, MEASURE, RATIO
from kerfline.model.layout import WorkingLimits
from kerfline.units import MM_PER_FOOT

CORNER = 60 * MM_PER_FOOT
"""A re-entrant corner left inside a panel, where the jog is as deep as a panel is wide at least."""

ODD = 60 * MM_PER_FOOT
"""A hooked panel: less than ``FULL`` of its convex hull."""

FULL = 0.9
"""Least share of its convex hull that a panel fills and still is no L, T or hook."""

LONG = 60 * MM_PER_FOOT
"""A panel beyond the aspect limit, and again for each whole number beyond it."""

NARROW = 80 * MM_PER_FOOT
"""A panel under the least width."""

THIN = 20.0
"""Weight of each mm that a panel is narrower than the least width."""

POINT = 16 * MM_PER_FOOT
"""A joint that comes in a degree or more under the least angle; a bend near the end can still mend it."""

POINT_DEGREE = 0.5 * MM_PER_FOOT
"""Each degree under the least angle."""

SLENDER = 4 * MM_PER_FOOT
"""Each whole number of aspect beyond the advised one."""

SQUARE = 2 * MM_PER_FOOT
"""Each whole number of aspect beyond a square."""

EVEN = 5 * MM_PER_FOOT
"""A panel of no size at all; less by the square of the share of the span that it uses."""

SMALL = 4.0
"""Weight of each mm that a panel is narrower than ``SMALL_SHARE`` of the span."""

SMALL_SHARE = 0.4

SCRAP = 15 * MM_PER_FOOT
"""A panel that is no longer than that share: a scrap beside a corner."""

ADVISED_ASPECT = 1.25
DEEP = 400.0
"""A jog this deep (mm) costs the whole."""

KNEE = 1.0
"""A corner this close (mm) to a knee is the knee."""

SHALLOW = 30.0
"""A jog less deep than this (mm) is a survey's noise, not a corner."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Measures of a panel.

    Attributes:
        length: Long side of the smallest enclosing rectangle, mm.
        width: Short side of it, mm.
        fullness: Share of the convex hull that the panel fills.
        hollows: Depth of each re-entrant corner under the convex hull, mm.
        points: The corners under the least angle: place and degrees.
    """

    length: float
    width: float
    fullness: float
    hollows: tuple[float, ...]
    points: tuple[tuple[Point, float], ...]

    @property
    def aspect(self) -> float:
        """Length over width."""
        return self.length / self.width if self.width else math.inf


def shape_of(panel: Polygon, least_angle: float, knees: Sequence[Point] = ()) -> Shape:
    """Measures a panel.

    Args:
        panel: The panel.
        least_angle: Corners under it (degrees) are points.
        knees: Places where a joint bends on purpose: no corners.
    """
    box = enclosing_rectangle(panel)
    hull = hull_of(panel)
    found = corners(panel)
    hollows = tuple(
        _depth(c.at, hull, panel) for c in found if c.reentrant and not _at_one_of(c.at, knees)
    )
    points = tuple((c.at, c.angle) for c in found if c.angle < least_angle - DEGREES)
    return Shape(box.length, box.width, panel.area / hull.area, hollows, points)


def _at_one_of(at: Point, places: Sequence[Point]) -> bool:
    return any(math.dist(at, place) < KNEE for place in places)


def hull_of(panel: Polygon) -> Polygon:
    """The convex hull of a polygon that has an area."""
    hull = panel.convex_hull
    return hull if isinstance(hull, Polygon) else panel


def _depth(at: Point, hull: Polygon, panel: Polygon) -> float:
    """How deep a re-entrant corner lies under the hull; of a hole, at least the hole's size."""
    depth = float(hull.exterior.distance(shapely.Point(at)))
    for hole in panel.interiors:
        if hole.distance(shapely.Point(at)) < 1.0:
            return max(depth, math.sqrt(Polygon(hole).area))
    return depth


def shape_cost(shape: Shape, limits: WorkingLimits) -> float:
    """What a panel's shape costs, its joints not counted, in mm of joint."""
    return (
        _corner_cost(shape)
        + _aspect_cost(shape.aspect, limits)
        + _width_cost(shape.width, limits)
        + (SCRAP if shape.length < SMALL_SHARE * limits.span else 0.0)
        + _even_cost(shape, limits)
        + sum(_point_cost(limits.angle - angle) for _, angle in shape.points)
    )


def _point_cost(short: float) -> float:
    """What a corner costs that is some degrees short of the least angle.

    The first degree counts in part: the chords of a flattened arc turn that much.
    """
    return POINT * min(1.0, short) + POINT_DEGREE * short


def _corner_cost(shape: Shape) -> float:
    hollows = sum(CORNER * min(1.0, d / DEEP) for d in shape.hollows if d > SHALLOW)
    return hollows + (ODD if shape.fullness < FULL else 0.0)


def _aspect_cost(aspect: float, limits: WorkingLimits) -> float:
    aspect = min(aspect, 100.0)
    cost = SQUARE * (aspect - 1) + SLENDER * max(0.0, aspect - ADVISED_ASPECT)
    if aspect > limits.aspect + RATIO:
        cost += LONG * (1 + aspect - limits.aspect)
    return cost


def _width_cost(width: float, limits: WorkingLimits) -> float:
    cost = SMALL * max(0.0, SMALL_SHARE * limits.span - width)
    if width < limits.width - MEASURE:
        cost += NARROW + THIN * (limits.width - width)
    return cost


def _even_cost(shape: Shape, limits: WorkingLimits) -> float:
    """Convex in the size, so that of two ways to divide a length the even one is cheaper."""
    unused = [1.0 - min(1.0, side / limits.span) for side in (shape.length, shape.width)]
    return EVEN / 2 * sum(share * share for share in unused)


def within_span(shape: Shape, limits: WorkingLimits) -> bool:
    """Whether the panel's length is within the working span."""
    return shape.length <= limits.span + MEASURE / 2
