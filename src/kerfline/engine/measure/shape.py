"""The measures of a panel that its cost and the rules look at."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely import Polygon

from kerfline.geometry.corners import Corner, corners
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.span import span_of
from kerfline.geometry.tolerance import DEGREES

FULL = 0.9
"""Least share of its convex hull that a panel fills and still is no L, T or hook."""

DEEP = 400.0
"""A jog this deep (mm) counts whole."""

SHALLOW = 30.0
"""A jog less deep than this (mm) is a survey's noise, not a corner."""

KNEE = 1.0
"""A corner this close (mm) to a knee is the knee."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Measures of a panel, or of many at once, an array each.

    Attributes:
        length: Long side of the smallest enclosing rectangle, mm.
        width: Short side of it, mm.
        span: What is held against the greatest joint spacing, mm (``geometry.span``).
        fullness: Share of the convex hull that the panel fills.
        hollow: Its re-entrant corners, each by its depth under the convex hull, one that is ``DEEP`` as 1.
        deepest: Depth of the deepest of them, mm.
        sharp: Its corners under the least angle; one that is short by less than a degree counts in part, for
            the chords of a flattened arc turn that much.
        short: By how many degrees they are under it, together.
        area: Its area, mm2.
    """

    length: Any
    width: Any
    span: Any
    fullness: Any = 1.0
    hollow: Any = 0.0
    deepest: Any = 0.0
    sharp: Any = 0.0
    short: Any = 0.0
    area: Any = 0.0

    @property
    def aspect(self) -> Any:  # noqa: ANN401 - a number or an array, as the sides are
        """Length over width."""
        return self.length / np.maximum(self.width, 1e-6)


def rectangle_shape(one: Any, other: Any) -> Shape:  # noqa: ANN401 - numbers or arrays
    """The measures of a rectangle, or of many, by its sides."""
    long = np.maximum(one, other)
    return Shape(long, np.minimum(one, other), long, area=one * other)


def shape_of(panel: Polygon, least_angle: float, knees: Sequence[Point] = ()) -> Shape:
    """Measures a panel.

    Args:
        panel: The panel.
        least_angle: Corners under it (degrees) are sharp.
        knees: Places where a joint bends on purpose: no corners.
    """
    box, hull, found = enclosing_rectangle(panel), hull_of(panel), corners(panel)
    depths = [
        _depth(c.at, hull, panel) for c in found if c.reentrant and not _at_one_of(c.at, knees)
    ]
    short = [least_angle - c.angle for c in _sharp(found, least_angle)]
    return Shape(
        length=box.length,
        width=box.width,
        span=span_of(panel),
        fullness=panel.area / hull.area,
        hollow=sum(hollow_of(d) for d in depths),
        deepest=max(depths, default=0.0),
        sharp=sum(min(1.0, s) for s in short),
        short=sum(short),
        area=panel.area,
    )


def sharp_places(panel: Polygon, least_angle: float) -> list[Point]:
    """Where a panel's corners under the least angle are."""
    return [c.at for c in _sharp(corners(panel), least_angle)]


def _sharp(found: Sequence[Corner], least_angle: float) -> list[Corner]:
    return [c for c in found if c.angle < least_angle - DEGREES]


def hollow_of(depth: float) -> float:
    """What a re-entrant corner of a depth (mm) counts as a hollow."""
    return min(1.0, depth / DEEP) if depth > SHALLOW else 0.0


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
