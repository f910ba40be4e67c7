"""The exact cover of the slab by panels, as a mixed integer programme for HiGHS.

For each panel a 0/1 choice; for each piece of line inside the slab, whether it is a joint. Along every
row of cells the panels follow one another without gap: what ends at a piece begins there again. Tees
and chalk lines follow from the pieces. All pieces are 0 or 1 by themselves once the panels are.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from kerfline.engine.options import Weights
from kerfline.engine.orthogonal.features import X, Y
from kerfline.engine.orthogonal.grid import Array, Flags, Grid, Whole, feet
from kerfline.engine.orthogonal.panels import Panels
from kerfline.units import MM_PER_FOOT

INFINITE = float("inf")

GAP = 1e-6
"""Relative gap at which a layout counts as proven best."""

NODES_PER_SECOND = 200
"""Branch-and-bound nodes allowed for each second of effort: the search must not depend on the clock."""

ROUNDED = 0.5
"""A 0/1 choice above this is a yes."""


@dataclass(frozen=True, kw_only=True)
class Cover:
    """A choice of panels.

    Attributes:
        chosen: Indices of the panels.
        cost: Its cost, mm of joint.
        bound: No choice of these panels costs less than this.
        proven: Whether the search was carried to its end.
    """

    chosen: Whole
    cost: float
    bound: float
    proven: bool


class Rows:
    """Rows of a programme, collected in pieces."""

    def __init__(self) -> None:
        self.count = 0
        self._low: list[Array] = []
        self._high: list[Array] = []
        self._at: list[Whole] = []
        self._column: list[Whole] = []
        self._value: list[Array] = []

    def block(self, low: npt.ArrayLike, high: npt.ArrayLike, size: int) -> int:
        """Opens rows with their limits; returns the first one's index."""
        first = self.count
        self._low.append(np.broadcast_to(np.asarray(low, dtype=float), size))
        self._high.append(np.broadcast_to(np.asarray(high, dtype=float), size))
        self.count += size
        return first

    def put(self, rows: Whole, columns: Whole, value: float) -> None:
        """Sets one value at many places."""
        self._at.append(np.asarray(rows, dtype=np.int64))
        self._column.append(np.asarray(columns, dtype=np.int64))
        self._value.append(np.full(len(rows), value))

    def arrays(self) -> tuple[Array, Array, Whole, Whole, Array]:
        """Low and high limits, row starts, columns and values in row order, duplicates added up."""
        at, column = np.concatenate(self._at), np.concatenate(self._column)
        value = np.concatenate(self._value)
        order = np.lexsort((column, at))
        at, column, value = at[order], column[order], value[order]
        new = np.r_[True, (np.diff(at) != 0) | (np.diff(column) != 0)]
        value = np.add.reduceat(value, np.flatnonzero(new))
        at, column = at[new], column[new]
        starts = np.searchsorted(at, np.arange(self.count + 1)).astype(np.int64)
        return np.concatenate(self._low), np.concatenate(self._high), starts, column, value


@dataclass(frozen=True, kw_only=True)
class Programme:
    """The programme before it is handed to the solver.

    Attributes:
        choices: Number of 0/1 choices; they are the first columns.
        column: For each panel the column of its choice.
        cost: Cost of every column; all columns lie between 0 and 1.
        rows: The rows.
    """

    choices: int
    column: Whole
    cost: Array
    rows: Rows


def programme(
    grid: Grid,
    panels: Panels,
    costs: Array,
    weights: Weights,
    vertex_under_wall: Flags,
    twins: Whole,
) -> Programme:
    """The programme of a grid, its panels and their costs; panels chosen together share a column."""
    rows = Rows()
    heads, column = np.unique(twins, return_inverse=True)
    panel_cost = np.zeros(len(heads))
    np.add.at(panel_cost, column, costs)
    pieces = _piece_columns(grid, len(heads))
    for axis in (X, Y):
        _rows_of_cells(rows, grid, panels, column, pieces[axis], axis)
    after = len(heads) + sum(int((p >= 0).sum()) for p in pieces)
    tee_cost = _tees(rows, grid, pieces, after, weights, vertex_under_wall)
    line_cost = _chalk(rows, grid, pieces, after + len(tee_cost), weights)
    pieces_cost = np.zeros(after - len(heads))
    cost = np.concatenate([panel_cost, pieces_cost, tee_cost, line_cost])
    return Programme(choices=len(heads), column=column, cost=cost, rows=rows)


def _piece_columns(grid: Grid, first: int) -> tuple[Whole, Whole]:
    """The column of each interior piece of line; -1 where there is none."""
    out = []
    for axis in (X, Y):
        columns = np.full(grid.interior[axis].shape, -1)
        number = int(grid.interior[axis].sum())
        columns[grid.interior[axis]] = first + np.arange(number)
        first += number
        out.append(columns)
    return out[0], out[1]


def _rows_of_cells(
    rows: Rows, grid: Grid, panels: Panels, column: Whole, pieces: Whole, axis: int
) -> None:
    """What ends at a piece of line begins there: along a row, no gap and no overlap."""
    inside = grid.inside if axis == X else grid.inside.T
    size = pieces.shape
    begins = np.zeros(size, dtype=bool)
    begins[:-1] = inside
    ends = np.zeros(size, dtype=bool)
    ends[1:] = inside
    for here, lines in ((begins, panels.low[axis]), (ends, panels.high[axis])):
        index = np.full(size, -1)
        index[here] = np.arange(int(here.sum()))
        edge = here & (pieces < 0)
        fixed = np.where(edge, 1.0, 0.0)[here]
        first = rows.block(fixed, fixed, int(here.sum()))
        which, piece = _spread(panels, axis)
        rows.put(first + index[lines[which], piece], column[which], 1.0)
        inner = here & (pieces >= 0)
        rows.put(first + index[inner], pieces[inner], -1.0)


