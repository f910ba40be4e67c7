"""Searches the best cover: a linear programme grown by its best columns, then whole choices.

The search begins with the panels that cost least for their area. The duals of the linear programme price
all others; those that would pay are added until none would. Its value is a lower bound. If its answer is
whole it is the best; otherwise ``branching`` looks for whole choices.
"""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.effort import Effort
from kerfline.engine.partition.dives import Whole as WholeChoices
from kerfline.engine.partition.dives import dives, proven
from kerfline.engine.partition.grid import Array, Flags, Whole
from kerfline.engine.partition.grid_program import Programme, reduced_costs
from kerfline.engine.partition.solving import GAP, WHOLE, Search

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


@dataclass(frozen=True, kw_only=True)
class Cover:
    """A choice of panels.

    Attributes:
        chosen: Indices of the panels.
        cost: Its cost, mm of joint.
        bound: No choice of the panels costs less than this.
        proven: Whether the search was carried to its end.
    """

    chosen: Whole
    cost: float
    bound: float
    proven: bool


def best_cover(model: Programme, likely: Flags, effort: Effort) -> Cover | None:
    """The best cover; None where the search found none.

    Args:
        model: The programme.
        likely: The panels to begin with: those that break no rule.
        effort: What may be spent. The linear programme and one dive are carried to their end in any case.
    """
    search = Search(model)
    search.add(_first_groups(search, likely))
    relaxed = _linear(search, effort)
    if relaxed is None:
        return None
    bound, priced, complete = relaxed
    values, cost = search.values(), search.cost
    panels = values[search.fixed :]
    best: WholeChoices | None
    if (np.minimum(panels, 1.0 - panels) < WHOLE).all():
        best, reached = WholeChoices(values=values, cost=cost), bound
    else:
        best, reached = dives(search, effort), bound
        if best is None or (best.cost - bound > GAP * best.cost and effort.left > 0.0):
            best, reached = proven(search, best, bound, priced, effort)
    if best is None:
        return None
    return _cover(search, best, reached if complete else bound, complete)


def _first_groups(search: Search, likely: Flags) -> Whole:
    """The likely groups, the cheapest for their area where they are many, and the single cells."""
    area = search.model.panels.size[0] * search.model.panels.size[1]
    price = np.round(search.grouped(search.model.panel_cost) / search.grouped(area), DIGITS)
    single = search.grouped(_cells(search)) > 0
    good = search.grouped((~likely).astype(float)) == 0
    order = np.lexsort((price, ~good))[: min(int(good.sum()), FIRST)]
    return np.union1d(order, np.flatnonzero(single))


def _cells(search: Search) -> Array:
    """1 for panels of a single cell: with them there is always some cover."""
    low, high = search.model.panels.low, search.model.panels.high
    return np.asarray((high[0] - low[0] == 1) & (high[1] - low[1] == 1), dtype=float)


def _linear(search: Search, effort: Effort) -> tuple[float, Array, bool] | None:
    """Value of the linear programme over all panels, their reduced costs, and whether it is complete."""
    solver = search.solver
    for _ in range(ROUNDS):
        solved = search.solve(effort)
        if effort.over:
            return None
        if not solved:
            if search.added.all():
                return None
            search.add(np.arange(len(search.heads)))
            solver.clearSolver()
            continue
        duals = np.asarray(solver.getSolution().row_dual)
        priced = np.round(search.grouped(reduced_costs(search.model, duals)), DIGITS)
        pays = np.flatnonzero((priced < 0.0) & ~search.added)
        value = search.cost
        bound = value + float(priced[pays].sum())
        if value - bound <= GAP * value:
            return bound, priced, True
        best = pays[np.argsort(priced[pays], kind="stable")[:BATCH]]
        search.add(np.sort(best))
        if len(best) > MANY:
            solver.clearSolver()
    return bound, priced, False


def _cover(search: Search, best: WholeChoices, bound: float, complete: bool) -> Cover:  # noqa: FBT001
    panels = best.values[search.fixed :]
    groups = search.listed[: len(panels)][panels > HALF]
    chosen, _ = search.panels_of(groups)
    proof = complete and best.cost - bound <= max(1.0, GAP * best.cost)
    return Cover(chosen=np.sort(chosen), cost=best.cost, bound=min(bound, best.cost), proven=proof)
