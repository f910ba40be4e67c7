"""Even divisions: of the free spans of concrete along an axis of a chart, and of panels that came out poor."""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.charts import Chart, RoundChart, bounds_in
from kerfline.engine.problem import Problem
from kerfline.engine.steps import Steps, bay_count, even_places
from kerfline.geometry.faces import lines_of
from kerfline.model.layout import WorkingLimits

KEPT = 1000
"""Rows of pieces whose free spans are kept: a piece is looked at again by every way to lay it out."""

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

BESIDE = 30.0
"""Panels whose sides lie within this (mm) of one line touch there; corners of surveys are as noisy."""

SAME_PLACE = 20.0
"""Places closer than this (mm) are one."""


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
    box = _box(shape, chart) if isinstance(shape, Polygon) else bounds_in(chart, shape)
    low, high = box[axis], box[axis + 2]
    if isinstance(chart, RoundChart) and axis == 0 and high - low > ALL_ROUND * chart.round:
        return 0.0, chart.round
    return low, high


@lru_cache(maxsize=KEPT)
def _box(shape: Polygon, chart: Chart) -> tuple[float, float, float, float]:
    return bounds_in(chart, shape)


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
    return _pooled([s for row in rows for s in _spans_in(problem.concrete, chart, axis, row)])


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


@lru_cache(maxsize=KEPT)
def _spans_in(
    piece: Polygon, chart: Chart, axis: int, row: tuple[float, float]
) -> tuple[FreeSpan, ...]:
    middle = sum(row) / 2
    out = []
    for low, high in chords(piece, chart, axis, middle):
        spot = (low + high) / 2
        across = chords(piece, chart, 1 - axis, spot)
        clear = next((b - a for a, b in across if a <= middle <= b), row[1] - row[0])
        out.append(FreeSpan(low, high, row[1] - row[0], clear))
    return tuple(out)


def chords(shape: Polygon, chart: Chart, axis: int, level: float) -> list[tuple[float, float]]:
    """Where a line along an axis, at a level of the other, lies inside a figure: low and high, mm."""
    low, high = extent(shape, chart, axis)
    low, high = low - BEYOND, high + BEYOND
    ends = [(low, level), (high, level)] if axis == 0 else [(level, low), (level, high)]
    found = lines_of(shapely.line_merge(chart.curve(ends).intersection(shape)))
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
    """Numbers of bays for a length, each with its weight; those of a corridor follow its width.

    One number has most of the weight, for lines crowd one another out. On a grid, where many more lines are
    affordable, several are kept instead (``lattice._bays``): under that rule here the bays of corridors come out uneven.
    """
    least = bay_count(size, limits.span)
    wanted = least
    if limits.width <= clear < limits.span:
        wanted = max(least, bay_count(size, limits.aspect * CORRIDOR_ASPECT * clear))
    weights = {wanted: FEWEST, wanted + 1: NEXT}
    weights.setdefault(least, LONG_BAYS)
    return [(n, w) for n, w in sorted(weights.items()) if size / n >= limits.width]


Box = tuple[float, float, float, float]
"""Least and greatest coordinates in a chart."""

Places = tuple[tuple[float, ...], tuple[float, ...]]
"""Places of lines on the first axis and on the second, mm."""


def mending_places(boxes: Sequence[Box], poor: Sequence[bool], limits: WorkingLimits) -> Places:
    """Where lines on each axis might mend poor panels, the most wanted first; none where no panel is poor.

    Args:
        boxes: The boxes of all panels of a layout.
        poor: Which of them are poor.
        limits: What holds for them.
    """
    first, second = (_distinct(_places(boxes, poor, limits, axis)) for axis in (0, 1))
    return first, second


def _places(
    boxes: Sequence[Box], poor: Sequence[bool], limits: WorkingLimits, axis: int
) -> Iterator[float]:
    """Even divisions of poor panels along an axis, and of each together with a panel beside it."""
    for box in (b for b, bad in zip(boxes, poor, strict=True) if bad):
        yield from _own(box, limits, axis)
        for other in boxes:
            if other != box and _touch(box, other, axis):
                low, high = min(box[axis], other[axis]), max(box[axis + 2], other[axis + 2])
                yield from even_places(low, high, max(2, bay_count(high - low, limits.span)))


def _own(box: Box, limits: WorkingLimits, axis: int) -> Iterator[float]:
    """Even divisions of a panel that is too long: as few bays as make it short enough, and one more."""
    long, across = box[axis + 2] - box[axis], box[3 - axis] - box[1 - axis]
    least = bay_count(long, limits.aspect * max(across, limits.width))
    for count in (least, least + 1):
        if least > 1 and long / count >= limits.width:
            yield from even_places(box[axis], box[axis + 2], count)


def _touch(one: Box, other: Box, axis: int) -> bool:
    """Whether two panels follow one another along an axis, most of the narrower beside the other."""
    across = 1 - axis
    overlap = min(one[across + 2], other[across + 2]) - max(one[across], other[across])
    least = min(one[across + 2] - one[across], other[across + 2] - other[across])
    meet = min(abs(one[axis] - other[axis + 2]), abs(other[axis] - one[axis + 2]))
    return overlap > least / 2 and meet <= BESIDE


def _distinct(places: Iterator[float]) -> tuple[float, ...]:
    """Places without those that all but repeat another, the one that most panels ask for first."""
    asked: list[tuple[float, int]] = []
    for place in sorted(places):
        if asked and place - asked[-1][0] <= SAME_PLACE:
            asked[-1] = (asked[-1][0], asked[-1][1] + 1)
        else:
            asked.append((place, 1))
    return tuple(place for place, _ in sorted(asked, key=lambda a: (-a[1], a[0])))
