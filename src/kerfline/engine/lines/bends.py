"""Bends the last stretch of a joint square to what it ends on, where it would come in too flat.

Pavement guidance bends joints square to a curved or skew edge within the last 0.5 to 1.0 m (1.5 to
3 ft); the same stretch serves here at skew edges and diagonal walls.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.cut_ends import tangent, under
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.region import Cut
from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.faces import faces
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import DEGREES, TOUCH

STRETCHES = (700.0, 500.0, 950.0)
"""How far (mm) before the edge a joint may bend, the best first."""

CLEAR = 300.0
"""A bend stays this far (mm) from where the joint crosses another."""

GRAZING = 15.0
"""A joint that comes in flatter than this (degrees) runs along the edge: no bend mends it."""

SQUARE_ON = 15.0
"""A bent end comes in within this (degrees) of square."""


NEAR = 10.0
"""Bends further (mm) from a panel's box than this are not at its corners."""

Path = tuple[Point, ...]


@dataclass(frozen=True)
class Bend:
    """How the end of a line may bend.

    Attributes:
        knee: Where it leaves its straight course.
        foot: Where it meets, square, what it ends on.
    """

    knee: Point
    foot: Point


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
    lines = [*settled, *(LineString(c.path) for c in cuts)]
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
    others = [*settled, *(LineString(c.path) for n, c in enumerate(pieces.cuts) if n != number)]
    stops = [problem.concrete.exterior, *problem.concrete.interiors, *others]
    room = min(_room(cut, tip, others), math.dist(inner, tip))
    for bend in bends_at(stops, inner, tip, problem.limits.angle, room):
        if end == 0:
            yield (bend.foot, bend.knee, *path[1:])
        else:
            yield (*path[:-1], bend.knee, bend.foot)


def bends_at(
    stops: Sequence[LineString], inner: Point, tip: Point, least: float, room: float
) -> Iterator[Bend]:
    """Ways to bend the end of a line, the best first; none where it comes in square enough.

    Args:
        stops: What the line may end on.
        inner: A point of its last straight stretch.
        tip: Its end.
        least: The least angle, degrees.
        room: How far (mm) it runs straight before its end.
    """
    target = under(stops, tip)
    if target is None:
        return
    way = direction(inner, tip)
    along = tangent(target, tip)
    flat = angle_between(way, along)
    if not GRAZING <= min(flat, 180.0 - flat) < least - DEGREES:
        return
    for stretch in STRETCHES:
        back = stretch / math.sin(math.radians(flat))
        if back > room - CLEAR:
            continue
        knee = (tip[0] - way[0] * back, tip[1] - way[1] * back)
        foot = _foot(target, knee, along, tip)
        if foot is not None:
            yield Bend(knee, foot)


def _room(cut: Cut, tip: Point, others: Sequence[LineString]) -> float:
    """How far from an end a joint runs before it meets another one."""
    line = LineString(cut.path)
    spot = shapely.Point(tip)
    hits = [
        shapely.Point(float(x), float(y)).distance(spot)
        for other in others
        for x, y in shapely.get_coordinates(line.intersection(other))
    ]
    return min([line.length, *(h for h in hits if h > TOUCH)])


def _foot(line: LineString, knee: Point, along: Point, tip: Point) -> Point | None:
    """The point of a line square across from a knee; None where the line ends before."""
    spot = line.interpolate(line.project(shapely.Point(knee)))
    foot = (float(spot.x), float(spot.y))
    way = direction(knee, foot)
    if abs(way[0] * along[0] + way[1] * along[1]) > math.sin(math.radians(SQUARE_ON)):
        return None
    return foot if math.dist(foot, tip) > TOUCH else None
