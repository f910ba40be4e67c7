"""From the linear programme to whole panels: two quick dives, then a counted search for proof.

A dive takes the most likely choice that is still open as given and solves again, until every choice
is whole. One dive goes panel by panel, the other line by line; on most slabs one of them ends at the
best cover or within a few thousandths of it. HiGHS starts from there, among the panels whose reduced
cost is within the gap: no other can be part of a better cover.
"""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.effort import ROUND, Effort
from kerfline.engine.partition.master import LEAST_ITERATIONS, WHOLE, Master, Rounds

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
class WholeAnswer:
    """Whole choices.

    Attributes:
        values: Of all columns.
        cost: The cost.
    """

    values: Numbers
    cost: float


def dives(master: Master, effort: Effort) -> WholeAnswer | None:
    """The better of two dives from the linear programme's answer; None where both end nowhere."""
    start = master.solver.getBasis()
    best: WholeAnswer | None = None
    for by_line in (False, True):
        if by_line:
            if effort.left <= 0.0 and best is not None:
                break
            master.solver.setBasis(start)
            master.solve(effort)
        found = _dive(master, effort, by_line=by_line)
        master.open_all()
        if found and (best is None or round(found.cost) < round(best.cost)):
            best = found
    return best


def _dive(master: Master, effort: Effort, *, by_line: bool) -> WholeAnswer | None:
    """Takes the likeliest open choice as given, again and again."""
    while not effort.over:
        values = master.values()
        panels = values[master.fixed :]
        if not _open(panels).any():
            return WholeAnswer(values=values, cost=master.cost)
        lines = values[master.model.first_line : master.fixed]
        if by_line and _open(lines).any():
            given = _line_given(master, effort, lines)
        else:
            likely = int(np.argmax(np.where(_open(panels), panels, 0.0)))
            given = master.give(master.fixed + likely, 1.0, effort)
        if not given:
            return None
    return None


def _line_given(master: Master, effort: Effort, lines: Numbers) -> bool:
    """The line that is nearest to being used or not taken as used or not; else the other way."""
    near = np.where(_open(lines), np.minimum(lines, 1.0 - lines), 1.0)
    line = int(np.argmin(near))
    wish = float(round(float(lines[line])))
    column = master.model.first_line + line
    return master.give(column, wish, effort) or master.give(column, 1.0 - wish, effort)


def _open(values: Numbers) -> Flags:
    """Choices that are neither taken nor left."""
    return np.asarray(np.minimum(values, 1.0 - values) > WHOLE)


def proven(
    master: Master, start: WholeAnswer | None, bound: float, priced: Numbers, effort: Effort
) -> tuple[WholeAnswer | None, float]:
    """The best cover found and the bound reached, with the effort that is left.

    Args:
        master: The programme, solved over all panels.
        start: A cover to begin with.
        bound: Value of the linear programme.
        priced: Reduced costs of all groups of panels.
        effort: What may be spent.
    """
    if start is not None:
        reach = min(start.cost - bound + PAYS, FARTHEST * start.cost)
        found, low = _searched(master, start, priced, reach, LEAST_ROUNDS, effort)
        return found, max(bound, min(low, bound + reach))
    for share in BLIND:
        reach = share * bound
        found, low = _searched(master, None, priced, reach, BLIND_ROUNDS, effort)
        if found is not None:
            return found, max(bound, min(low, bound + reach))
    return None, bound


def _searched(
    master: Master,
    start: WholeAnswer | None,
    priced: Numbers,
    reach: float,
    least: int,
    effort: Effort,
) -> tuple[WholeAnswer | None, float]:
    """Whole choices among the panels within reach."""
    master.add(np.flatnonzero(priced <= reach))
    master.close(priced > reach)
    master.make_whole()
    for name in UNHELPFUL:
        master.solver.setOptionValue(name, start is None)
    if start is not None:
        master.begin_with(start.values)
    rows = master.model.rows.count
    rounds = Rounds(master.solver, max(least, effort.rounds(rows)))
    master.solver.setOptionValue(
        "simplex_iteration_limit", effort.iterations(rows, LEAST_ITERATIONS)
    )
    master.solver.run()
    effort.spend(rounds.done * ROUND, rows)
    low = float(master.solver.getInfo().mip_dual_bound)
    if not master.has_answer():
        return start, low
    found = WholeAnswer(values=master.values(), cost=master.cost)
    return (found if start is None or found.cost < start.cost else start), low
