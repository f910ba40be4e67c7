"""Bends joints square to what they would meet too flat: after the panels are chosen, or before.

Bent afterwards, a joint keeps its place, and its panels may come out poor. Bent before, the panels between the lines
are measured as they will be cut, so that the choice leaves room for every bend: a bay beside a slanted edge stays as
much shorter as the bend reaches over.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.ops import split

from kerfline.engine.lines.bends import (
    CLEAR,
    Bend,
    bars_of,
    bends_at,
    jogged,
    knees_of,
)
from kerfline.engine.lines.candidates import CandidateLine
from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.lines.divisions import ROW, Places
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.partition.net import net_of
from kerfline.engine.partition.on_chart import best_of, both_families, settled_on
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.region import Cut
from kerfline.geometry.corners import ahead, direction
from kerfline.geometry.faces import faces, lines_of, points_of, rings_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason

Path = tuple[Point, ...]

NEAR = 10.0
"""Bends further (mm) from a panel's box than this are not at its corners."""

OUT = 10.0
"""How far (mm) a bent line runs on beyond the edge."""


def bent(problem: Problem, pieces: PieceLayout, settled: Sequence[LineString]) -> PieceLayout:
    """The same layout with every bend that makes its panels cheaper.

    Args:
        problem: The piece.
        pieces: Its layout.
        settled: Joints inside the piece that are not among the layout's cuts.
    """
    current = pieces
    prices = _Prices(problem)
    price = prices.of(current)
    for number in range(len(pieces.cuts)):
        for end in (0, -1):
            for path in _bent_paths(problem, current, settled, number, end):
                candidate = _with(problem, current, settled, number, path)
                cost = prices.of(candidate)
                if cost < price - 1.0:
                    current, price = replace(candidate, cost=current.cost + cost - price), cost
                    break
    return current


