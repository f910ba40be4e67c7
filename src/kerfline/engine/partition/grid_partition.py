"""The set partition of a grid: along every row of cells, what ends at a seam begins there again."""

import numpy as np

from kerfline.engine.arrays import Flags, Integers, Numbers
from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.partition.set_partition import INFINITE, Rows, SetPartition, by_panel
from kerfline.engine.regions.region import X, Y
from kerfline.units import MM_PER_FOOT

Sides = tuple[Integers, Integers]
"""For each seam of an axis the row of what begins there, and of what ends there; -1 where none."""


def grid_partition(
    grid: Grid,
    panels: Panels,
    costs: Numbers,
    weights: Weights,
    vertex_under_wall: Flags,
    images: Integers,
) -> SetPartition:
    """The set partition of a grid, its panels and their costs.

    Args:
        grid: The grid.
        panels: What may be chosen.
        costs: What each costs, mm of joint.
        weights: What each thing is worth.
        vertex_under_wall: Which vertices of the grid lie under a wall.
        images: For each panel the first of those that are chosen with it.
    """
    rows = Rows()
    pieces = _piece_columns(grid)
    sides = tuple(_rows_of_cells(rows, grid, pieces[axis], axis) for axis in (X, Y))
    after = sum(int((p >= 0).sum()) for p in pieces)
    tee_cost = _tees(rows, grid, pieces, after, weights, vertex_under_wall)
    line_cost = _chalk(rows, grid, pieces, after + len(tee_cost), weights)
    starts, panel_rows = by_panel(*_entries(panels, (sides[X], sides[Y])), len(panels))
    return SetPartition(
        cost=np.concatenate([np.zeros(after), tee_cost, line_cost]),
        rows=rows,
        first_line=after + len(tee_cost),
        panel_cost=costs,
        starts=starts,
        panel_rows=panel_rows,
        images=images,
        area=panels.size[X] * panels.size[Y],
        single=panels.single,
    )


def _piece_columns(grid: Grid) -> tuple[Integers, Integers]:
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


def _rows_of_cells(rows: Rows, grid: Grid, pieces: Integers, axis: int) -> Sides:
    """What ends at a piece of line begins there: along a row, no gap and no overlap."""
    inside = grid.inside if axis == X else grid.inside.T
    out = []
    for side in (slice(None, -1), slice(1, None)):
        here = np.zeros(pieces.shape, dtype=bool)
        here[side] = inside
        index = np.full(pieces.shape, -1)
        fixed = np.where(pieces < 0, 1.0, 0.0)[here]
        first = rows.open(fixed, fixed, len(fixed))
        index[here] = first + np.arange(len(fixed))
        inner = here & (pieces >= 0)
        rows.put(index[inner], pieces[inner], -1.0)
        out.append(index)
    return out[0], out[1]


def _tees(
    rows: Rows,
    grid: Grid,
    pieces: tuple[Integers, Integers],
    first: int,
    weights: Weights,
    under_wall: Flags,
) -> Numbers:
    """The cost of a column for each inner vertex, which is 1 where a joint stops there."""
    inside = grid.inside
    inner = np.zeros((inside.shape[0] + 1, inside.shape[1] + 1), dtype=bool)
    inner[1:-1, 1:-1] = inside[:-1, :-1] & inside[1:, :-1] & inside[:-1, 1:] & inside[1:, 1:]
    i, j = np.nonzero(inner)
    column = first + np.arange(len(i))
    pairs = ((pieces[X][i, j], pieces[X][i, j - 1]), (pieces[Y][j, i], pieces[Y][j, i - 1]))
    for one, other in pairs:
        for plus, minus in ((one, other), (other, one)):
            here = rows.open(-INFINITE, 0.0, len(i)) + np.arange(len(i))
            rows.put(here, plus, 1.0)
            rows.put(here, minus, -1.0)
            rows.put(here, column, -1.0)
    return np.where(under_wall[i, j], weights.tee_hidden, weights.tee) * MM_PER_FOOT


def _chalk(
    rows: Rows, grid: Grid, pieces: tuple[Integers, Integers], first: int, weights: Weights
) -> Numbers:
    """The cost of a column for each line, which is 1 where any piece of it is a joint."""
    total = 0
    for axis in (X, Y):
        used = np.flatnonzero(grid.interior[axis].any(axis=1))
        column = np.full(len(grid.places[axis]), -1)
        column[used] = first + total + np.arange(len(used))
        line, piece = np.nonzero(grid.interior[axis])
        here = rows.open(-INFINITE, 0.0, len(line)) + np.arange(len(line))
        rows.put(here, pieces[axis][line, piece], 1.0)
        rows.put(here, column[line], -1.0)
        total += len(used)
    return np.full(total, feet(weights.line))


def _entries(panels: Panels, sides: tuple[Sides, Sides]) -> tuple[Integers, Integers]:
    """The rows that panels stand in, as pairs (panel, row)."""
    which, row = [], []
    for axis in (X, Y):
        panel, piece = _along_sides(panels, axis)
        for table, line in zip(sides[axis], (panels.low[axis], panels.high[axis]), strict=True):
            which.append(panel)
            row.append(table[line[panel], piece])
    return np.concatenate(which), np.concatenate(row)


def _along_sides(panels: Panels, axis: int) -> tuple[Integers, Integers]:
    """For each panel the seams along its side on an axis, as (panel, seam) pairs."""
    low = panels.low[1 - axis]
    sizes = panels.high[1 - axis] - low
    which = np.repeat(np.arange(len(panels)), sizes)
    start = np.repeat(np.cumsum(sizes) - sizes, sizes)
    return which, np.repeat(low, sizes) + np.arange(len(which)) - start
