"""Divides concrete that is not laid out in one go: a large piece in parts, any piece in panels within the span.

Parts end at good candidate lines, so that each is solved to its end. Halving is the method that never fails: one
cut at a time, each the cheapest of a handful, square to the long side of the piece near its middle, or through a
re-entrant corner, square or parallel to the edges. It serves what no chart fits, and what a chart leaves over the span.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.candidates import CandidateLine, candidate_lines
from kerfline.engine.lines.charts import Chart
from kerfline.engine.measure.shape import Shape, rectangle_shape, shape_of
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.frames import chords, corner_chords, parting
from kerfline.engine.regions.region import Cut
from kerfline.engine.steps import bay_count
from kerfline.geometry.corners import Corner, corners
from kerfline.geometry.faces import SLIVER, faces, lines_of, points_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, SAME, TOUCH
from kerfline.model.layout import Reason

SHARES = (0.5, 0.45, 0.55, 0.4, 0.6, 1 / 3, 2 / 3)
"""Where along a piece cuts are tried, besides even divisions."""

BARRED = 1e6
"""What a mm of cut through a barred area costs, in mm of joint: never, where there is another way."""

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


def halve(problem: Problem, piece: Polygon) -> PieceLayout:
    """Divides a piece until every panel is within the span and holds no deep re-entrant corner."""
    done: list[Polygon] = []
    cuts: list[Cut] = []
    waiting = [piece]
    while waiting:
        current = waiting.pop()
        shape = shape_of(current, problem.limits.angle)
        best = _best_cut(problem, current, shape)
        if best is None:
            done.append(current)
            continue
        waiting.extend(best[0])
        cuts.extend(best[1])
    cost = sum(problem.price(shape_of(p, problem.limits.angle)) for p in done)
    length = sum(c.line.length for c in cuts)
    return PieceLayout(panels=tuple(done), cuts=tuple(cuts), cost=cost + length)


def _best_cut(
    problem: Problem, piece: Polygon, shape: Shape
) -> tuple[list[Polygon], list[Cut]] | None:
    """The cheapest cut, if any is cheaper than leaving the piece or the piece must be cut."""
    must = not problem.holds(shape)
    best: tuple[float, list[Polygon], list[LineString]] | None = None
    for lines in chain(corner_chords(piece), _even_chords(problem, piece)):
        parts = faces(piece, lines)
        if len(parts) <= 1 or any(p.area < SLIVER * 100 for p in parts):
            continue
        price = sum(x.length + BARRED * float(x.intersection(problem.barred).length) for x in lines)
        price += sum(_outlook(problem, p) for p in parts)
        if best is None or price < best[0] - SAME:
            best = (price, parts, lines)
    if best is None or (not must and best[0] >= _outlook(problem, piece)):
        return None
    return best[1], [Cut(path=points_of(line)) for line in best[2]]


def _outlook(problem: Problem, piece: Polygon) -> float:
    """What a piece will cost when it is divided evenly, its own shape's faults included."""
    limits = problem.limits
    shape = shape_of(piece, limits.angle)
    if problem.holds(shape):
        return problem.price(shape)
    rows = bay_count(shape.width, limits.span)
    bays = bay_count(shape.span, limits.span)
    joints = (rows - 1) * shape.length + (bays - 1) * shape.width
    plain = rectangle_shape(shape.length / bays, shape.width / rows)
    faulty = replace(
        plain, fullness=shape.fullness, hollow=shape.hollow, sharp=shape.sharp, short=shape.short
    )
    fullness = piece.area / (shape.length * shape.width)
    return float(
        joints * fullness
        + problem.price(faulty)
        + problem.price(plain) * (rows * bays * fullness - 1)
    )


def _even_chords(problem: Problem, piece: Polygon) -> Iterator[list[LineString]]:
    """Chords square to the long side of the piece, and to the short one, at even divisions."""
    box = enclosing_rectangle(piece)
    frame = math.radians(box.angle)
    along, across = (math.cos(frame), math.sin(frame)), (-math.sin(frame), math.cos(frame))
    for way, other, size in ((along, across, box.length), (across, along, box.width)):
        places = [x * way[0] + y * way[1] for x, y in piece.exterior.coords]
        low = min(places)
        count = bay_count(size, problem.limits.span)
        shares = {round(i / n, 6) for n in (count, count + 1) for i in range(1, n)} | set(SHARES)
        level = _level(piece, other)
        for share in sorted(shares, key=lambda s: (abs(s - SHARES[0]), s)):
            at = (
                way[0] * (low + share * size) + other[0] * level,
                way[1] * (low + share * size) + other[1] * level,
            )
            yield from chords(piece, at, other)


def _level(piece: Polygon, way: Point) -> float:
    """Where the middle of a piece lies along a direction."""
    return piece.centroid.x * way[0] + piece.centroid.y * way[1]


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


def _walls_on(problem: Problem, piece: Polygon) -> int:
    return sum(wall.path.intersection(piece).length > TOUCH for wall in problem.walls)


def _best_division(
    problem: Problem, chart: Chart, lines: Sequence[CandidateLine], piece: Polygon
) -> tuple[list[Polygon], list[Cut]] | None:
    size = math.sqrt(piece.area)
    best: tuple[float, list[Polygon], list[Cut]] | None = None
    for line in lines:
        on = chart.curve(line.through).intersection(piece)
        for group in parting(piece, lines_of(shapely.line_merge(on))):
            parts = faces(piece, group)
            share = min(p.area for p in parts) / piece.area if len(parts) > 1 else 0.0
            if share < LEAST_SHARE:
                continue
            length = sum(c.length for c in group)
            poor = sum(float(c.intersection(problem.barred).length) for c in group)
            price = length / size + (0.5 - share) + BARRED * poor
            price += SHARP * sum(len(_points(problem, p)) for p in parts)
            price -= FEATURE if line.reason is not Reason.SPAN else 0.0
            price -= sum(float(c.intersection(problem.under_walls).length) for c in group) / size
            if best is None or price < best[0] - 1e-6:
                best = (price, parts, [Cut(path=points_of(c)) for c in group])
    return (best[1], best[2]) if best else None


def _points(problem: Problem, part: Polygon) -> list[Corner]:
    """The corners of a part under the least angle."""
    return [c for c in corners(part) if c.angle < problem.limits.angle - DEGREES]
