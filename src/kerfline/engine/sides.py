"""Lays out each side of a slanted wall by itself, where joints that run through would cross it too flat.

The joints of one side bend square to the wall; those of the next side are led to meet them there.
"""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from shapely import LineString, Polygon

from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.directions import misfit
from kerfline.engine.regions.region import Cut
from kerfline.geometry.faces import faces
from kerfline.geometry.ring import Point

ASLANT = 10.0
"""A joint that leans by no more than this (degrees) is crossed square enough along one axis, and not along the
other."""

LaysOut = Callable[[Polygon, Sequence[Cut]], PieceLayout]
"""Lays out a piece to the joints that are settled."""


def by_sides(
    problem: Problem,
    whole: PieceLayout,
    inside: Sequence[LineString],
    settled: Sequence[Cut],
    lay: LaysOut,
) -> PieceLayout:
    """A layout, or one of each side by itself where slanted joints lie inside and that meets them better.

    Args:
        problem: The piece.
        whole: Its layout with joints that run through.
        inside: Settled joints inside it.
        settled: All settled joints.
        lay: How a side is laid out.
    """
    sides = faces(problem.concrete, inside)
    if len(sides) == 1 or not any(_is_slanted(line) for line in inside):
        return whole
    best = problem.score(whole, inside)
    if not best.faults or not problem.effort.allows():
        return whole
    apart = _each_side(sides, settled, lay)
    return apart if problem.score(apart, inside) < best else whole


def _each_side(sides: Sequence[Polygon], settled: Sequence[Cut], lay: LaysOut) -> PieceLayout:
    answers: list[PieceLayout] = []
    known = list(settled)
    for side in sorted(sides, key=lambda s: (-round(s.area), s.bounds)):
        answers.append(lay(side, known))
        known += answers[-1].cuts
    return PieceLayout(
        panels=tuple(p for a in answers for p in a.panels),
        cuts=tuple(c for a in answers for c in a.cuts),
        cost=sum(a.cost for a in answers),
        bound=sum(a.bound for a in answers),
    )


def _is_slanted(line: LineString) -> bool:
    """Whether a joint runs aslant of the axes."""
    points = [(float(x), float(y)) for x, y in line.coords]
    return any(_lean(a, b) > ASLANT for a, b in pairwise(points))


def _lean(start: Point, end: Point) -> float:
    """Angle (degrees) between a stretch and the nearer axis."""
    return misfit(math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])), 0.0)
