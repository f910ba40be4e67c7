"""Lays out an area in a pattern that the user wishes for, with border panels made legal."""

import math
from collections.abc import Iterator, Sequence

import shapely
from shapely import LineString, affinity
from shapely.geometry.base import BaseGeometry

from kerfline.engine.bending import bent
from kerfline.engine.lines.candidates import CandidateLine, straight
from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.lines.divisions import extent
from kerfline.engine.measure.shape import sharp_places
from kerfline.engine.partition.net import Net, net_of
from kerfline.engine.partition.on_chart import best_of
from kerfline.engine.partition.panels import CandidatePanel, candidate_panels
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.steps import bay_count
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Pattern, PatternKind

HALF_RIGHT = 45.0

BORDER_ROOMS = (1.75,)
"""A border panel of the turned grid is a square, half of another, and what bends of the joints add:
so much longer than the square."""

MOST_SQUARES = {PatternKind.DIAGONAL: 1300, PatternKind.SQUARE: 1000, PatternKind.ALIGNED: 900}
"""Squares of a grid on an area, beyond which it is given up: more are not laid out in half a minute. Along a line of
the user's several sizes are tried."""

OUTSIDE = 25
"""So many crossings of a grid's lines, most of them outside a long area, are as much work as one square."""

TRIES = 4
"""Layouts tried in one grid."""

SKEW_ROOMS = (1.4, 1.2, 1.6, 1.8)
"""The same for a grid along a line of the user's: all are tried, and the best is kept."""


def patterned(
    problem: Problem, pattern: Pattern, settled: Sequence[LineString]
) -> PieceLayout | None:
    """The layout of an area in a square grid, centred, turned or along a line, its joints bent square.

    Inside, every square of the grid is a panel. Along the border the squares that the border cuts
    are joined to their neighbours where that makes better panels. None where the rules allow no such
    layout.

    Args:
        problem: The area.
        pattern: The wish.
        settled: Joints that are settled inside the area.
    """
    found = [
        answer for room in _rooms(pattern) for answer in _in_grid(problem, pattern, room, settled)
    ]
    return min(found, key=lambda f: problem.score(f, settled), default=None)


def too_fine(pattern: Pattern, area: BaseGeometry, span: float) -> str:
    """Why a pattern is given up before its grid is drawn, in a sentence; empty where it is not.

    Args:
        pattern: The wish.
        area: The concrete on which it holds, not empty.
        span: The span that is worked to, mm.
    """
    step = min(pattern.spacing or span, span) / max(_rooms(pattern))
    x0, y0, x1, y1 = affinity.rotate(area, -turn_of(pattern), origin=(0, 0)).bounds
    crossings = (x1 - x0) * (y1 - y0) / step**2
    squares = round(max(area.area / step**2, crossings / OUTSIDE))
    most = MOST_SQUARES[pattern.kind]
    if squares <= most:
        return ""
    return (
        f"Pattern {pattern.id} is given up: its area would take about {squares:,} squares, and {most:,} "
        "are the most that are laid out in such a pattern; give it a smaller area, or leave it out."
    )


def _rooms(pattern: Pattern) -> tuple[float, ...]:
    """The shares of the span that are tried for the squares; one where the spacing is settled."""
    if pattern.spacing or pattern.kind is PatternKind.SQUARE:
        return (1.0,)
    return BORDER_ROOMS if pattern.kind is PatternKind.DIAGONAL else SKEW_ROOMS


def _in_grid(
    problem: Problem,
    pattern: Pattern,
    room: float,
    settled: Sequence[LineString],
) -> Iterator[PieceLayout]:
    """Layouts in one grid, the joints bent: the cheapest, then others without what could not be bent."""
    chart = SquareChart(turn_of(pattern))
    firsts, seconds = (_grid(problem, chart, axis, pattern, room) for axis in (0, 1))
    net = net_of(problem.concrete, chart, firsts, seconds, settled)
    allowed = [c for c in candidate_panels(problem, net) if len(c.cells) == 1 or _is_cut(net, c)]
    for _ in range(TRIES):
        answer = best_of(problem, net, allowed)
        if answer is None:
            return
        square = bent(problem, answer, settled)
        yield square
        flat = _flat_places(problem, square)
        if not flat or not problem.effort.allows():
            return
        allowed = [c for c in allowed if len(c.cells) == 1 or not _is_sharp_at(problem, c, flat)]


def _flat_places(problem: Problem, pieces: PieceLayout) -> list[Point]:
    """The corners of panels under the least angle that lie on one of the layout's joints."""
    cuts = shapely.union_all([c.line for c in pieces.cuts])
    return [
        at
        for panel in pieces.panels
        for at in sharp_places(panel, problem.limits.angle)
        if cuts.distance(shapely.Point(at)) <= TOUCH
    ]


def _is_sharp_at(problem: Problem, choice: CandidatePanel, places: Sequence[Point]) -> bool:
    """Whether a panel has a corner under the least angle at one of some places."""
    sharp = sharp_places(choice.polygon, problem.limits.angle)
    return any(math.dist(at, place) <= TOUCH for at in sharp for place in places)


def turn_of(pattern: Pattern) -> float:
    """Angle of the pattern's lines in the region's frame, degrees."""
    if pattern.kind is PatternKind.DIAGONAL:
        return HALF_RIGHT
    if pattern.kind is PatternKind.ALIGNED and pattern.along:
        (x0, y0), (x1, y1) = pattern.along
        return math.degrees(math.atan2(y1 - y0, x1 - x0))
    return 0.0


def _grid(
    problem: Problem, chart: Chart, axis: int, pattern: Pattern, room: float
) -> tuple[CandidateLine, ...]:
    """Lines at one spacing, laid symmetrically about the middle of the area."""
    low, high = extent(problem.concrete, chart, axis)
    across = extent(problem.concrete, chart, 1 - axis)
    step = _spacing(problem, pattern, high - low, room)
    count = bay_count(high - low, step)
    middle = (low + high) / 2
    places = [middle + (i - count / 2) * step for i in range(1, count)]
    return tuple(CandidateLine(straight(p, axis, across), Reason.PATTERN) for p in places)


def _spacing(problem: Problem, pattern: Pattern, size: float, room: float) -> float:
    """The wished spacing within the span; unwished, even bays, or what leaves room at the border."""
    span = problem.limits.span
    if pattern.spacing:
        return min(pattern.spacing, span)
    if pattern.kind is PatternKind.SQUARE:
        return size / bay_count(size, span)
    return span / room


def _is_cut(net: Net, choice: CandidatePanel) -> bool:
    """Whether the area's border cuts one of a panel's squares."""
    for cell in (net.cells[number] for number in choice.cells):
        low_u, low_v, high_u, high_v = cell.box
        full = (high_u - low_u) * (high_v - low_v)
        side = max(high_u - low_u, high_v - low_v)
        if cell.polygon.area < full - TOUCH * side or full < side * side - TOUCH * side:
            return True
    return False
