"""Which of two layouts of one region is the better, measured on the true panels."""

from collections.abc import Sequence
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from kerfline.engine.options import Weights
from kerfline.engine.pieces import panels_between
from kerfline.engine.region import Region, RegionLayout
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.tolerance import MEASURE, RATIO, TOUCH
from kerfline.units import MM_PER_FOOT

OVER_SPAN = 5000.0
"""Feet of joint that a panel over the span counts for: a hard rule."""

ODD_SHAPE = 60.0
"""Feet of joint that a panel which fills little of its rectangle counts for."""

FILL = 0.85
"""Share of its smallest rectangle that a panel fills at least when its shape is good."""

SQUARE_EDGES = 0.85
"""Share of a region's edges along the axes from which the exact search is worth a try."""

SLOPE = 0.14
"""Slope within which an edge counts as along an axis."""


def nearly_square(region: Region) -> bool:
    """Whether most of a region's edges run along the axes of its frame, give or take a survey."""
    along = total = 0.0
    for ring in (region.gross.exterior, *region.gross.interiors):
        for (x0, y0), (x1, y1) in pairwise(ring.coords):
            dx, dy = abs(x1 - x0), abs(y1 - y0)
            length = (dx * dx + dy * dy) ** 0.5
            total += length
            along += length if min(dx, dy) <= SLOPE * max(dx, dy) else 0.0
    return along >= SQUARE_EDGES * total


def better(region: Region, layouts: list[RegionLayout], weights: Weights) -> RegionLayout:
    """The layout with the least of broken rules and joint; of equals the first."""
    return min(layouts, key=lambda layout: round(_burden(region, layout, weights), 2))


def is_faultless(region: Region, layout: RegionLayout, weights: Weights) -> bool:
    """Whether a layout breaks no rule on the shape of panels and leaves no corner and no wall without a joint."""
    lines = [LineString(cut.path) for cut in layout.cuts]
    panels = panels_between(region.concrete, lines)
    return (
        not layout.walls_left
        and not _bare_corners(region, lines)
        and not any(_breaks(region, panel, weights) for panel in panels)
    )


def _bare_corners(region: Region, lines: Sequence[LineString]) -> int:
    """How many re-entrant corners no joint leaves."""
    cuts = shapely.union_all(lines)
    return sum(
        cuts.is_empty or cuts.distance(shapely.Point(corner.at)) > TOUCH
        for corner in reentrant_corners(region.gross)
    )


def _burden(region: Region, layout: RegionLayout, weights: Weights) -> float:
    """Broken rules, tee ends and length, in feet of joint."""
    lines = [LineString(cut.path) for cut in layout.cuts]
    panels = panels_between(region.concrete, lines)
    ends = joint_ends(region.concrete, lines)
    tees = sum(end.kind is EndKind.TEE for end in ends)
    free = sum(end.kind is EndKind.FREE for end in ends)
    bare = _bare_corners(region, lines)
    return (
        sum(_breaks(region, panel, weights) for panel in panels)
        + weights.tee * tees
        + weights.over_joint * free
        + weights.corner * bare
        + weights.over_aspect * len(layout.walls_left)
        + sum(line.length for line in lines) / MM_PER_FOOT
    )


def _breaks(region: Region, panel: Polygon, weights: Weights) -> float:
    box = enclosing_rectangle(panel)
    working = region.working
    return (
        OVER_SPAN * (box.length > working.span + MEASURE)
        + weights.over_aspect * (box.aspect > working.aspect + RATIO)
        + weights.too_narrow * (box.width < working.width - MEASURE)
        + ODD_SHAPE * (panel.area < FILL * box.length * box.width)
    )
