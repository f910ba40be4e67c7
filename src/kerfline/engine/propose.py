"""The ways to lay out a piece of slab, tried one after another while there is effort, and the best kept.

A way only proposes; what is better is for ``score`` to say. ``WAYS`` is the list: a further idea is one more
function there.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from shapely import LineString

from kerfline.engine.bending import bent, places_in_use, squared
from kerfline.engine.lines.charts import (
    Chart,
    RoundChart,
    SquareChart,
    bounds_in,
    likely_charts,
    seam_of,
)
from kerfline.engine.lines.divisions import ROW, Places, mending_places
from kerfline.engine.measure.score import Score
from kerfline.engine.measure.shape import shape_of, sharp_places
from kerfline.engine.partition.on_chart import charted
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.region import Cut
from kerfline.geometry.faces import points_of
from kerfline.geometry.tolerance import SAME

STRANGE = 1.06
"""Joints along another direction than the piece's main one look strange: they must be cheaper by as much."""


WORTH = 1.01
"""A search that makes a layout cheaper by less than this is the last of its kind."""


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """A layout of a piece.

    Attributes:
        chart: The chart that its lines follow.
        pieces: The layout.
        score: How good it is.
        problem: The piece as it was looked at, with the further places for lines that were asked for.
        bends: Whether its lines were bent before its panels were chosen.
    """

    chart: Chart
    pieces: PieceLayout
    score: Score
    problem: Problem
    bends: bool = False


@dataclass(frozen=True, kw_only=True)
class Task:
    """A piece to lay out, and the settled joints inside it."""

    problem: Problem
    inside: tuple[LineString, ...]

    def proposal(
        self,
        chart: Chart,
        pieces: PieceLayout,
        problem: Problem | None = None,
        *,
        bends: bool = False,
    ) -> Proposal:
        """A layout with its score."""
        score = self.problem.score(pieces, self.inside)
        if _is_turned(chart):
            score = score.with_cost(STRANGE)
        return Proposal(
            chart=chart, pieces=pieces, score=score, problem=problem or self.problem, bends=bends
        )


Way = Callable[[Task, Proposal | None], Iterator[Proposal]]
"""Proposes layouts, given the best so far."""


def best_layout(problem: Problem, inside: Sequence[LineString]) -> PieceLayout | None:
    """The best layout that the ways find; None where no chart gives one.

    The first proposal is carried to its end in any case; every way makes one while there is patience, and more
    while there is effort.
    """
    task = Task(problem=replace(problem, tried=set()), inside=tuple(inside))
    effort = problem.effort
    first, *others = WAYS
    straight = first(task, None)
    with effort.carrying():
        best = next(straight, None)
    if best is None:
        return None
    further: Iterator[Proposal] = straight if effort.allows() else iter(())
    for way in (None, *others):
        if effort.over:
            break
        for found in way(task, best) if way else further:
            if found.score < best.score:
                best = found
            if not effort.allows():
                break
    return best.pieces


def along_charts(task: Task, _: Proposal | None) -> Iterator[Proposal]:
    """Straight lines along each direction of the piece, and rays and rings where it is round.

    A sound layout is mended rather than another chart tried that would take more than is left: joints along
    another direction are seldom cheaper.
    """
    effort = task.problem.effort
    sound, most = False, 0.0
    for chart in likely_charts(task.problem):
        if sound and effort.left < most:
            effort.cut = True
            return
        before = effort.left
        found = _on_chart(task.problem, chart, task.inside)
        most = max(most, before - effort.left)
        if found is not None:
            proposal = task.proposal(chart, found)
            sound = sound or not proposal.score.faults
            yield proposal


