"""Which of two layouts of one region is the better, measured on the true panels."""

from collections.abc import Sequence
from itertools import pairwise

import shapely
from shapely import LineString

from kerfline.engine.finish.panels_between import panels_between
from kerfline.engine.measure.cost import Cost, feet
from kerfline.engine.measure.score import Floor, Score, WallLine, Wish, score_of
from kerfline.engine.options import Weights
from kerfline.engine.regions.region import Region, RegionLayout
from kerfline.engine.regions.walls import wall_slack
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.tolerance import TOUCH

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


def better(region: Region, layouts: Sequence[RegionLayout], weights: Weights) -> RegionLayout:
    """The layout of the least score; of equals the first."""
    return min(layouts, key=lambda layout: region_score(region, layout, weights))


def is_faultless(region: Region, layout: RegionLayout, weights: Weights) -> bool:
    """Whether a layout breaks no rule on the shape of panels and leaves no corner and no wall without a joint."""
    cuts = shapely.union_all([LineString(cut.path) for cut in layout.cuts])
    bare = any(
        cuts.is_empty or cuts.distance(shapely.Point(corner.at)) > TOUCH
        for corner in reentrant_corners(region.gross)
    )
    return not (bare or layout.walls_left or region_score(region, layout, weights).faults)


def region_score(region: Region, layout: RegionLayout, weights: Weights) -> Score:
    """How good a layout of a region is."""
    lines = [LineString(cut.path) for cut in layout.cuts]
    floor = Floor(
        concrete=region.concrete,
        cost=Cost(
            weights=weights, working=region.working, advised=region.advised, stretch=region.stretch
        ),
        walls=tuple(
            WallLine(w.line, wall_slack(w), w.id in region.wishes)
            for w in region.walls
            if w.takes_joint
        ),
        wishes=tuple(
            Wish(at=c.at, price=feet(weights.column_inside))
            for c in region.columns
            if region.concrete.contains(shapely.Point(c.at))
        ),
        landings=region.landings,
    )
    return score_of(floor, panels_between(region.concrete, lines), lines)
