"""Lays a piece out again, with joints that bend square, where the cheapest layout leaves flat meetings."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from shapely import LineString

from kerfline.engine.bent_lines import squared, tips_of
from kerfline.engine.lines.bends import bent
from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.directions import QUARTER, segments

ROOMS = (0.0, 400.0)
"""How much (mm) shorter than the span bays are tried, so that bends find room."""

WAYS = tuple((spare, room) for spare in (False, True) for room in ROOMS)
"""Ways to bend lines: all of them first, then without those that cut off a sharp tip."""

TILT = 10.0
"""Lines are tilted by no more than this (degrees) for the sake of an angle."""

SPARE = 0.2
"""And this much (degrees) more than the least angle asks."""


def squared_ways(
    problem: Problem, chart: Chart, inside: Sequence[LineString]
) -> Iterator[PieceLayout]:
    """Layouts whose candidate lines bend square, the likeliest first.

    Args:
        problem: The piece.
        chart: The chart of the layout so far: other directions would look strange for the sake of an angle.
        inside: Settled joints inside it.
    """
    sharp = bool(tips_of(problem))
    own = [chart] if isinstance(chart, SquareChart) else []
    for way in [*own, *_tilted(problem)]:
        problem = problem if way is chart else replace(problem, more=((), ()))
        for spare_tips, room in WAYS if sharp else WAYS[: len(ROOMS)]:
            answer = squared(problem, way, inside, room, spare_tips=spare_tips)
            if answer is not None:
                yield bent(problem, answer, inside) if not spare_tips else answer


def _tilted(problem: Problem) -> list[SquareChart]:
    """Charts turned a little, just enough that one family of lines meets a slanted side at the least angle."""
    angles, lengths = segments([problem.concrete.exterior])
    steep = QUARTER - problem.limits.angle - SPARE
    leans = [
        angle - QUARTER if angle > QUARTER / 2 else angle
        for angle, length in zip(angles.tolist(), lengths.tolist(), strict=True)
        if length > problem.limits.span
    ]
    turns = [lean - math.copysign(steep, lean) for lean in leans if abs(lean) > steep]
    return [SquareChart(turn) for turn in sorted({round(t, 3) for t in turns}) if abs(turn) <= TILT]