def bent_at_ends(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """The best with the ends of joints bent square where they come in too flat."""
    if best is not None:
        yield task.proposal(best.chart, bent(task.problem, best.pieces, task.inside), best.problem)


def beside_poor_panels(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """On the lines in use and further ones beside panels that break a rule or are warned of, as long as that betters it."""
    return _searched_again(task, best, _runs)


def _searched_again(
    task: Task, best: Proposal | None, in_use: Callable[[Proposal], Places]
) -> Iterator[Proposal]:
    last: Proposal | None = None
    while best is not None and (last is None or best.score.with_cost(WORTH) < last.score):
        last = best
        more = _mending(task.problem, best)
        if not any(more):
            return
        problem = replace(task.problem, stay=in_use(best), more=more)
        best = _again(task, problem, last)
        if best is not None:
            yield best


def _again(task: Task, problem: Problem, like: Proposal) -> Proposal | None:
    """A layout made as another was, of the piece with other lines."""
    found = (squared if like.bends else _on_chart)(problem, like.chart, task.inside)
    if found is None:
        return None
    return task.proposal(like.chart, bent(problem, found, task.inside), problem, bends=like.bends)


def beside_poor_bends(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """The same of a layout whose lines were bent before: on lines where its joints run, those beside a jog half one aside."""
    if best is not None and best.bends:
        yield from beside_poor_panels(task, best)


def on_bent_lines(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """The same on the very lines that were bent."""

    def in_use(found: Proposal) -> Places:
        return places_in_use(found.problem, found.chart, task.inside, found.pieces.cuts)

    if best is not None and best.bends:
        yield from _searched_again(task, best, in_use)


def _mending(problem: Problem, best: Proposal) -> Places:
    """Places of lines that might mend the poor panels of a layout on a square chart."""
    if not isinstance(best.chart, SquareChart):
        return (), ()
    shapes = [shape_of(p, problem.limits.angle) for p in best.pieces.panels]
    boxes = [bounds_in(best.chart, p) for p in best.pieces.panels]
    sound = [bool(problem.cost.keeps(s)) for s in shapes]
    warned = [k and not problem.cost.is_advised(s) for k, s in zip(sound, shapes, strict=True)]
    rules = replace(problem.limits, aspect=problem.cost.advised.aspect)
    broken = mending_places(boxes, [not k for k in sound], problem.limits)
    further = mending_places(boxes, warned, rules)
    return (*broken[0], *further[0]), (*broken[1], *further[1])


def _runs(best: Proposal) -> Places:
    """Where the straight joints of a layout run, on each axis of its chart."""
    places: tuple[set[float], set[float]] = (set(), set())
    for cut in best.pieces.cuts:
        points = best.chart.measure(np.asarray(cut.path, dtype=float))
        for start, end in pairwise(points.tolist()):
            for axis in (0, 1):
                if (
                    abs(end[axis] - start[axis]) <= SAME
                    and abs(end[1 - axis] - start[1 - axis]) > ROW
                ):
                    places[axis].add(round(start[axis], 1))
    return tuple(sorted(places[0])), tuple(sorted(places[1]))


def bent_before(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """Lines bent before panels are chosen, so that the choice leaves room for the bends: those in use, then all."""
    if best is None or not _has_flat_meetings(task, best):
        return
    for problem in (best.problem, *([] if best.problem is task.problem else [task.problem])):
        found = squared(problem, best.chart, task.inside) if not problem.effort.over else None
        if found is not None:
            square = bent(problem, found, task.inside)
            proposal = task.proposal(best.chart, square, problem, bends=True)
            yield proposal
            if not proposal.score.faults:
                return


WAYS: tuple[Way, ...] = (
    along_charts,
    bent_at_ends,
    beside_poor_panels,
    bent_before,
    beside_poor_bends,
    on_bent_lines,
)
"""The ways in the order in which they are tried: the first must find a layout, the others better it."""


def _has_flat_meetings(task: Task, best: Proposal) -> bool:
    """Whether panels have more corners under the least angle than the piece itself."""
    least = task.problem.limits.angle
    own = len(sharp_places(task.problem.concrete, least))
    return sum(len(sharp_places(panel, least)) for panel in best.pieces.panels) > own


def _is_turned(chart: Chart) -> bool:
    return isinstance(chart, SquareChart) and chart.turn != 0.0


def _on_chart(problem: Problem, chart: Chart, inside: Sequence[LineString]) -> PieceLayout | None:
    """The layout along one chart; a ring that closes on itself gets a joint where it is counted from."""
    seams = seam_of(problem.concrete, chart) if isinstance(chart, RoundChart) else []
    answer = charted(problem, chart, [*inside, *seams])
    if answer is None or not seams:
        return answer
    cuts = [Cut(path=points_of(s)) for s in seams]
    length = sum(s.length for s in seams)
    return replace(answer, cuts=(*cuts, *answer.cuts), cost=answer.cost + length)
