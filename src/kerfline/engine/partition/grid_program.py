"""The exact cover of the slab by panels, as the rows and columns of a mixed integer programme.

For each panel a 0/1 choice; for each piece of line inside the slab, whether it is a joint. Along every
row of cells the panels follow one another without gap: what ends at a piece begins there again. Tees
and chalk lines follow from the pieces, which are 0 or 1 by themselves once the panels are. Put so,
the programme is nearly integral as it stands: most slabs need no branching.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from kerfline.engine.lines.features import X, Y
from kerfline.engine.options import Weights
from kerfline.engine.partition.grid import Array, Flags, Grid, Whole, feet
from kerfline.engine.partition.rectangles import Panels, side_sums
from kerfline.units import MM_PER_FOOT

INFINITE = float("inf")


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

    def limits(self) -> tuple[Array, Array]:
        """Low and high limits of all rows."""
        return np.concatenate(self._low), np.concatenate(self._high)

    def by_row(self) -> tuple[Whole, Whole, Array]:
        """Row starts, columns and values in row order."""
        at, column = np.concatenate(self._at), np.concatenate(self._column)
        value = np.concatenate(self._value)
        order = np.lexsort((column, at))
        starts = np.searchsorted(at[order], np.arange(self.count + 1)).astype(np.int64)
        return starts, column[order], value[order]


@dataclass(frozen=True, kw_only=True)
class Programme:
    """The programme without the columns of its panels, and how those meet the rows.

    Attributes:
        cost: Cost of the columns of pieces, tees and lines; all lie between 0 and 1.
        rows: The rows, with those columns.
        begins: For each axis and piece of line the row of what begins there; -1 where none.
        ends: The same for what ends there.
        panels: What may be chosen.
        panel_cost: Its costs.
        twins: For each panel the first of its images, which are chosen together.
        first_line: The first of the columns of lines, which are the last before the panels.
    """

    cost: Array
    rows: Rows
    begins: tuple[Whole, Whole]
    ends: tuple[Whole, Whole]
    panels: Panels
    panel_cost: Array
    twins: Whole
    first_line: int


def programme(
    grid: Grid,
    panels: Panels,
    costs: Array,
    weights: Weights,
    vertex_under_wall: Flags,
    twins: Whole,
) -> Programme:
    """The programme of a grid, its panels and their costs."""
    rows = Rows()
    pieces = _piece_columns(grid)
    row_x, row_y = (_rows_of_cells(rows, grid, pieces[axis], axis) for axis in (X, Y))
    after = sum(int((p >= 0).sum()) for p in pieces)
    tee_cost = _tees(rows, grid, pieces, after, weights, vertex_under_wall)
    line_cost = _chalk(rows, grid, pieces, after + len(tee_cost), weights)
    return Programme(
        cost=np.concatenate([np.zeros(after), tee_cost, line_cost]),
        rows=rows,
        begins=(row_x[0], row_y[0]),
        ends=(row_x[1], row_y[1]),
        panels=panels,
        panel_cost=costs,
        twins=twins,
        first_line=after + len(tee_cost),
    )


def _piece_columns(grid: Grid) -> tuple[Whole, Whole]:
    """The column of each interior piece of line; -1 where there is none."""
    out = []
    first = 0
    for axis in (X, Y):
        columns = np.full(grid.interior[axis].shape, -1)
        number = int(grid.interior[axis].sum())
        columns[grid.interior[axis]] = first + np.arange(number)
        first += number
        out.append(columns)
    return out[0], out[1]


def _rows_of_cells(rows: Rows, grid: Grid, pieces: Whole, axis: int) -> tuple[Whole, Whole]:
    """What ends at a piece of line begins there: along a row, no gap and no overlap."""
    inside = grid.inside if axis == X else grid.inside.T
    out = []
    for side in (slice(None, -1), slice(1, None)):
        here = np.zeros(pieces.shape, dtype=bool)
        here[side] = inside
        index = np.full(pieces.shape, -1)
        fixed = np.where(pieces < 0, 1.0, 0.0)[here]
        first = rows.block(fixed, fixed, len(fixed))
        index[here] = first + np.arange(len(fixed))
        inner = here & (pieces >= 0)
        rows.put(index[inner], pieces[inner], -1.0)
        out.append(index)
    return out[0], out[1]


def _tees(
    rows: Rows,
    grid: Grid,
    pieces: tuple[Whole, Whole],
    first: int,
    weights: Weights,
    under_wall: Flags,
) -> Array:
    """The cost of a column for each inner vertex, which is 1 where a joint stops there."""
    inside = grid.inside
    inner = np.zeros((inside.shape[0] + 1, inside.shape[1] + 1), dtype=bool)
    inner[1:-1, 1:-1] = inside[:-1, :-1] & inside[1:, :-1] & inside[:-1, 1:] & inside[1:, 1:]
    i, j = np.nonzero(inner)
    column = first + np.arange(len(i))
    pairs = ((pieces[X][i, j], pieces[X][i, j - 1]), (pieces[Y][j, i], pieces[Y][j, i - 1]))
    for one, other in pairs:
        for plus, minus in ((one, other), (other, one)):
            here = rows.block(-INFINITE, 0.0, len(i)) + np.arange(len(i))
            rows.put(here, plus, 1.0)
            rows.put(here, minus, -1.0)
            rows.put(here, column, -1.0)
    return np.where(under_wall[i, j], weights.tee_hidden, weights.tee) * MM_PER_FOOT


def _chalk(
    rows: Rows, grid: Grid, pieces: tuple[Whole, Whole], first: int, weights: Weights
) -> Array:
    """The cost of a column for each line, which is 1 where any piece of it is a joint."""
    total = 0
    for axis in (X, Y):
        used = np.flatnonzero(grid.interior[axis].any(axis=1))
        column = np.full(len(grid.places[axis]), -1)
        column[used] = first + total + np.arange(len(used))
        line, piece = np.nonzero(grid.interior[axis])
        here = rows.block(-INFINITE, 0.0, len(line)) + np.arange(len(line))
        rows.put(here, pieces[axis][line, piece], 1.0)
        rows.put(here, column[line], -1.0)
        total += len(used)
    return np.full(total, feet(weights.line))


def panel_entries(model: Programme, chosen: Whole) -> tuple[Whole, Whole]:
    """The rows that some panels stand in, as pairs (position in ``chosen``, row)."""
    which, row = [], []
    for axis in (X, Y):
        panel, piece = _spread(model.panels, chosen, axis)
        low, high = model.panels.low[axis][chosen], model.panels.high[axis][chosen]
        for table, line in ((model.begins[axis], low), (model.ends[axis], high)):
            which.append(panel)
            row.append(table[line[panel], piece])
    return np.concatenate(which), np.concatenate(row)


def _spread(panels: Panels, chosen: Whole, axis: int) -> tuple[Whole, Whole]:
    """For each chosen panel the pieces along its side on an axis, as (position, piece) pairs."""
    low, high = panels.low[1 - axis][chosen], panels.high[1 - axis][chosen]
    sizes = high - low
    which = np.repeat(np.arange(len(chosen)), sizes)
    start = np.repeat(np.cumsum(sizes) - sizes, sizes)
    return which, np.repeat(low, sizes) + np.arange(len(which)) - start


def reduced_costs(model: Programme, duals: Array) -> Array:
    """For each panel what it costs beyond what the duals of its rows pay for it, mm of joint."""
    out = model.panel_cost.astype(float)
    for axis in (X, Y):
        begins, ends = (
            np.where(table >= 0, duals[table], 0.0)
            for table in (model.begins[axis], model.ends[axis])
        )
        low, _ = side_sums(begins, model.panels, axis)
        _, high = side_sums(ends, model.panels, axis)
        out -= low + high
    return out
