"""The restricted master: the set partition in the solver, with the panels that were added so far."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from kerfline.engine.arrays import Flags, Integers, Numbers
from kerfline.engine.effort import Effort
from kerfline.engine.partition.set_partition import SetPartition

WHOLE = 1e-5
"""How near a choice must be to 0 or 1."""

LEAST_ITERATIONS = 8_000
"""Simplex iterations that a linear programme may take in any case."""

GAP = 1e-4
"""Relative gap at which a layout counts as proven best."""


class Master:
    """A set partition in the solver, with the panels that were added so far."""

    def __init__(self, model: SetPartition) -> None:
        self.model = model
        self.heads, self.group = np.unique(model.images, return_inverse=True)
        self.added = np.zeros(len(self.heads), dtype=bool)
        self.columns: list[Integers] = []
        self.fixed = len(model.cost)
        self.solver = _solver()
        self.solver.passModel(_fixed_model(model))
        members = np.argsort(self.group, kind="stable")
        self._members = members
        self._first = np.searchsorted(self.group[members], np.arange(len(self.heads) + 1))

    def grouped(self, values: Numbers) -> Numbers:
        """Values of panels added up over those that are chosen together."""
        out = np.zeros(len(self.heads))
        np.add.at(out, self.group, values)
        return out

    def panels_of(self, groups: Integers) -> tuple[Integers, Integers]:
        """The panels in some groups, and the position of the group of each."""
        sizes = self._first[groups + 1] - self._first[groups]
        which = np.repeat(np.arange(len(groups)), sizes)
        start = np.repeat(np.cumsum(sizes) - sizes, sizes)
        place = np.repeat(self._first[groups], sizes) + np.arange(len(which)) - start
        return self._members[place], which

    def add(self, groups: Integers) -> None:
        """Puts the columns of some groups into the solver."""
        groups = groups[~self.added[groups]]
        if not len(groups):
            return
        panels, which = self.panels_of(groups)
        position, row = self.model.entries(panels)
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
    def listed(self) -> Integers:
        """The groups in the order of their columns."""
        return np.concatenate(self.columns)

    @property
    def cost(self) -> float:
        """Cost of the present solution, mm of joint."""
        return float(self.solver.getInfo().objective_function_value)

    def values(self) -> Numbers:
        """Values of all columns in the present solution."""
        return np.asarray(self.solver.getSolution().col_value)

    def solve(self, effort: Effort) -> bool:
        """Solves the linear programme as it stands; whether it has a solution."""
        rows = self.model.rows.count
        most = effort.iterations(rows, LEAST_ITERATIONS)
        self.solver.setOptionValue("simplex_iteration_limit", most)
        self.solver.run()
        effort.spend(int(self.solver.getInfo().simplex_iteration_count), rows)
        return _optimal(self.solver)

    def was_stopped(self) -> bool:
        """Whether the linear programme took more iterations than it may."""
        import highspy

        return bool(self.solver.getModelStatus() == highspy.HighsModelStatus.kIterationLimit)

    def give(self, column: int, value: float, effort: Effort) -> bool:
        """Fixes a column and solves again; whether there is a solution."""
        self.solver.changeColBounds(column, value, value)
        return self.solve(effort)

    def open_all(self) -> None:
        """Lets every column be anything from 0 to 1 again."""
        count = self.fixed + len(self.listed)
        columns = np.arange(count, dtype=np.int32)
        self.solver.changeColsBounds(count, columns, np.zeros(count), np.ones(count))

    def close(self, far: Flags) -> None:
        """Forbids the panels of some groups."""
        count = len(self.listed)
        columns = np.arange(self.fixed, self.fixed + count, dtype=np.int32)
        upper = np.where(far[self.listed], 0.0, 1.0)
        self.solver.changeColsBounds(count, columns, np.zeros(count), upper)

    def make_whole(self) -> None:
        """From now on every panel is taken or not."""
        import highspy

        count = len(self.listed)
        columns = np.arange(self.fixed, self.fixed + count, dtype=np.int32)
        kinds = np.full(count, int(highspy.HighsVarType.kInteger), dtype=np.uint8)
        self.solver.changeColsIntegrality(count, columns, kinds)
        self.solver.clearSolver()

    def begin_with(self, values: Numbers) -> None:
        """Hands the solver a solution to begin with; columns that came later are 0 in it."""
        import highspy

        solution = highspy.HighsSolution()
        rest = np.zeros(self.fixed + len(self.listed) - len(values))
        solution.col_value = [*values.tolist(), *rest.tolist()]
        self.solver.setSolution(solution)

    def has_answer(self) -> bool:
        """Whether the solver stands at a solution."""
        import highspy

        found = self.solver.getInfo().primal_solution_status
        return bool(found == int(highspy.SolutionStatus.kSolutionStatusFeasible))


def _optimal(solver: Any) -> bool:  # noqa: ANN401 - highspy has few types
    import highspy

    return bool(solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _solver() -> Any:  # noqa: ANN401 - highspy has few types
    """A solver with a fixed seed and no clock.

    Presolve costs many times more here than it saves.
    """
    return silent_solver(
        {
            "presolve": "off",
            "random_seed": 1,
            "parallel": "off",
            "mip_rel_gap": GAP,
            "mip_abs_gap": 1e-3,
        }
    )


def _fixed_model(model: SetPartition) -> Any:  # noqa: ANN401 - highspy has few types
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


def silent_solver(settings: Mapping[str, str | int | float]) -> Any:  # noqa: ANN401 - highspy has few types
    """A solver that prints nothing, not even its name when it starts, on one thread.

    Args:
        settings: Options of the library beside those.
    """
    import highspy

    class Silent(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the library's name
            """Callbacks stay off: turning them on makes the solver print its name."""

    solver: Any = Silent()  # type: ignore[no-untyped-call] # the library's constructor
    for name, value in {"output_flag": False, "threads": 1, **settings}.items():
        solver.setOptionValue(name, value)
    return solver


class Rounds:
    """Counts the rounds of a branching search and stops it after a number: a clock would not repeat.

    A round is a pass of cuts at the root, a heuristic or a node of the tree.

    Attributes:
        most: The number of rounds after which the search stops.
        done: How many there were.
    """

    def __init__(self, solver: Any, most: int) -> None:  # noqa: ANN401 - highspy has few types
        import highspy

        self.most = most
        self.done = 0
        # The base class's own: that of ``Highs`` turns all callbacks on and prints the solver's name.
        base: Any = highspy.Highs.__base__
        base.setCallback(solver, self._count, None)
        solver.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)

    def _count(self, _kind: Any, _text: str, _out: Any, stop: Any, _own: Any) -> None:  # noqa: ANN401
        """Called by the solver once a round."""
        self.done += 1
        if self.done > self.most:
            stop.user_interrupt = 1
