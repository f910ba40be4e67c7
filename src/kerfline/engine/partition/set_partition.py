"""The choice of panels as a programme: a set partition, of which joints, tees and chalk lines follow; and its solver.

A panel is a column that is taken or not. Columns from 0 to 1 follow from it: whether each seam is a joint, whether
a joint stops at a node (a tee), whether a line is snapped at all. They are whole by themselves once the panels are.

Where each cell lies in one panel, a joint is the sum of the panels that lie on one side of it and do not reach
over, whichever the side. Rows of that kind name a panel along its rim only, and are quicker to solve than rows
that name it in every cell; put so, the programme is nearly whole as it stands, and most slabs need no branching.

The restricted ``Master`` holds the panels that were added so far. No other module calls the solver.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from kerfline.engine.effort import Effort
from kerfline.geometry.arrays import Flags, Integers, Numbers

INFINITE = float("inf")

WHOLE = 1e-5
"""How near a choice must be to 0 or 1."""

LEAST_ITERATIONS = 8_000
"""Simplex iterations that a linear programme may take in any case."""

LEAST_INNER = 60
"""The same of the method that goes through the inside; it takes about 25."""

GAP = 1e-4
"""Relative gap at which a layout counts as proven best."""


class Rows:
    """Rows of a programme, collected in batches."""

    def __init__(self) -> None:
        self.count = 0
        self._low: list[Numbers] = []
        self._high: list[Numbers] = []
        self._at: list[Integers] = []
        self._column: list[Integers] = []
        self._value: list[Numbers] = []

    def open(self, low: npt.ArrayLike, high: npt.ArrayLike, size: int = 1) -> int:
        """Opens rows with their limits; returns the first one's index."""
        first = self.count
        self._low.append(np.broadcast_to(np.asarray(low, dtype=float), size))
        self._high.append(np.broadcast_to(np.asarray(high, dtype=float), size))
        self.count += size
        return first

    def put(self, rows: npt.ArrayLike, columns: npt.ArrayLike, value: float) -> None:
        """Sets one value at many places."""
        at = np.atleast_1d(np.asarray(rows, dtype=np.int64))
        self._at.append(at)
        self._column.append(np.atleast_1d(np.asarray(columns, dtype=np.int64)))
        self._value.append(np.full(len(at), value))

    def limits(self) -> tuple[Numbers, Numbers]:
        """Low and high limits of all rows."""
        return np.concatenate(self._low), np.concatenate(self._high)

    def by_row(self) -> tuple[Integers, Integers, Numbers]:
        """Row starts, columns and values in row order."""
        none = np.zeros(0, dtype=np.int64)
        at, column = np.concatenate([none, *self._at]), np.concatenate([none, *self._column])
        value = np.concatenate([np.zeros(0), *self._value])
        order = np.lexsort((column, at))
        starts = np.searchsorted(at[order], np.arange(self.count + 1)).astype(np.int64)
        return starts, column[order], value[order]


@dataclass(frozen=True, kw_only=True)
class SetPartition:
    """The programme.

    Attributes:
        cost: Cost of the columns that follow (joints, tees, lines), mm of joint; all lie between 0 and 1.
        rows: The rows, with those columns.
        first_line: The first of the columns of chalk lines, which are the last that follow.
        panel_cost: Cost of each panel, mm of joint.
        starts: Where each panel's rows begin in ``panel_rows``, and where the last's end.
        panel_rows: The rows in which each panel stands, with the value 1.
        images: For each panel the first of its images, which are chosen together.
        area: Area of each panel, mm2.
        single: Whether each panel is a single cell: with those there is always some cover.
    """

    cost: Numbers
    rows: Rows
    first_line: int
    panel_cost: Numbers
    starts: Integers
    panel_rows: Integers
    images: Integers
    area: Numbers
    single: Flags

    def entries(self, panels: Integers) -> tuple[Integers, Integers]:
        """The rows that some panels stand in, as pairs (position in ``panels``, row)."""
        sizes = self.starts[panels + 1] - self.starts[panels]
        which = np.repeat(np.arange(len(panels)), sizes)
        shift = np.repeat(self.starts[panels] - np.cumsum(sizes) + sizes, sizes)
        return which, self.panel_rows[np.arange(len(which)) + shift]

    def reduced_costs(self, duals: Numbers) -> Numbers:
        """For each panel what it costs beyond what the duals of its rows pay for it, mm of joint."""
        count = len(self.panel_cost)
        panel = np.repeat(np.arange(count), np.diff(self.starts))
        return self.panel_cost - np.bincount(panel, duals[self.panel_rows], count)

    def bound(self, duals: Numbers, priced: Numbers) -> float:
        """No choice of panels costs less than this (mm of joint), whatever the duals are.

        Any cover costs what its columns cost beyond what the rows pay, and what the rows pay: each at least its
        dual times the limit on that side. Of the columns only those can count below nothing that are paid more than
        they cost, and each is taken once at most.

        Args:
            duals: Of the rows; below nothing where a row has no low limit.
            priced: Costs of all orbits beyond what those duals pay.
        """
        low, high = self.rows.limits()
        starts, columns, values = self.rows.by_row()
        row = np.repeat(np.arange(self.rows.count), np.diff(starts))
        beyond = self.cost - np.bincount(columns, values * duals[row], len(self.cost))
        paid = np.where(duals > 0.0, low, high) * duals
        return float(paid.sum() + np.minimum(beyond, 0.0).sum() + np.minimum(priced, 0.0).sum())


