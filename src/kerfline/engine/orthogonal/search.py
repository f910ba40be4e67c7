"""Searches the best cover: a linear programme grown by its best columns, then whole choices with HiGHS.

The search begins with the panels that cost least for their area. The duals of the linear programme price
all others; those that would pay are added until none would. Its value is a lower bound. If its answer is
whole it is the best; otherwise HiGHS branches over the panels whose reduced cost is within the gap, which
leaves out none that could be part of a better cover.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from kerfline.engine.highs import silent_solver
from kerfline.engine.orthogonal.grid import Array, Flags, Whole
from kerfline.engine.orthogonal.program import Programme, panel_entries, reduced_costs

FIRST = 6000
"""Most panels that the search begins with, single cells not counted."""

BATCH = 3000
"""Most panels that are added in one round."""

ROUNDS = 60
"""Most rounds of adding panels; reached only by the largest programmes, which then stay unproven."""

NEAR = 0.002
"""Share of the cost within which the first branching looks."""

WIDENINGS = 6
"""How often the branching is repeated with more panels."""

WIDER = 6.0
"""How much further it looks when there was no cover at all."""

WHOLE = 1e-5
"""How near a choice must be to 0 or 1."""

MANY = 400
"""With more new panels than this the linear programme is solved afresh, which is then quicker."""

PAYS = 0.05
"""Slack when a reduced cost is held against the gap, mm of joint."""

GAP = 1e-4
"""Relative gap at which a layout counts as proven best."""

NODES_PER_SECOND = 100
"""Branch-and-bound nodes allowed for each second of effort: the search must not depend on the clock."""

CLOCK = 10.0
"""The clock itself stops the search only at this many times the effort."""

LEAST_SECONDS = 2.0
"""Effort that a region gets in any case."""

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


class Search:
    """A programme in the solver, with the panels that were added so far."""

    def __init__(self, model: Programme, seconds: float) -> None:
        self.model = model
        self.heads, self.group = np.unique(model.twins, return_inverse=True)
        self.added = np.zeros(len(self.heads), dtype=bool)
        self.columns: list[Whole] = []
        self.fixed = len(model.cost)
        self.solver = _solver(seconds)
        self.solver.passModel(_fixed_model(model))
        members = np.argsort(self.group, kind="stable")
        self._members = members
        self._first = np.searchsorted(self.group[members], np.arange(len(self.heads) + 1))

    def grouped(self, values: Array) -> Array:
        """Values of panels added up over those that are chosen together."""
        out = np.zeros(len(self.heads))
        np.add.at(out, self.group, values)
        return out

    def panels_of(self, groups: Whole) -> tuple[Whole, Whole]:
        """The panels in some groups, and the position of the group of each."""
        sizes = self._first[groups + 1] - self._first[groups]
        which = np.repeat(np.arange(len(groups)), sizes)
        start = np.repeat(np.cumsum(sizes) - sizes, sizes)
        place = np.repeat(self._first[groups], sizes) + np.arange(len(which)) - start
        return self._members[place], which

    def add(self, groups: Whole) -> None:
        """Puts the columns of some groups into the solver."""
        groups = groups[~self.added[groups]]
        if not len(groups):
            return
        panels, which = self.panels_of(groups)
        position, row = panel_entries(self.model, panels)
        column = which[position]
        order = np.lexsort((row, column))
        column, row = column[order], row[order]
        new = np.r_[True, (np.diff(column) != 0) | (np.diff(row) != 0)]
        first = np.flatnonzero(new)
        values = np.diff(np.r_[first, len(row)]).astype(float)
        column, row = column[new], row[new]
        starts = np.searchsorted(column, np.arange(len(groups)))
        cost = self.grouped(self.model.panel_cost)[groups]
        size = len(groups)
        self.solver.addCols(
            size, cost, np.zeros(size), np.ones(size), len(row),
            starts.astype(np.int32), row.astype(np.int32), values,
        )  # fmt: skip
        self.added[groups] = True
        self.columns.append(groups)

    @property
    def listed(self) -> Whole:
        """The groups in the order of their columns."""
        return np.concatenate(self.columns)

    def choices(self) -> Array:
        """Values of the panel columns in the present solution."""
        return np.asarray(self.solver.getSolution().col_value)[self.fixed :]


def best_cover(model: Programme, likely: Flags, seconds: float) -> Cover | None:
    """The best cover; None where the search found none.

    Args:
        model: The programme.
        likely: The panels to begin with: those that break no rule.
        seconds: Effort. It sets a number of nodes, so that a busy machine finds the same layout.
    """
    search = Search(model, seconds)
    search.add(_first_groups(search, likely))
    found = _linear(search)
    if found is None:
        return None
    bound, priced, complete = found
    whole = np.minimum(search.choices(), 1.0 - search.choices()) < WHOLE
    if whole.all():
        return _cover(search, search.choices(), bound, complete)
    return _branched(search, bound, priced, complete)


def _first_groups(search: Search, likely: Flags) -> Whole:
    """The likely groups, the cheapest for their area where they are many, and the single cells."""
    area = search.model.panels.size[0] * search.model.panels.size[1]
    price = search.grouped(search.model.panel_cost) / search.grouped(area)
    single = search.grouped(_cells(search)) > 0
    good = search.grouped((~likely).astype(float)) == 0
    order = np.lexsort((price, ~good))[: min(int(good.sum()), FIRST)]
    return np.union1d(order, np.flatnonzero(single))


def _cells(search: Search) -> Array:
    """1 for panels of a single cell: with them there is always some cover."""
    low, high = search.model.panels.low, search.model.panels.high
    return np.asarray((high[0] - low[0] == 1) & (high[1] - low[1] == 1), dtype=float)


def _linear(search: Search) -> tuple[float, Array, bool] | None:
    """Value of the linear programme over all panels, their reduced costs, and whether it is complete."""
    solver = search.solver
    for _ in range(ROUNDS):
        solver.run()
        if not _optimal(solver):
            if search.added.all():
                return None
            search.add(np.arange(len(search.heads)))
            solver.clearSolver()
            continue
        duals = np.asarray(solver.getSolution().row_dual)
        priced = search.grouped(reduced_costs(search.model, duals))
        pays = np.flatnonzero((priced < 0.0) & ~search.added)
        value = float(solver.getInfo().objective_function_value)
        bound = value + float(priced[pays].sum())
        if value - bound <= GAP * value:
            return bound, priced, True
        best = pays[np.argsort(priced[pays], kind="stable")[:BATCH]]
        search.add(np.sort(best))
        if len(best) > MANY:
            solver.clearSolver()
    return bound, priced, False


def _branched(search: Search, bound: float, priced: Array, complete: bool) -> Cover | None:  # noqa: FBT001
    """The best whole choice among the panels whose reduced cost is within a gap, widened as needed."""
    cost = search.solver.getInfo().objective_function_value
    reach = NEAR * cost
    for _ in range(WIDENINGS):
        near = np.flatnonzero(priced <= reach)
        search.add(near)
        _close(search, priced > reach)
        found = _whole(search)
        if found is not None:
            values, cost, reached = found
            if cost - bound <= reach:
                break
            reach = cost - bound + PAYS
        else:
            reach *= WIDER
    else:
        return None if found is None else _cover(search, found[0], bound, complete=False)
    low = max(bound, min(reached, cost)) if complete else bound
    return _cover(search, values, low, complete)


def _close(search: Search, far: Flags) -> None:
    """Forbids the panels of some groups."""
    count = len(search.listed)
    columns = np.arange(search.fixed, search.fixed + count, dtype=np.int32)
    upper = np.where(far[search.listed], 0.0, 1.0)
    search.solver.changeColsBounds(count, columns, np.zeros(count), upper)


def _whole(search: Search) -> tuple[Array, float, float] | None:
    """Choices, cost and bound when every panel is taken or not."""
    import highspy

    solver = search.solver
    count = len(search.listed)
    columns = np.arange(search.fixed, search.fixed + count, dtype=np.int32)
    kinds = np.full(count, int(highspy.HighsVarType.kInteger), dtype=np.uint8)
    solver.changeColsIntegrality(count, columns, kinds)
    solver.clearSolver()
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != int(highspy.SolutionStatus.kSolutionStatusFeasible):
        return None
    cost = float(info.objective_function_value)
    bound = cost if _optimal(solver) else float(info.mip_dual_bound)
    return search.choices(), cost, bound


def _cover(search: Search, values: Array, bound: float, complete: bool) -> Cover:  # noqa: FBT001
    groups = search.listed[: len(values)][values > HALF]
    panels, _ = search.panels_of(groups)
    cost = float(search.solver.getInfo().objective_function_value)
    proven = complete and cost - bound <= max(1.0, GAP * cost)
    return Cover(chosen=np.sort(panels), cost=cost, bound=min(bound, cost), proven=proven)


def _optimal(solver: Any) -> bool:  # noqa: ANN401 - highspy has few types
    import highspy

    return bool(solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _solver(seconds: float) -> Any:  # noqa: ANN401 - highspy has few types
    """A solver with a fixed seed and a number of nodes in place of a clock.

    Presolve costs many times more here than it saves.
    """
    return silent_solver(
        {
            "presolve": "off",
            "random_seed": 1,
            "parallel": "off",
            "mip_rel_gap": GAP,
            "mip_abs_gap": 1e-3,
            "time_limit": CLOCK * max(seconds, LEAST_SECONDS),
            "mip_max_nodes": int(NODES_PER_SECOND * max(seconds, LEAST_SECONDS)),
        }
    )


def _fixed_model(model: Programme) -> Any:  # noqa: ANN401 - highspy has few types
    """The programme without its panels, for the solver."""
    import highspy

    low, high = model.rows.limits()
    starts, columns, values = model.rows.by_row()
    lp = highspy.HighsLp()
    lp.num_col_ = len(model.cost)
    lp.num_row_ = model.rows.count
    lp.col_cost_ = model.cost
    lp.col_lower_ = np.zeros(len(model.cost))
    lp.col_upper_ = np.ones(len(model.cost))
    lp.row_lower_ = np.where(np.isinf(low), -highspy.kHighsInf, low)
    lp.row_upper_ = high
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = starts.astype(np.int32)
    lp.a_matrix_.index_ = columns.astype(np.int32)
    lp.a_matrix_.value_ = values
    return lp
