"""The ways to lay out a piece of slab, tried one after another while there is effort, and the best kept.

A way only proposes; what is better is for ``score`` to say. ``WAYS`` is the list: a further idea is one more
function there.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import LineString

from kerfline.engine.bending import bent, squared_ways
from kerfline.engine.lines.charts import (
    Chart,
    RoundChart,
    SquareChart,
    bounds_in,
    likely_charts,
    seam_of,
)
from kerfline.engine.lines.divisions import Places, mending_places
from kerfline.engine.measure.score import Score
from kerfline.engine.measure.shape import shape_of, sharp_places
from kerfline.engine.partition.on_chart import charted
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.region import Cut, path_of

STRANGE = 1.06
"""Joints along another direction than the piece's main one look strange: they must be cheaper by as much."""


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """A layout of a piece.

    Attributes:
        chart: The chart that its lines follow.
        pieces: The layout.
        score: How good it is.
        problem: The piece as it was looked at, with the further places for lines that were asked for.
    """

    chart: Chart
    pieces: PieceLayout
    score: Score
    problem: Problem


@dataclass(frozen=True, kw_only=True)
class Task:
    """A piece to lay out, and the settled joints inside it."""

    problem: Problem
    inside: tuple[LineString, ...]

    def proposal(
        self, chart: Chart, pieces: PieceLayout, problem: Problem | None = None
    ) -> Proposal:
        """A layout with its score."""
        score = self.problem.score(pieces, self.inside)
        if _is_turned(chart):
            score = score.with_cost(STRANGE)
        return Proposal(chart=chart, pieces=pieces, score=score, problem=problem or self.problem)


Way = Callable[[Task, Proposal | None], Iterator[Proposal]]
"""Proposes layouts, given the best so far."""


def best_layout(problem: Problem, inside: Sequence[LineString]) -> PieceLayout | None:
    """The best layout that the ways find; None where no chart gives one.

    The first proposal is carried to its end in any case; every way makes one while there is patience, and more
    while there is effort.
    """
    task = Task(problem=problem, inside=tuple(inside))
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
    """Straight lines along each direction of the piece, and rays and rings where it is round."""
    for chart in likely_charts(task.problem):
        found = _on_chart(task.problem, chart, task.inside)
        if found is not None:
            yield task.proposal(chart, found)


def bent_at_ends(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """The best with the ends of joints bent square where they come in too flat."""
    if best is not None:
        yield task.proposal(best.chart, bent(task.problem, best.pieces, task.inside), best.problem)


def beside_poor_panels(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """With further lines beside panels that are too long or too narrow."""
    if best is None or not best.score.faults:
        return
    more = _mending(task.problem, best)
    if not any(more):
        return
    problem = replace(best.problem, more=more)
    found = _on_chart(problem, best.chart, task.inside)
    if found is not None:
        yield task.proposal(best.chart, bent(problem, found, task.inside), problem)


def _mending(problem: Problem, best: Proposal) -> Places:
    """Places of lines that might mend the poor panels of a layout on a square chart."""
    if not isinstance(best.chart, SquareChart):
        return (), ()
    panels, angle = best.pieces.panels, problem.limits.angle
    poor = [not problem.cost.keeps(shape_of(p, angle)) for p in panels]
    boxes = [bounds_in(best.chart, p) for p in panels] if any(poor) else []
    return mending_places(boxes, poor if boxes else [], problem.limits)


def bent_before(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """Lines bent before panels are chosen, so that the choice leaves room for the bends."""
    if best is None or not _has_flat_meetings(task, best):
        return
    for found in squared_ways(best.problem, best.chart, task.inside):
        proposal = task.proposal(best.chart, found, best.problem)
        yield proposal
        if not proposal.score.faults:
            return


WAYS: tuple[Way, ...] = (along_charts, bent_at_ends, beside_poor_panels, bent_before)
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
    cuts = [Cut(path=path_of(s)) for s in seams]
    length = sum(s.length for s in seams)
    return replace(answer, cuts=(*cuts, *answer.cuts), cost=answer.cost + length)