def by_panel(panel: Integers, row: Integers, count: int) -> tuple[Integers, Integers]:
    """Pairs (panel, row) as ``starts`` and ``panel_rows`` of so many panels."""
    order = np.lexsort((row, panel))
    starts = np.searchsorted(panel[order], np.arange(count + 1)).astype(np.int64)
    return starts, row[order]


class Master:
    """A set partition in the solver, with the panels that were added so far.

    Its columns are orbits: a panel with its images, which are chosen together.
    """

    def __init__(self, model: SetPartition) -> None:
        self.model = model
        self.heads, self.orbit = np.unique(model.images, return_inverse=True)
        self.added = np.zeros(len(self.heads), dtype=bool)
        self.columns: list[Integers] = []
        self.fixed = len(model.cost)
        self.solver = _solver()
        self.solver.passModel(_fixed_model(model))
        members = np.argsort(self.orbit, kind="stable")
        self._members = members
        self._first = np.searchsorted(self.orbit[members], np.arange(len(self.heads) + 1))

    def by_orbit(self, values: Numbers) -> Numbers:
        """Values of panels added up over each orbit."""
        out = np.zeros(len(self.heads))
        np.add.at(out, self.orbit, values)
        return out

    def panels_of(self, orbits: Integers) -> tuple[Integers, Integers]:
        """The panels in some orbits, and the position of the orbit of each."""
        sizes = self._first[orbits + 1] - self._first[orbits]
        which = np.repeat(np.arange(len(orbits)), sizes)
        start = np.repeat(np.cumsum(sizes) - sizes, sizes)
        place = np.repeat(self._first[orbits], sizes) + np.arange(len(which)) - start
        return self._members[place], which

    def add(self, orbits: Integers) -> None:
        """Puts the columns of some orbits into the solver."""
        orbits = orbits[~self.added[orbits]]
        if not len(orbits):
            return
        panels, which = self.panels_of(orbits)
        position, row = self.model.entries(panels)
        column = which[position]
        order = np.lexsort((row, column))
        column, row = column[order], row[order]
        new = np.r_[True, (np.diff(column) != 0) | (np.diff(row) != 0)]
        first = np.flatnonzero(new)
        values = np.diff(np.r_[first, len(row)]).astype(float)
        column, row = column[new], row[new]
        starts = np.searchsorted(column, np.arange(len(orbits)))
        cost = self.by_orbit(self.model.panel_cost)[orbits]
        size = len(orbits)
        self.solver.addCols(
            size, cost, np.zeros(size), np.ones(size), len(row),
            starts.astype(np.int32), row.astype(np.int32), values,
        )  # fmt: skip
        self.added[orbits] = True
        self.columns.append(orbits)

    @property
    def listed(self) -> Integers:
        """The orbits in the order of their columns."""
        return np.concatenate(self.columns)

    @property
    def cost(self) -> float:
        """Cost of the present solution, mm of joint."""
        return float(self.solver.getInfo().objective_function_value)

    @property
    def iterations(self) -> int:
        """Simplex iterations of the last call of the solver."""
        return int(self.solver.getInfo().simplex_iteration_count)

    def values(self) -> Numbers:
        """Values of all columns in the present solution."""
        return np.asarray(self.solver.getSolution().col_value)

    def solve(self, effort: Effort) -> bool:
        """Solves the linear programme as it stands; whether it has a solution."""
        rows = self.model.rows.count
        most = effort.iterations(rows, LEAST_ITERATIONS)
        self.solver.setOptionValue("simplex_iteration_limit", most)
        self.solver.run()
        effort.spend(self.iterations, rows)
        return _optimal(self.solver)

    def duals_from_inside(self, effort: Effort) -> Numbers | None:
        """Duals all but the best, by a method that goes through the inside and ends at no corner; None where it fails."""
        entries = len(self.model.panel_rows)
        most = effort.inner_iterations(entries, LEAST_INNER)
        # Older versions of the solver know the method by its general name only.
        for name in ("ipm", "ipx"):
            self.solver.setOptionValue("solver", name)
        self.solver.setOptionValue("run_crossover", "off")
        self.solver.setOptionValue("ipm_iteration_limit", most)
        self.solver.run()
        effort.spend_inside(int(self.solver.getInfo().ipm_iteration_count), entries)
        solution = self.solver.getSolution()
        if not solution.dual_valid or self.was_stopped():
            return None
        low, _ = self.model.rows.limits()
        duals = np.asarray(solution.row_dual)
        return np.where(np.isinf(low), np.minimum(duals, 0.0), duals)

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
        """Forbids the panels of some orbits."""
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


class RoundCount:
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
