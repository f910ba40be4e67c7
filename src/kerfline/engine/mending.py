"""Further candidate lines beside panels that came out too long or too narrow: even divisions with their neighbours."""

import math
from collections.abc import Iterator, Sequence

from shapely import Polygon

from kerfline.engine.lines.charts import Chart, SquareChart, bounds_in
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.model.layout import WorkingLimits

Box = tuple[float, float, float, float]
"""Least and greatest coordinates in a chart."""

BESIDE = 30.0
"""Panels whose sides lie within this (mm) of one line touch there; corners of surveys are as noisy."""

SAME_PLACE = 20.0
"""Places closer than this (mm) are one."""


def mending_places(
    problem: Problem, chart: Chart, pieces: PieceLayout
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Where lines on each axis might mend poor panels; none where no panel is poor.

    Args:
        problem: The piece.
        chart: The chart that its layout follows.
        pieces: The layout.
    """
    if not isinstance(chart, SquareChart):
        return (), ()
    limits = problem.limits
    shapes = [shape_of(p, limits.angle) for p in pieces.panels]
    poor = [p for p, s in zip(pieces.panels, shapes, strict=True) if problem.cost.misshapen(s)]
    boxes = [bounds_in(chart, p) for p in pieces.panels] if poor else []
    return (
        _distinct(_places(chart, poor, boxes, limits, 0)),
        _distinct(_places(chart, poor, boxes, limits, 1)),
    )


def _places(
    chart: Chart,
    poor: Sequence[Polygon],
    boxes: Sequence[Box],
    limits: WorkingLimits,
    axis: int,
) -> Iterator[float]:
    """Even divisions of poor panels along an axis, and of each together with a panel beside it."""
    for panel in poor:
        box = bounds_in(chart, panel)
        yield from _divisions(box[axis], box[axis + 2], _bays(box, limits, axis))
        for other in boxes:
            if other != box and _touch(box, other, axis):
                low, high = min(box[axis], other[axis]), max(box[axis + 2], other[axis + 2])
                yield from _divisions(low, high, max(2, math.ceil((high - low) / limits.span)))


def _bays(box: Box, limits: WorkingLimits, axis: int) -> int:
    """How many bays make a panel that is too long short enough."""
    long, across = box[axis + 2] - box[axis], box[3 - axis] - box[1 - axis]
    return max(1, math.ceil(long / (limits.aspect * max(across, limits.width))))


def _touch(one: Box, other: Box, axis: int) -> bool:
    """Whether two panels follow one another along an axis, most of the narrower beside the other."""
    across = 1 - axis
    overlap = min(one[across + 2], other[across + 2]) - max(one[across], other[across])
    least = min(one[across + 2] - one[across], other[across + 2] - other[across])
    meet = min(abs(one[axis] - other[axis + 2]), abs(other[axis] - one[axis + 2]))
    return overlap > least / 2 and meet <= BESIDE


def _divisions(low: float, high: float, count: int) -> Iterator[float]:
    yield from (low + (high - low) * n / count for n in range(1, count))


def _distinct(places: Iterator[float]) -> tuple[float, ...]:
    out: list[float] = []
    for place in sorted(places):
        if not out or place - out[-1] > SAME_PLACE:
            out.append(place)
    return tuple(out)