def _spread(panels: Panels, axis: int) -> tuple[Whole, Whole]:
    """For every panel the pieces along its side on an axis, as (panel, piece) pairs."""
    low, high = panels.low[1 - axis], panels.high[1 - axis]
    sizes = high - low
    which = np.repeat(np.arange(len(panels)), sizes)
    start = np.repeat(np.cumsum(sizes) - sizes, sizes)
    return which, np.repeat(low, sizes) + np.arange(len(which)) - start


def _tees(
    rows: Rows,
    grid: Grid,
    pieces: tuple[Whole, Whole],
    first: int,
    weights: Weights,
    under_wall: Flags,
) -> Array:
    """The cost of a column for each inner vertex, 1 where a joint stops there."""
    inside = grid.inside
    inner = np.zeros((inside.shape[0] + 1, inside.shape[1] + 1), dtype=bool)
    inner[1:-1, 1:-1] = inside[:-1, :-1] & inside[1:, :-1] & inside[:-1, 1:] & inside[1:, 1:]
    i, j = np.nonzero(inner)
    count = len(i)
    column = first + np.arange(count)
    pairs = ((pieces[X][i, j], pieces[X][i, j - 1]), (pieces[Y][j, i], pieces[Y][j, i - 1]))
    for one, other in pairs:
        for plus, minus in ((one, other), (other, one)):
            start = rows.block(-INFINITE, 0.0, count)
            here = start + np.arange(count)
            rows.put(here, plus, 1.0)
            rows.put(here, minus, -1.0)
            rows.put(here, column, -1.0)
    return np.where(under_wall[i, j], weights.tee_hidden, weights.tee) * MM_PER_FOOT


def _chalk(
    rows: Rows, grid: Grid, pieces: tuple[Whole, Whole], first: int, weights: Weights
) -> Array:
    """The cost of a column for each line, 1 where any piece of it is a joint."""
    total = 0
    for axis in (X, Y):
        used = np.flatnonzero(grid.interior[axis].any(axis=1))
        column = np.full(len(grid.places[axis]), -1)
        column[used] = first + total + np.arange(len(used))
        line, piece = np.nonzero(grid.interior[axis])
        start = rows.block(-INFINITE, 0.0, len(line))
        here = start + np.arange(len(line))
        rows.put(here, pieces[axis][line, piece], 1.0)
        rows.put(here, column[line], -1.0)
        total += len(used)
    return np.full(total, feet(weights.line))


def solve_programme(model: Programme, seconds: float, start: Whole | None = None) -> Cover | None:
    """The best cover; None where there is none at all.

    Args:
        model: The programme.
        seconds: Effort. It sets a number of nodes, so that a busy machine finds the same layout; the
            clock itself stops the search only at four times that.
        start: Indices of the panels of a cover to begin with.
    """
    solver = _silent_solver()
    for name, value in _settings(seconds).items():
        solver.setOptionValue(name, value)
    solver.passModel(_highs_model(model))
    if start is not None:
        values = np.zeros(model.choices)
        values[model.column[start]] = 1.0
        solver.setSolution(model.choices, np.arange(model.choices, dtype=np.int32), values)
    solver.run()
    return _cover(model, solver)


def _cover(model: Programme, solver: Any) -> Cover | None:  # noqa: ANN401 - highspy has few types
    import highspy

    info = solver.getInfo()
    if info.primal_solution_status != int(highspy.SolutionStatus.kSolutionStatusFeasible):
        return None
    values = np.asarray(solver.getSolution().col_value[: model.choices])
    proven = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    cost = float(info.objective_function_value)
    return Cover(
        chosen=np.flatnonzero(values[model.column] > ROUNDED),
        cost=cost,
        bound=cost if proven else float(min(info.mip_dual_bound, cost)),
        proven=bool(proven),
    )


def _silent_solver() -> Any:  # noqa: ANN401 - highspy has few types
    """A solver that prints nothing, not even its name when it starts."""
    import highspy

    class Silent(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the library's name
            """Callbacks stay off: turning them on makes the solver print its name."""

    solver: Any = Silent()  # type: ignore[no-untyped-call] # the library's constructor
    solver.setOptionValue("output_flag", False)  # noqa: FBT003 - the library's signature
    return solver


def _settings(seconds: float) -> dict[str, Any]:
    """One thread and a fixed seed for the same answer every time.

    Presolve costs many times more here than it saves: the programme is nearly integral as it stands.
    """
    return {
        "presolve": "off",
        "threads": 1,
        "random_seed": 1,
        "parallel": "off",
        "mip_rel_gap": GAP,
        "mip_abs_gap": 1e-3,
        "time_limit": 4.0 * seconds,
        "mip_max_nodes": max(1, int(NODES_PER_SECOND * seconds)),
    }


def _highs_model(model: Programme) -> Any:  # noqa: ANN401 - highspy has few types
    import highspy

    low, high, starts, columns, values = model.rows.arrays()
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
    lp.integrality_ = [highspy.HighsVarType.kInteger] * model.choices + [
        highspy.HighsVarType.kContinuous
    ] * (len(model.cost) - model.choices)
    return lp
