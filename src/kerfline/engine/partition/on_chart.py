"""Lays out one piece along the lines of one chart: candidate lines, net, panels, cover, joints."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.dividing import halve
from kerfline.engine.lines.candidates import CandidateLine, candidate_lines
from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.lines.divisions import extent
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.partition.formulation import net_partition, seam_prices
from kerfline.engine.partition.images import symmetric_panels
from kerfline.engine.partition.net import SETTLED, Net, net_of
from kerfline.engine.partition.panels import CandidatePanel, candidate_panels
from kerfline.engine.partition.solve import best_cover
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.region import Cut
from kerfline.engine.symmetry import is_diagonal
from kerfline.geometry.faces import lines_of, points_of
from kerfline.geometry.tolerance import SAME
from kerfline.model.layout import Reason

MOST_CELLS = 700
"""Cells of a net beyond which a piece is not laid out in one go: its programme would take several seconds."""

HURRIED_CELLS = 300
"""The same where next to no effort is left: halves take a third of the time."""

GAP = 2e-3
"""Share of the cost by which a cover may be off the bound and the search still ends: several ways to lay a piece
out share the effort."""


@dataclass(frozen=True)
class NetCover:
    """The chosen panels.

    Attributes:
        chosen: Numbers of the panels.
        seams: For each seam whether it is a joint.
        cost: The whole cost in mm of joint.
        bound: Its proven lower bound.
    """

    chosen: tuple[int, ...]
    seams: tuple[bool, ...]
    cost: float
    bound: float


def cover(
    problem: Problem,
    net: Net,
    panels: Sequence[CandidatePanel],
    images: Sequence[int] | None = None,
) -> NetCover | None:
    """The cheapest panels that tile the net; None where the search found none in its count.

    Args:
        problem: The piece.
        net: Its net.
        panels: The panels to choose from.
        images: For each panel the first of those that must be chosen with it; None for free choice.
    """
    chosen_with = np.asarray(images if images is not None else range(len(panels)), dtype=np.int64)
    model = net_partition(problem, net, panels, chosen_with)
    likely = np.ones(len(panels), dtype=bool)
    best = best_cover(model, likely, problem.effort, gap=GAP, hard=True)
    if best is None:
        return None
    owner = {cell: n for n in best.chosen.tolist() for cell in panels[n].cells}
    return NetCover(
        chosen=tuple(best.chosen.tolist()),
        seams=tuple(s.line == SETTLED or owner[s.cells[0]] != owner[s.cells[1]] for s in net.seams),
        cost=best.cost,
        bound=best.bound,
    )


def charted(problem: Problem, chart: Chart, settled: Sequence[LineString]) -> PieceLayout | None:
    """The best layout along a chart's candidate lines; None where the search found none, or was on these lines before."""
    if problem.effort.over:
        return None
    ready, own = settled_on(problem, chart)
    firsts, seconds = both_families(ready, chart)
    if not problem.is_new(chart, firsts, seconds):
        return None
    lines = [*settled, *(c.line for c in own)]
    net = net_of(problem.concrete, chart, firsts, seconds, lines)
    if len(net.cells) > (HURRIED_CELLS if problem.effort.hurried else MOST_CELLS):
        return None
    answer = best_of(ready, net, candidate_panels(ready, net))
    return answer.with_cuts(own) if answer and own else answer


def settled_on(problem: Problem, chart: Chart) -> tuple[Problem, tuple[Cut, ...]]:
    """A piece as a chart sees it, and the joints that are settled there: under all walls where it turns."""
    if not problem.walls or (isinstance(chart, SquareChart) and chart.turn == 0.0):
        return problem, ()
    return problem.firmed()


def best_of(problem: Problem, net: Net, panels: Sequence[CandidatePanel]) -> PieceLayout | None:
    """The cheapest cover of a net by some of its panels, those over the span divided further."""
    prices = seam_prices(problem, net)
    symmetric = symmetric_panels(problem, net, panels, prices)
    answer = cover(problem, net, symmetric.panels, symmetric.images) if symmetric else None
    if symmetric and answer:
        panels = symmetric.panels
    else:
        answer = cover(problem, net, panels)
    if answer is None:
        return None
    kept: list[Polygon] = []
    extra: list[Cut] = []
    cost = answer.cost
    for number in answer.chosen:
        polygon = panels[number].polygon
        if problem.holds(shape_of(polygon, problem.limits.angle)):
            kept.append(polygon)
            continue
        divided = halve(problem, polygon)
        kept.extend(divided.panels)
        extra.extend(divided.cuts)
        cost += divided.cost - panels[number].cost
    return PieceLayout(
        panels=tuple(kept),
        cuts=(*_cuts(net, answer), *extra),
        cost=cost,
        bound=min(answer.bound, cost),
    )


def both_families(
    problem: Problem, chart: Chart
) -> tuple[tuple[CandidateLine, ...], tuple[CandidateLine, ...]]:
    """Candidate lines of both axes, each once more with the other's known."""
    firsts = candidate_lines(problem, chart, 0)
    seconds = candidate_lines(problem, chart, 1, firsts)
    firsts = candidate_lines(problem, chart, 0, seconds)
    if isinstance(chart, SquareChart) and is_diagonal(problem.concrete, chart.turn):
        seconds = _swapped(problem, chart, firsts)
    return firsts, seconds


def _swapped(
    problem: Problem, chart: Chart, lines: Sequence[CandidateLine]
) -> tuple[CandidateLine, ...]:
    """The images of the first axis's lines across the diagonal from the low corner of a piece's box: on whole steps as they are."""
    (low_u, _), (low_v, _) = (extent(problem.concrete, chart, axis) for axis in (0, 1))
    return tuple(
        CandidateLine(
            tuple((v - low_v + low_u, u - low_u + low_v) for u, v in line.through), line.reason
        )
        for line in lines
    )


def _cuts(net: Net, answer: NetCover) -> list[Cut]:
    """The chosen seams of each line as saw passes."""
    out = []
    for number, line in enumerate(net.lines):
        members = [
            s.path for s, on in zip(net.seams, answer.seams, strict=True) if on and s.line == number
        ]
        passes = lines_of(shapely.line_merge(shapely.union_all(members)).simplify(SAME))
        reason = Reason.PATTERN if line.reason is Reason.PATTERN else Reason.SPAN
        note = "pattern" if reason is Reason.PATTERN else ""
        out += [Cut(path=points_of(part), reason=reason, note=note) for part in passes]
    return out
