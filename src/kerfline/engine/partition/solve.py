"""The best cover of a set partition: a linear programme grown by its best columns, then whole choices.

The search begins with the panels that cost least for their area. The duals of the linear programme price
all others; those that would pay are added until none would. Its value is a lower bound. If its answer is
whole it is the best; otherwise ``dives`` looks for whole choices.
"""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.arrays import Flags, Integers, Numbers
from kerfline.engine.effort import Effort
from kerfline.engine.partition.dives import WholeAnswer, dives, proven
from kerfline.engine.partition.master import GAP, WHOLE, Master
from kerfline.engine.partition.set_partition import SetPartition

FIRST = 6000
"""Most panels that the search begins with, single cells not counted."""

BATCH = 3000
"""Most panels that are added in one round."""

ROUNDS = 60
"""Most rounds of adding panels; reached only by the largest programmes, which then stay unproven."""

MANY = 400
"""With more new panels than this the linear programme is solved afresh, which is then quicker."""

DIGITS = 6
"""Prices are compared to this many digits of a millimetre of joint."""

HALF = 0.5
"""A column above this is taken."""


@dataclass(frozen=True, kw_only=True)
class Cover:
    """A choice of panels.

    Attributes:
        chosen: Indices of the panels.
        cost: Its cost, mm of joint.
        bound: No choice of the panels costs less than this.
        proven: Whether the search was carried to its end.
    """

    chosen: Integers
    cost: float
    bound: float
    proven: bool


def best_cover(
    model: SetPartition, likely: Flags, effort: Effort, *, gap: float = GAP
) -> Cover | None:
    """The best cover; None where the search found none.

    Args:
        model: The programme.
        likely: The panels to begin with: those that break no rule.
        effort: What may be spent. The linear programme and one dive are carried to their end in any case.
        gap: Share of the cost by which it may be off the bound when the search ends.
    """
    master = Master(model)
    master.add(_first_groups(master, likely))
    relaxed = _linear(master, effort)
    if relaxed is None:
        return None
    bound, priced, complete = relaxed
    values, cost = master.values(), master.cost
    panels = values[master.fixed :]
    best: WholeAnswer | None
    if (np.minimum(panels, 1.0 - panels) < WHOLE).all():
        best, reached = WholeAnswer(values=values, cost=cost), bound
    else:
        best, reached = dives(master, effort), bound
        if best is None or (best.cost - bound > gap * best.cost and effort.left > 0.0):
            best, reached = proven(master, best, bound, priced, effort)
    if best is None:
        return None
    return _cover(master, best, reached if complete else bound, complete)


def _first_groups(master: Master, likely: Flags) -> Integers:
    """The likely groups, the cheapest for their area where they are many, and the single cells."""
    price = np.round(
        master.grouped(master.model.panel_cost) / master.grouped(master.model.area), DIGITS
    )
    single = master.grouped(master.model.single.astype(float)) > 0
    good = master.grouped((~likely).astype(float)) == 0
    order = np.lexsort((price, ~good))[: min(int(good.sum()), FIRST)]
    return np.union1d(order, np.flatnonzero(single))


def _linear(master: Master, effort: Effort) -> tuple[float, Numbers, bool] | None:
    """Value of the linear programme over all panels, their reduced costs, and whether it is complete."""
    solver = master.solver
    for _ in range(ROUNDS):
        solved = master.solve(effort)
        if effort.over or master.was_stopped():
            return None
        if not solved:
            if master.added.all():
                return None
            master.add(np.arange(len(master.heads)))
            solver.clearSolver()
            continue
        duals = np.asarray(solver.getSolution().row_dual)
        priced = np.round(master.grouped(master.model.reduced_costs(duals)), DIGITS)
        pays = np.flatnonzero((priced < 0.0) & ~master.added)
        value = master.cost
        bound = value + float(priced[pays].sum())
        if value - bound <= GAP * value:
            return bound, priced, True
        best = pays[np.argsort(priced[pays], kind="stable")[:BATCH]]
        master.add(np.sort(best))
        if len(best) > MANY:
            solver.clearSolver()
    return bound, priced, False


def _cover(master: Master, best: WholeAnswer, bound: float, complete: bool) -> Cover:  # noqa: FBT001
    panels = best.values[master.fixed :]
    groups = master.listed[: len(panels)][panels > HALF]
    chosen, _ = master.panels_of(groups)
    proof = complete and best.cost - bound <= max(1.0, GAP * best.cost)
    return Cover(chosen=np.sort(chosen), cost=best.cost, bound=min(bound, best.cost), proven=proof)
