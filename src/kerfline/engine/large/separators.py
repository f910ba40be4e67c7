"""Lines that divide a large floor into blocks which can be solved one by one.

A separator is a joint from edge to edge. It runs where one is wanted anyway: along a row of columns, under
a long wall, from a re-entrant corner, or on an even division of the whole floor. A separator that would leave a
strip too narrow beside something else is priced out, one through a keep-out is not taken at all.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

import shapely
from shapely import LineString

from kerfline.engine.large.blocks import is_aslant
from kerfline.engine.lines.features import Feature, Rank, features, model_outline
from kerfline.engine.lines.grid_lines import MERGE, GridLine, merged
from kerfline.engine.regions.region import Region, X
from kerfline.engine.steps import Steps, bay_count, even_places
from kerfline.units import MM_PER_FOOT

BLOCK = 6.0
"""A block is at most this many spans long and wide."""

ASLANT_BLOCK = 3.0
"""The same on a floor with edges aslant of both axes: the less of it do they take out of the regular part."""

DOT = MM_PER_FOOT
"""Edges shorter than this (mm) draw no separator where others run aslant."""

WANTED = (Rank.EDGE, Rank.PINNED, Rank.ZONE, Rank.COLUMN, Rank.WALL)
"""Features along which a separator may run."""

COST_OF_ONE = 10.0 * MM_PER_FOOT
"""What each separator costs in the choice, so that few are taken, mm."""

COST_OF_PLAIN = 20.0 * MM_PER_FOOT
"""What one costs more that follows no feature, mm."""

COST_OF_CLASH = 100.0 * MM_PER_FOOT
"""What one costs more for each line that it runs too close beside, mm."""

GAIN_OF_COLUMN = 5.0 * MM_PER_FOOT
"""What one costs less for each column on it, mm."""


def separators(region: Region, axis: int, span: float) -> list[float]:
    """Places of the separators across an axis, so that no block is longer than ``BLOCK`` spans."""
    outline = model_outline(region)
    low, high = outline.bounds[axis], outline.bounds[axis + 2]
    steps = Steps(region.baseline[axis], region.step)
    aslant = is_aslant(region)
    found = [f for f in features(region) if f.axis == axis and not (aslant and _is_dot(f))]
    lines = merged(found, steps)
    places = _candidates(lines, low, high, span, steps)
    barred = shapely.union_all([k.outline.polygon for k in region.keep_outs])
    costs = [_cost(region, axis, at, lines, barred) for at in places]
    longest = (ASLANT_BLOCK if aslant else BLOCK) * span
    return _chosen([low, *places, high], [0.0, *costs, 0.0], longest, region.working.width)


def _is_dot(feature: Feature) -> bool:
    """Whether a feature is a corner between edges aslant, or one of the short edges of a curve."""
    return feature.rank is Rank.EDGE and feature.length < DOT


def _candidates(
    lines: Sequence[GridLine], low: float, high: float, span: float, steps: Steps
) -> list[float]:
    """Lines along features, and even divisions of what lies between columns or edges."""
    strong = [line.at for line in lines if line.rank in WANTED and low < line.at < high]
    columns = [line.at for line in lines if line.rank is Rank.COLUMN and low < line.at < high]
    found = list(strong)
    stops = [low, *columns, high]
    for start, end in pairwise(stops):
        count = bay_count(end - start, span)
        found.extend(even_places(start, end, count, span, steps))
    kept: list[float] = []
    for at in sorted(found):
        if not kept or at - kept[-1] > 1.0:
            kept.append(at)
    return kept


def _cost(
    region: Region, axis: int, at: float, lines: Sequence[GridLine], barred: shapely.Geometry
) -> float:
    if _crosses(region, axis, at, barred):
        return math.inf
    here = [line for line in lines if abs(line.at - at) <= 1.0]
    near = [
        line
        for line in lines
        if 1.0 < abs(line.at - at) < region.advised.width and line.rank <= Rank.BESIDE
    ]
    wanted = [line for line in here if line.rank in WANTED]
    columns = sum(f.rank is Rank.COLUMN for line in here for f in line.features)
    return (
        COST_OF_ONE
        + (0.0 if wanted else COST_OF_PLAIN)
        + COST_OF_CLASH * len(near)
        - GAIN_OF_COLUMN * columns
    )


def _crosses(region: Region, axis: int, at: float, barred: shapely.Geometry) -> bool:
    if shapely.is_empty(barred):
        return False
    x0, y0, x1, y1 = region.gross.bounds
    ends = [(at, y0), (at, y1)] if axis == X else [(x0, at), (x1, at)]
    return bool(shapely.intersects(barred, LineString(ends)))


def _chosen(
    places: Sequence[float], costs: Sequence[float], longest: float, shortest: float
) -> list[float]:
    """The cheapest chain from end to end whose steps are no longer and no shorter than allowed.

    Where none exists the longest step is widened until there is one.
    """
    while True:
        best = [math.inf] * len(places)
        came = [-1] * len(places)
        best[0] = 0.0
        for i in range(1, len(places)):
            for j in range(i):
                step = places[i] - places[j]
                fits = shortest - MERGE <= step <= longest
                if fits and best[j] + costs[i] < best[i] - 1e-6:
                    best[i], came[i] = best[j] + costs[i], j
        if best[-1] < math.inf:
            break
        longest *= 1.25
    chain = []
    at = came[-1]
    while at > 0:
        chain.append(places[at])
        at = came[at]
    return chain[::-1]
