"""How one region is laid out: on its grid, by the general method, or by both, and the better is kept."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.bounds.length_bound import least_lengths
from kerfline.engine.effort import Effort
from kerfline.engine.general import lay_out_region
from kerfline.engine.large.blockwise import is_large, is_regular, solve_large
from kerfline.engine.large.crowded import is_crowded
from kerfline.engine.measure.cost import cost_on
from kerfline.engine.measure.score import Floor, Score, panels_between, score_of
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition.on_grid import (
    AMPLE,
    ATTEMPTS,
    ENOUGH,
    SECOND,
    Exact,
    solve_exact,
)
from kerfline.engine.reasons import named_runs
from kerfline.engine.regions.features import AskingLine, targets_of
from kerfline.engine.regions.orientation import Move, canonical
from kerfline.engine.regions.region import NEAR_AXIS, PlacedRegion, Region, RegionLayout
from kerfline.engine.regions.walls import must_slant, wall_shifts, wall_slack, walls_left
from kerfline.engine.whole import beside, whole_areas, with_whole
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import rings_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Status

SQUARE_EDGES = 0.85
"""Share of a region's edges along the axes from which the exact search is worth a try."""

SECOND_SHARE = 0.3
"""Share of a region's effort that goes into an exact layout beside the general one."""

MOST_SWEPT = 1_000
"""Joints of a region beyond which no bound of its own is told: to find it would take longer than the layout."""


def region_layout(place: PlacedRegion, options: EngineOptions, effort: Effort) -> RegionLayout:
    """The best layout of a region that is found, with the bounds of its length."""
    found = _with_whole(place, options, effort)
    if not 0 < len(found.cuts) <= MOST_SWEPT:
        return found
    least = least_lengths(place.region, found.cuts)
    return replace(found, length_bound=least.of_any, through_bound=least.of_through)


def _with_whole(place: PlacedRegion, options: EngineOptions, effort: Effort) -> RegionLayout:
    """The best layout of a region, around concrete that stays whole."""
    areas = whole_areas(place.region)
    if not areas:
        return _best_layout(place, options, effort)
    parts = list(beside(place.region, areas))
    room = sum(part.gross.area for part in parts)
    found = [
        _best_layout(replace(place, region=part), options, effort.share(part.gross.area / room))
        for part in parts
    ]
    return with_whole(place.region, areas, found)


def _best_layout(place: PlacedRegion, options: EngineOptions, effort: Effort) -> RegionLayout:
    """The exact layout of a square region, the general one of another, the better of both between.

    A large one with a regular middle goes in blocks, each by the method that suits it. Where the general
    layout breaks no rule, the other can only save some joint, and is given up when its effort is used up;
    where it breaks some, when it is overspent by that of the whole region.
    """
    region, weights = place.region, options.all_weights
    if place.orthogonal or (is_regular(region) and not region.patterns):
        return _square(region, options, effort)
    general = lay_out_region(region, options, effort.share(1.0))
    if region.patterns or must_slant(region) or not nearly_square(region):
        return general
    patience = 0.0 if is_faultless(region, general, weights) else effort.left
    share = effort.share(SECOND_SHARE, patience=patience)
    exact = exact_layout(region, options, share, SECOND, ENOUGH, beat=general.cost)
    return better(region, [exact, general], weights) if exact else general


def _square(region: Region, options: EngineOptions, effort: Effort) -> RegionLayout:
    """The exact layout; the general one of a slab that is too irregular even so."""
    found = exact_layout(region, options, effort)
    if found is not None:
        return found
    turned, move = canonical(region)
    return _turned_back(lay_out_region(turned, options, effort.share(1.0)), move)


def exact_layout(
    region: Region,
    options: EngineOptions,
    effort: Effort,
    attempts: int = ATTEMPTS,
    enough: int = AMPLE,
    *,
    beat: float = math.inf,
) -> RegionLayout | None:
    """The exact layout of a region, in blocks where it is large or too much stands on it; None where none fits.

    Args:
        region: The region, in its frame.
        options: What the user chose.
        effort: What may be spent.
        attempts: How often the search is tried.
        enough: Panels within the rules among which it chooses at most, by the number of its lines.
        beat: Cost of another layout (mm of joint), where there is one; a search without hope to beat it ends.
    """
    turned, move = canonical(region)
    if is_large(turned) or is_crowded(turned):
        return _turned_back(solve_large(turned, effort, options), move)
    found = solve_exact(turned, options.all_weights, effort, attempts, enough, beat=beat)
    return _turned_back(_layout_of(turned, found), move) if found else None


def _layout_of(region: Region, found: Exact) -> RegionLayout:
    """What the search found, with reasons and its proof."""
    answer, on_slab = found.answer, found.runs
    pieces = [LineString(piece) for run in on_slab for piece in run.pieces]
    return RegionLayout(
        cuts=tuple(named_runs(region, on_slab)),
        walls_left=walls_left(region, pieces),
        wall_shifts=wall_shifts(region, pieces),
        status=Status.OPTIMAL if answer.cover.proven else Status.TIME_LIMIT,
        cost=answer.cover.cost,
        bound=answer.cover.bound,
    )


def _turned_back(layout: RegionLayout, move: Move) -> RegionLayout:
    return replace(layout, cuts=tuple(cut.moved(move.back) for cut in layout.cuts))


def nearly_square(region: Region) -> bool:
    """Whether most of a region's edges run along the axes of its frame, give or take a survey."""
    steps = np.vstack([np.diff(shapely.get_coordinates(r), axis=0) for r in rings_of(region.gross)])
    low, high = np.sort(np.abs(steps), axis=1).T
    lengths = np.hypot(low, high)
    return bool(lengths[low <= NEAR_AXIS * high].sum() >= SQUARE_EDGES * lengths.sum())


def better(region: Region, layouts: Sequence[RegionLayout], weights: Weights) -> RegionLayout:
    """The layout of the least score; of equals the first."""
    return min(layouts, key=lambda layout: region_score(region, layout, weights))


def is_faultless(region: Region, layout: RegionLayout, weights: Weights) -> bool:
    """Whether a layout breaks no rule on the shape of panels and leaves no corner and no wall without a joint."""
    cuts = shapely.union_all([cut.line for cut in layout.cuts])
    bare = any(
        cuts.is_empty or cuts.distance(shapely.Point(corner.at)) > TOUCH
        for corner in reentrant_corners(region.gross)
    )
    return not (bare or layout.walls_left or region_score(region, layout, weights).faults)


def region_score(region: Region, layout: RegionLayout, weights: Weights) -> Score:
    """How good a layout of a region is."""
    lines = [cut.line for cut in layout.cuts]
    floor = Floor(
        concrete=region.concrete,
        cost=cost_on(region, weights),
        walls=tuple(
            AskingLine(name=w.id, path=w.line, slack=wall_slack(w), short=w.id in region.wishes)
            for w in region.walls
            if w.takes_joint
        ),
        targets=tuple(
            t for t in targets_of(region, weights) if region.concrete.contains(shapely.Point(t.at))
        ),
        landings=region.landings,
    )
    return score_of(floor, panels_between(region.concrete, lines), lines)