class _Prices:
    """What the panels of layouts cost, each panel measured once: a bend changes but a few of them."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self._known: dict[tuple[bytes, tuple[Point, ...]], float] = {}

    def of(self, pieces: PieceLayout) -> float:
        """What all panels of a layout cost; endless where one is longer than the span."""
        knees = [p for c in pieces.cuts for p in c.path[1:-1]]
        spots = np.array(knees, dtype=float).reshape(-1, 1, 2)
        box = shapely.bounds(np.asarray(pieces.panels, dtype=object)).reshape(-1, 4)
        inside = (spots >= box[:, :2] - NEAR) & (spots <= box[:, 2:] + NEAR)
        beside: dict[int, list[Point]] = {}
        for knee, panel in np.argwhere(inside.all(axis=2)).tolist():
            beside.setdefault(panel, []).append(knees[knee])
        return sum(
            self._of_one(panel, tuple(beside.get(n, ()))) for n, panel in enumerate(pieces.panels)
        )

    def _of_one(self, panel: Polygon, knees: tuple[Point, ...]) -> float:
        key = (panel.wkb, knees)
        if key not in self._known:
            shape = shape_of(panel, self.problem.limits.angle, knees)
            holds = self.problem.holds(shape)
            self._known[key] = self.problem.price(shape) if holds else math.inf
        return self._known[key]


def _with(
    problem: Problem, pieces: PieceLayout, settled: Sequence[LineString], number: int, path: Path
) -> PieceLayout:
    cuts = list(pieces.cuts)
    cuts[number] = replace(cuts[number], path=path)
    lines = [*settled, *(c.line for c in cuts)]
    return replace(pieces, cuts=tuple(cuts), panels=tuple(faces(problem.concrete, lines)))


def _bent_paths(
    problem: Problem, pieces: PieceLayout, settled: Sequence[LineString], number: int, end: int
) -> Iterator[Path]:
    """Ways to bend one end of a joint, where it comes in too flat."""
    cut = pieces.cuts[number]
    path = list(cut.path)
    inner, tip = (path[1], path[0]) if end == 0 else (path[-2], path[-1])
    if problem.hides(tip):
        return
    others = [*settled, *(c.line for n, c in enumerate(pieces.cuts) if n != number)]
    stops = [*rings_of(problem.concrete), *others]
    room = min(_room(cut, tip, others), math.dist(inner, tip))
    for bend in bends_at(stops, inner, tip, problem.limits.angle, room):
        if end == 0:
            yield (bend.foot, bend.knee, *path[1:])
        else:
            yield (*path[:-1], bend.knee, bend.foot)


def _room(cut: Cut, tip: Point, others: Sequence[LineString]) -> float:
    """How far from an end a joint runs before it meets another one."""
    line = cut.line
    spot = shapely.Point(tip)
    hits = [
        shapely.Point(at).distance(spot)
        for other in others
        for at in shapely.get_coordinates(line.intersection(other))
    ]
    return min([line.length, *(h for h in hits if h > TOUCH)])


@dataclass(frozen=True)
class _Chord:
    """A stretch of a line through the concrete: its points, those beyond bent ends, and its knees."""

    path: Path
    length: float
    knees: tuple[Point, ...]


def squared(problem: Problem, chart: Chart, settled: Sequence[LineString]) -> PieceLayout | None:
    """The best layout along a chart's lines with their flat ends bent; None where nothing is to bend that was not before.

    Args:
        problem: The piece.
        chart: The chart; lines of a round one are not bent.
        settled: Settled joints inside the piece.
    """
    if not isinstance(chart, SquareChart):
        return None
    problem, own = settled_on(problem, chart)
    settled = [*settled, *(c.line for c in own)]
    drawn = [[bent for _, bent in lines] for lines in _drawn(problem, chart, settled)]
    knees = tuple(p for lines in drawn for _, found in lines for p in found)
    if not knees:
        return None
    firsts, seconds = (tuple(line for line, _ in lines) for lines in drawn)
    if not problem.is_new(chart, firsts, seconds, knees):
        return None
    ready = replace(problem, knees=knees)
    net = net_of(problem.concrete, chart, firsts, seconds, settled)
    answer = best_of(ready, net, candidate_panels(ready, net))
    if answer is None:
        return None
    return replace(answer, cuts=_parted(answer.cuts, settled)).with_cuts(own)


def _drawn(
    problem: Problem, chart: SquareChart, settled: Sequence[LineString]
) -> list[list[tuple[CandidateLine, tuple[CandidateLine, Path]]]]:
    """The candidate lines of both axes, each with itself bent and its knees."""
    return [
        [
            (plain, _bent_line(problem, chart, line, axis))
            for plain, line in zip(
                lines, _across(problem, chart, lines, axis, settled), strict=True
            )
        ]
        for axis, lines in enumerate(both_families(problem, chart))
    ]


def places_in_use(
    problem: Problem, chart: Chart, settled: Sequence[LineString], cuts: Sequence[Cut]
) -> Places:
    """The places of the candidate lines, on either axis, on which cuts lie that were chosen after they were bent.

    A line that jogs runs beside its place, so that the cuts alone do not tell it. On a round chart none are bent.
    """
    if not isinstance(chart, SquareChart):
        return (), ()
    problem, own = settled_on(problem, chart)
    settled = [*settled, *(c.line for c in own)]
    chosen = shapely.union_all([c.line for c in cuts]).buffer(TOUCH)
    used = [
        tuple(
            round(plain.place(axis), 1)
            for plain, (line, _) in lines
            if chart.curve(line.through).intersection(chosen).length > ROW
        )
        for axis, lines in enumerate(_drawn(problem, chart, settled))
    ]
    return used[0], used[1]


def _across(
    problem: Problem,
    chart: SquareChart,
    lines: Sequence[CandidateLine],
    axis: int,
    settled: Sequence[LineString],
) -> list[CandidateLine]:
    """The lines of one axis, jogged where they would cross a settled joint too flat; not under walls."""
    least = problem.limits.angle
    bars = bars_of(chart, settled, axis)
    return [
        line if problem.walls and line.reason is Reason.WALL else jogged(line, axis, bars, least)
        for line in lines
    ]


def _parted(cuts: Sequence[Cut], settled: Sequence[LineString]) -> tuple[Cut, ...]:
    """Bent cuts divided where they cross a settled joint, so that each bends near its own end."""
    if not settled:
        return tuple(cuts)
    bars = shapely.MultiLineString(list(settled))
    return tuple(
        replace(cut, path=points_of(part))
        for cut in cuts
        for part in ([cut.line] if cut.is_straight else _split(cut, bars))
    )


def _split(cut: Cut, bars: shapely.MultiLineString) -> list[LineString]:
    return [part for part in lines_of(split(cut.line, bars)) if part.length > TOUCH]


def _bent_line(
    problem: Problem, chart: SquareChart, line: CandidateLine, axis: int
) -> tuple[CandidateLine, Path]:
    """A candidate line with its flat ends bent, and its knees; as it is where that cannot be drawn."""
    curve = chart.curve(line.through)
    parts = lines_of(shapely.line_merge(curve.intersection(problem.concrete)))
    ordered = sorted(
        (_forward(curve, points_of(p)) for p in parts),
        key=lambda p: curve.project(shapely.Point(p[0])),
    )
    chords = [_bent_chord(problem, path) for path in ordered]
    jogs = knees_of(chart, line)
    knees = tuple(k for chord in chords for k in chord.knees)
    if not knees:
        return line, jogs
    points = [
        *_lead(curve, chords[0], 0),
        *(p for c in chords for p in c.path),
        *_lead(curve, chords[-1], -1),
    ]
    along = chart.measure(np.asarray(points))[:, 1 - axis]
    drawn = LineString(points)
    whole = float(drawn.intersection(problem.concrete).length)
    if (np.diff(along) <= 0).any() or abs(whole - sum(c.length for c in chords)) > TOUCH:
        return line, jogs
    through = tuple((float(u), float(v)) for u, v in chart.measure(np.asarray(points)))
    return replace(line, through=through), (*jogs, *knees)


def _forward(curve: LineString, path: Path) -> Path:
    """A stretch of a line in the line's own sense."""
    first, last = (curve.project(shapely.Point(p)) for p in (path[0], path[-1]))
    return path if first <= last else path[::-1]


