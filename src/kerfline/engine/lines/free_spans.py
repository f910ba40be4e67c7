"""Free spans of concrete along an axis of a chart, and the places that divide them evenly, symmetric where it is."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.charts import Chart, RoundChart, SquareChart, bounds_in
from kerfline.engine.problem import Problem
from kerfline.engine.regions.directions import is_symmetric
from kerfline.engine.steps import Steps, even_places
from kerfline.geometry.faces import lines_of
from kerfline.model.layout import WorkingLimits

CORRIDOR_ASPECT = 0.95
"""Share of the aspect limit that corridor divisions aim at."""

ALL_ROUND = 0.9
"""A piece that reaches this far around a centre closes on itself."""

SAME_SPAN = 60.0
"""Spans whose ends differ by less than this (mm) are one."""

ROW = 300.0
"""Least height (mm) of a row whose divisions count."""

BEYOND = 10.0
"""How far (mm) lines are drawn beyond a piece."""

FEWEST, NEXT, LONG_BAYS = 3.0, 1.0, 0.5
"""Weights of dividing a span by the fewest bays, by one more, and by too few for the aspect."""

WHOLE = 2.0
"""Weight of dividing a whole span, against a part of it between two features."""


@dataclass(frozen=True, slots=True)
class FreeSpan:
    """A free span.

    Attributes:
        low: Where it begins on its axis, mm.
        high: Where it ends.
        height: Height of the row that it stands for.
        clear: Clear height of the concrete at its middle, across the axis.
    """

    low: float
    high: float
    height: float
    clear: float


def extent(shape: Polygon | LineString, chart: Chart, axis: int) -> tuple[float, float]:
    """Least and greatest coordinate of a shape on an axis."""
    box = bounds_in(chart, shape)
    low, high = box[axis], box[axis + 2]
    if isinstance(chart, RoundChart) and axis == 0 and high - low > ALL_ROUND * chart.round:
        return 0.0, chart.round
    return low, high


def free_spans(
    problem: Problem, chart: Chart, axis: int, levels: Sequence[float]
) -> list[FreeSpan]:
    """Free spans along an axis: one for each row between the piece's corners, or between given levels.

    Args:
        problem: The piece.
        chart: The chart.
        axis: Number of the axis that the spans lie along.
        levels: Coordinates on the other axis between which rows are looked at besides.
    """
    places = chart.measure(shapely.get_coordinates(problem.concrete))
    corners = np.unique(np.round(places[:, 1 - axis], 0))
    rows = [*_rows(corners.tolist()), *_rows(levels)]
    return _pooled([span for row in rows for span in _spans_in(problem, chart, axis, row)])


def _rows(levels: Sequence[float]) -> list[tuple[float, float]]:
    """Rows between levels, low ones joined to the next."""
    rows: list[tuple[float, float]] = []
    floor: float | None = None
    for level in sorted(levels):
        if floor is not None and level - floor >= ROW:
            rows.append((floor, level))
            floor = level
        floor = level if floor is None else floor
    return rows


def _spans_in(
    problem: Problem, chart: Chart, axis: int, row: tuple[float, float]
) -> list[FreeSpan]:
    middle = sum(row) / 2
    out = []
    for low, high in _chords(problem, chart, axis, middle):
        spot = (low + high) / 2
        across = _chords(problem, chart, 1 - axis, spot)
        clear = next((b - a for a, b in across if a <= middle <= b), row[1] - row[0])
        out.append(FreeSpan(low, high, row[1] - row[0], clear))
    return out


def _chords(problem: Problem, chart: Chart, axis: int, level: float) -> list[tuple[float, float]]:
    """The chords of a piece along an axis at a level of the other."""
    low, high = extent(problem.concrete, chart, axis)
    low, high = low - BEYOND, high + BEYOND
    ends = [(low, level), (high, level)] if axis == 0 else [(level, low), (level, high)]
    found = lines_of(shapely.line_merge(chart.curve(ends).intersection(problem.concrete)))
    return [extent(part, chart, axis) for part in found]


def _pooled(spans: Sequence[FreeSpan]) -> list[FreeSpan]:
    """Spans that all but coincide as one, with the sum of their heights."""
    out: list[FreeSpan] = []
    for span in sorted(spans, key=lambda r: (r.low, r.high, r.height)):
        last = out[-1] if out else None
        if last and abs(last.low - span.low) < SAME_SPAN and abs(last.high - span.high) < SAME_SPAN:
            out[-1] = replace(
                last, height=last.height + span.height, clear=max(last.clear, span.clear)
            )
        else:
            out.append(span)
    return out


def divided(
    span: FreeSpan, taken: Sequence[float], limits: WorkingLimits, steps: Steps | None = None
) -> list[tuple[float, float]]:
    """Even divisions of a span and of its parts between lines that are taken: place and weight."""
    stops = [span.low, *sorted(t for t in taken if span.low + 1 < t < span.high - 1), span.high]
    pairs = {(span.low, span.high), *itertools.pairwise(stops)}
    pairs |= {(span.low, t) for t in stops[1:-1]} | {(t, span.high) for t in stops[1:-1]}
    return [
        (place, weight * span.height * (WHOLE if low == span.low and high == span.high else 1.0))
        for low, high in sorted(pairs)
        for count, weight in _counts(high - low, span.clear, limits)
        for place in even_places(low, high, count, limits.span, steps)
    ]


def _counts(size: float, clear: float, limits: WorkingLimits) -> list[tuple[int, float]]:
    """Numbers of bays for a length, each with its weight; those of a corridor follow its width."""
    least = max(1, math.ceil(size / limits.span - 1e-6))
    wanted = least
    if limits.width <= clear < limits.span:
        wanted = max(least, math.ceil(size / (limits.aspect * CORRIDOR_ASPECT * clear)))
    weights = {wanted: FEWEST, wanted + 1: NEXT}
    weights.setdefault(least, LONG_BAYS)
    return [(n, w) for n, w in sorted(weights.items()) if size / n >= limits.width]


NEAR = 40.0
"""Images that lie within this (mm) are one place: whole inches, rounded on either side of a mirror."""


def mirrored_places(
    problem: Problem, chart: Chart, axis: int, taken: Sequence[float], places: Sequence[float]
) -> list[float]:
    """Places on an axis, made symmetric where the piece and the places that are taken are.

    The lower half decides; a place at the middle stays.
    """
    low, high = extent(problem.concrete, chart, axis)
    if any(min(abs(low + high - t - other) for other in taken) > NEAR for t in taken):
        return list(places)
    if not isinstance(chart, SquareChart) or not is_symmetric(problem.concrete, chart.turn, axis):
        return list(places)
    middle = (low + high) / 2
    out: list[float] = []
    for place in places:
        if abs(place - middle) <= NEAR:
            out.append(place)
        elif place < middle:
            out += [place, low + high - place]
    return out
