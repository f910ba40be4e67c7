"""Divides a large piece along good candidate lines, so that each part is solved to the end."""

import math
from collections.abc import Sequence

import shapely
from shapely import LineString, Polygon

from kerfline.engine.halving import BARRED
from kerfline.engine.lines.candidates import CandidateLine, candidate_lines
from kerfline.engine.lines.charts import Chart
from kerfline.engine.problem import Problem
from kerfline.engine.regions.region import Cut
from kerfline.geometry.corners import Corner, corners
from kerfline.geometry.faces import faces, lines_of
from kerfline.geometry.tolerance import DEGREES, TOUCH
from kerfline.model.layout import Reason

MOST_BAYS = 36.0
"""Area, in squares of the span, that is solved in one go."""

WALLS = 20.0
"""So many walls make the work on a piece double: each adds candidate lines."""

LEAST_SHARE = 0.2
"""Least share of the area on either side of a dividing line."""

FEATURE = 0.25
"""What a line through a corner or under a wall is worth, as a share of the piece's size."""

SHARP = 0.25
"""What a corner under the least angle on either side of a dividing line costs, as such a share."""

TWO = 2
"""Parts that a line leaves at least, if it divides anything."""


def parts_of(
    problem: Problem, chart: Chart, most: float = math.inf
) -> tuple[list[Polygon], list[Cut]]:
    """The parts of a piece and the joints between them.

    Args:
        problem: The piece.
        chart: Along which it is divided.
        most: Largest area (mm2) of a part, where that is less than what is solved in one go.
    """
    done: list[Polygon] = []
    cuts: list[Cut] = []
    waiting = [problem.concrete]
    most = min(most, MOST_BAYS * problem.limits.span**2)
    lines = [*candidate_lines(problem, chart, 0), *candidate_lines(problem, chart, 1)]
    while waiting:
        piece = waiting.pop()
        work = piece.area * (1.0 + _walls_on(problem, piece) / WALLS)
        best = _best_division(problem, chart, lines, piece) if work > most else None
        if best is None:
            done.append(piece)
        else:
            waiting.extend(reversed(best[0]))
            cuts.extend(best[1])
    return done, cuts


def _hidden(problem: Problem, chord: LineString) -> float:
    """Length of a line (mm) that lies under walls."""
    bands = [w.path.buffer(w.slack, cap_style="flat") for w in problem.walls]
    return float(chord.intersection(shapely.union_all(bands)).length) if bands else 0.0


def _walls_on(problem: Problem, piece: Polygon) -> int:
    return sum(wall.path.intersection(piece).length > TOUCH for wall in problem.walls)


def _best_division(
    problem: Problem, chart: Chart, lines: Sequence[CandidateLine], piece: Polygon
) -> tuple[list[Polygon], list[Cut]] | None:
    size = math.sqrt(piece.area)
    best: tuple[float, list[Polygon], list[Cut]] | None = None
    for line in lines:
        for chords in _chords(piece, chart.curve(line.through)):
            parts = faces(piece, chords)
            share = min(p.area for p in parts) / piece.area if len(parts) >= TWO else 0.0
            if share < LEAST_SHARE:
                continue
            length = sum(c.length for c in chords)
            poor = sum(float(c.intersection(problem.barred).length) for c in chords)
            price = length / size + (0.5 - share) + BARRED * poor
            price += SHARP * sum(len(_points(problem, p)) for p in parts)
            price -= FEATURE if line.reason is not Reason.SPAN else 0.0
            price -= sum(_hidden(problem, c) for c in chords) / size
            if best is None or price < best[0] - 1e-6:
                best = (price, parts, [_cut(c, line.reason) for c in chords])
    return (best[1], best[2]) if best else None


def _points(problem: Problem, part: Polygon) -> list[Corner]:
    """The corners of a part under the least angle."""
    return [c for c in corners(part) if c.angle < problem.limits.angle - DEGREES]


def _chords(piece: Polygon, curve: LineString) -> list[list[LineString]]:
    """The chords of a piece on a line, each alone; all together where the piece has holes."""
    chords = lines_of(shapely.line_merge(curve.intersection(piece)))
    if piece.interiors:
        return [chords] if chords else []
    return [[c] for c in chords]


def _cut(chord: LineString, reason: Reason) -> Cut:
    path = tuple((float(x), float(y)) for x, y in chord.coords)
    return Cut(path=path, reason=reason, note="open floor")
