"""From the linear programme to whole panels: two quick dives, then a counted search for proof.

A dive takes the most likely choice that is still open as given and solves again, until every choice
is whole. One dive goes panel by panel, the other line by line; on most slabs one of them ends at the
best cover or within a few thousandths of it. HiGHS starts from there, among the panels whose reduced
cost is within the gap: no other can be part of a better cover.
"""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.effort import ROUND, Effort
from kerfline.engine.partition.grid import Array, Flags
from kerfline.engine.partition.highs import Rounds
from kerfline.engine.partition.solving import WHOLE, Search

FARTHEST = 0.03
"""Share of the cost up to which panels are looked at beyond the linear programme."""

BLIND = (0.002, 0.02, 0.2)
"""The same, one after the other, where no dive ended at a cover."""

LEAST_ROUNDS = 3
"""Rounds of proof in any case."""

BLIND_ROUNDS = 40
"""Rounds in any case where there is no cover yet."""

PAYS = 0.05
"""Slack when a reduced cost is held against the gap, mm of joint."""

UNHELPFUL = (
    "mip_heuristic_run_feasibility_jump",
    "mip_heuristic_run_rins",
    "mip_heuristic_run_rens",
    "mip_heuristic_run_root_reduced_cost",
)
"""Heuristics that cost more than they find once a dive has found a cover."""


@dataclass(frozen=True, kw_only=True)
class Whole:
    """Whole choices.

    Attributes:
        values: Of all columns.
        cost: The cost.
    """

    values: Array
    cost: float


def dives(search: Search, effort: Effort) -> Whole | None:
    """The better of two dives from the linear programme's answer; None where both end nowhere."""
    start = search.solver.getBasis()
    best: Whole | None = None
    for by_line in (False, True):
        if by_line:
            if effort.left <= 0.0 and best is not None:
                break
            search.solver.setBasis(start)
            search.solve(effort)
        found = _dive(search, effort, by_line=by_line)
        search.open_all()
        if found and (best is None or round(found.cost) < round(best.cost)):
            best = found
    return best


def _dive(search: Search, effort: Effort, *, by_line: bool) -> Whole | None:
    """Takes the likeliest open choice as given, again and again."""
    while True:
        values = search.values()
        panels = values[search.fixed :]
        if not _open(panels).any():
            return Whole(values=values, cost=search.cost)
        lines = values[search.model.first_line : search.fixed]
        if by_line and _open(lines).any():
            given = _line_given(search, effort, lines)
        else:
            likely = int(np.argmax(np.where(_open(panels), panels, 0.0)))
            given = search.give(search.fixed + likely, 1.0, effort)
        if not given:
            return None


def _line_given(search: Search, effort: Effort, lines: Array) -> bool:
    """The line that is nearest to being used or not taken as used or not; else the other way."""
    near = np.where(_open(lines), np.minimum(lines, 1.0 - lines), 1.0)
    line = int(np.argmin(near))
    wish = float(round(float(lines[line])))
    column = search.model.first_line + line
    return search.give(column, wish, effort) or search.give(column, 1.0 - wish, effort)


def _open(values: Array) -> Flags:
    """Choices that are neither taken nor left."""
    return np.asarray(np.minimum(values, 1.0 - values) > WHOLE)


def proven(
    search: Search, start: Whole | None, bound: float, priced: Array, effort: Effort
) -> tuple[Whole | None, float]:
    """The best cover found and the bound reached, with the effort that is left.

    Args:
        search: The programme, solved over all panels.
        start: A cover to begin with.
        bound: Value of the linear programme.
        priced: Reduced costs of all groups of panels.
        effort: What may be spent.
    """
    if start is not None:
        reach = min(start.cost - bound + PAYS, FARTHEST * start.cost)
        found, low = _searched(search, start, priced, reach, LEAST_ROUNDS, effort)
        return found, max(bound, min(low, bound + reach))
    for share in BLIND:
        reach = share * bound
        found, low = _searched(search, None, priced, reach, BLIND_ROUNDS, effort)
        if found is not None:
            return found, max(bound, min(low, bound + reach))
    return None, bound


def _searched(
    search: Search, start: Whole | None, priced: Array, reach: float, least: int, effort: Effort
) -> tuple[Whole | None, float]:
    """Whole choices among the panels within reach."""
    search.add(np.flatnonzero(priced <= reach))
    search.close(priced > reach)
    search.make_whole()
    for name in UNHELPFUL:
        search.solver.setOptionValue(name, start is None)
    if start is not None:
        search.begin_with(start.values)
    rows = search.model.rows.count
    rounds = Rounds(search.solver, max(least, effort.rounds(rows)))
    search.solver.run()
    effort.spend(rounds.done * ROUND, rows)
    low = float(search.solver.getInfo().mip_dual_bound)
    if not search.has_answer():
        return start, low
    found = Whole(values=search.values(), cost=search.cost)
    return (found if start is None or found.cost < start.cost else start), low
