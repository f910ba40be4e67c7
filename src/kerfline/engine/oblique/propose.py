"""The ways to lay out a piece of slab, tried one after another while there is effort, and the best kept.

A way only proposes; what is better is for ``score`` to say. ``WAYS`` is the list: a further idea is one more
function there.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import LineString

from kerfline.engine.oblique.bends import bent
from kerfline.engine.oblique.charted import charted
from kerfline.engine.oblique.charts import Chart, RoundChart, SquareChart
from kerfline.engine.oblique.choice import charts_for
from kerfline.engine.oblique.ends import path_of
from kerfline.engine.oblique.ground import Ground, Pieces
from kerfline.engine.oblique.mending import mending_places
from kerfline.engine.oblique.radial import seam_of
from kerfline.engine.oblique.squarer import squared_ways
from kerfline.engine.partition.shape import sharp_places
from kerfline.engine.region import Cut
from kerfline.engine.score import Score
from kerfline.model.layout import Reason

STRANGE = 1.06
"""Joints along another direction than the piece's main one look strange: they must be cheaper by as much."""


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """A layout of a piece.

    Attributes:
        chart: The chart that its lines follow.
        pieces: The layout.
        score: How good it is.
        ground: The piece as it was looked at, with the further places for lines that were asked for.
    """

    chart: Chart
    pieces: Pieces
    score: Score
    ground: Ground


@dataclass(frozen=True, kw_only=True)
class Task:
    """A piece to lay out, and the settled joints inside it."""

    ground: Ground
    inside: tuple[LineString, ...]

    def proposal(self, chart: Chart, pieces: Pieces, ground: Ground | None = None) -> Proposal:
        """A layout with its score."""
        score = self.ground.score(pieces, self.inside)
        if _is_turned(chart):
            score = score.with_cost(STRANGE)
        return Proposal(chart=chart, pieces=pieces, score=score, ground=ground or self.ground)


Way = Callable[[Task, Proposal | None], Iterator[Proposal]]
"""Proposes layouts, given the best so far."""


def best_layout(ground: Ground, inside: Sequence[LineString]) -> Pieces | None:
    """The best layout that the ways find; None where no chart gives one.

    The first proposal is carried to its end in any case, the others while there is effort.
    """
    task = Task(ground=ground, inside=tuple(inside))
    best: Proposal | None = None
    for way in WAYS:
        for found in way(task, best):
            if best is None or found.score < best.score:
                best = found
            if not ground.effort.allows():
                break
    return best.pieces if best else None


def along_charts(task: Task, _: Proposal | None) -> Iterator[Proposal]:
    """Straight lines along each direction of the piece, and rays and rings where it is round."""
    for chart in charts_for(task.ground):
        found = _on_chart(task.ground, chart, task.inside)
        if found is not None:
            yield task.proposal(chart, found)


def off_steps(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """The straight ones on no whole steps, where turned ones, which lie on none either, came out better."""
    if best is None or task.ground.steps is None or not _is_turned(best.chart):
        return
    ground = replace(task.ground, steps=None)
    for chart in charts_for(ground):
        found = None if _is_turned(chart) else _on_chart(ground, chart, task.inside)
        if found is not None:
            yield task.proposal(chart, found, ground)


def bent_at_ends(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """The best with the ends of joints bent square where they come in too flat."""
    if best is not None:
        yield task.proposal(best.chart, bent(task.ground, best.pieces, task.inside), best.ground)


def beside_poor_panels(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """With further lines beside panels that are too long or too narrow."""
    if best is None or not best.score.faults:
        return
    more = mending_places(task.ground, best.chart, best.pieces)
    if not any(more):
        return
    ground = replace(best.ground, more=more)
    found = _on_chart(ground, best.chart, task.inside)
    if found is not None:
        yield task.proposal(best.chart, bent(ground, found, task.inside), ground)


def bent_before(task: Task, best: Proposal | None) -> Iterator[Proposal]:
    """Lines bent before panels are chosen, so that the choice leaves room for the bends."""
    if best is None or not _has_flat_meetings(task, best):
        return
    for found in squared_ways(best.ground, best.chart, task.inside):
        proposal = task.proposal(best.chart, found, best.ground)
        yield proposal
        if not proposal.score.faults:
            return


WAYS: tuple[Way, ...] = (along_charts, off_steps, bent_at_ends, beside_poor_panels, bent_before)
"""The ways in the order in which they are tried: the first must find a layout, the others better it."""


def _has_flat_meetings(task: Task, best: Proposal) -> bool:
    """Whether panels have more corners under the least angle than the piece itself."""
    least = task.ground.limits.angle
    own = len(sharp_places(task.ground.concrete, least))
    return sum(len(sharp_places(panel, least)) for panel in best.pieces.panels) > own


def _is_turned(chart: Chart) -> bool:
    return isinstance(chart, SquareChart) and chart.turn != 0.0


def _on_chart(ground: Ground, chart: Chart, inside: Sequence[LineString]) -> Pieces | None:
    """The layout along one chart; a ring that closes on itself gets a joint where it is counted from."""
    seams = seam_of(ground.concrete, chart) if isinstance(chart, RoundChart) else []
    answer = charted(ground, chart, [*inside, *seams])
    if answer is None or not seams:
        return answer
    cuts = [Cut(path=path_of(s), reason=Reason.SPAN, note="open floor") for s in seams]
    length = sum(s.length for s in seams)
    return replace(answer, cuts=(*cuts, *answer.cuts), cost=answer.cost + length)