def _lead(curve: LineString, chord: _Chord, end: int) -> list[Point]:
    """The line's own end beyond a piece, where the stretch beside it is not bent there."""
    at = chord.path[end]
    own = points_of(curve)[end]
    return [] if curve.distance(shapely.Point(at)) > TOUCH else [own]


def _bent_chord(problem: Problem, path: Path) -> _Chord:
    rings = rings_of(problem.concrete)
    head = _first(problem, rings, path)
    tail = _first(problem, rings, path[::-1])
    taken = sum(math.dist(b.knee, tip) for b, tip in ((head, path[0]), (tail, path[-1])) if b)
    if head and tail and taken > LineString(path).length - CLEAR:
        head = tail = None
    start = [_beyond(head), head.foot, head.knee] if head else [path[0]]
    end = [tail.knee, tail.foot, _beyond(tail)] if tail else [path[-1]]
    points = (*start, *path[1:-1], *end)
    inside = points[1 if head else 0 : -1 if tail else None]
    knees = tuple(b.knee for b in (head, tail) if b)
    return _Chord(points, LineString(inside).length, knees)


def _first(problem: Problem, rings: Sequence[LineString], path: Path) -> Bend | None:
    """The first bend that the start of a stretch allows; none under a wall."""
    if problem.hides(path[0]):
        return None
    room = math.dist(path[0], path[1])
    return next(bends_at(rings, path[1], path[0], problem.limits.angle, room), None)


def _beyond(bend: Bend) -> Point:
    return ahead(bend.foot, direction(bend.knee, bend.foot), OUT)
