"""Whether a piece is its own image, and candidate places that are then symmetric too."""

from collections.abc import Sequence

from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.lines.free_spans import extent
from kerfline.engine.problem import Problem
from kerfline.engine.regions.directions import is_symmetric

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
