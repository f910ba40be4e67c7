"""The bound of a part with square edges: how thickly joints must lie at each place, by a linear programme.

Proof. Let the panels of a layout be rectangles along two directions (a hook breaks the rules), and let u at a place be
one over the width of the panel there, v one over its height. Along a level chord u adds up to the number of panels on it,
so that over the part u adds up to the length of the upright joints, and to the height over which there are level chords,
each counted. So does v to the length of the level joints and the width over which there are upright chords. And this is
known of them:

- no panel is wider than a panel may be at any place of it, so that u is no less than one over that there;
- on a level chord there are no fewer panels than fill it;
- a panel that is no longer one way than k times the other has a u of at least v / k, and a v of at least u / k.

How wide a panel may be at a place is the reach along the level chord there, or k times how high it may be, if that is
less: the reach along the upright chord, or the whole of this chord.

All of that is linear, and holds for the sums over cells too, for within a cell the limits do not change. So the least sum
of u and v over the cells, less what the chords are, is no more than the joints of any layout. Any prices of the conditions
prove it, if no cell costs more than it counts by them: those of the solver are made small enough for that.

The aspect k is the advised one, or that of the panel of this layout in the cell where it is greater; where this is no
rectangle nothing is asked of k.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely import Polygon

from kerfline.engine.arrays import Integers, Numbers
from kerfline.engine.bounds.cells import Cells, LevelRun
from kerfline.engine.bounds.chord_bound import fewest
from kerfline.engine.bounds.crossing import Reach
from kerfline.engine.partition.set_partition import silent_solver
from kerfline.geometry.tolerance import MEASURE, TOUCH

MOST_ITERATIONS = 20_000
"""Steps of the solver, after which its prices are taken as they are."""

HAIR = 2.0 * TOUCH
"""A panel is a rectangle where its bounds are no more than this (mm) off it on a side."""


def least_on_cells(
    cells: Cells,
    reaches: tuple[Reach, Reach],
    panels: Sequence[Polygon],
    advised: float,
    joints: Sequence[float] = (0.0, 0.0),
) -> float:
    """The least length of joints in a part, mm.

    Args:
        cells: The cells of the part.
        reaches: How far a panel may reach along a level chord, and along an upright one seen with the part turned
            clockwise by a quarter, so that it is level.
        panels: The panels of the layout in the part.
        advised: The aspect that panels may have where none here has more.
        joints: What is known besides of the length of upright joints, and of level ones, mm.
    """
    aspect = _aspects(cells, panels, advised)
    level, upright = _chords(cells, reaches[0], 1.0), _chords(cells.turned, reaches[1], -1.0)
    sides = [
        _Side(cells, level, level.limits(upright.highest.T, aspect)),
        _Side(cells.turned, upright, upright.limits(level.highest.T, aspect.T)),
    ]
    asked = [length + side.length for length, side in zip(joints, sides, strict=True)]
    return max(0.0, _least_sum(cells, sides, aspect, asked) - sum(side.length for side in sides))


def _aspects(cells: Cells, panels: Sequence[Polygon], advised: float) -> Numbers:
    """The aspect that panels may have at each cell; infinite where it does not matter."""
    out = np.full(cells.inside.shape, advised)
    for panel in panels:
        x0, y0, x1, y1 = panel.bounds
        long, short = max(x1 - x0, y1 - y0), min(x1 - x0, y1 - y0)
        full = panel.area >= long * short - HAIR * (long + short)
        own = long / (short - HAIR) if full and short > HAIR else np.inf
        here = cells.under(panel)
        out[here] = np.maximum(out[here], own)
    return out


@dataclass(frozen=True)
class _Chords:
    """The level chords of cells.

    Attributes:
        runs: The chords.
        reach: How far a panel may reach along that through each cell, mm; infinite where there is none.
        length: Length of that through each cell, mm.
    """

    runs: list[LevelRun]
    reach: Numbers
    length: Numbers

    @property
    def highest(self) -> Numbers:
        """How far a panel in each cell reaches at most, mm."""
        return np.minimum(self.reach, self.length)

    def limits(self, across: Numbers, aspect: Numbers) -> Numbers:
        """The same where panels reach so far across at most, at the aspect that they may have, mm."""
        return np.minimum(self.reach, aspect * across)


def _chords(cells: Cells, reach: Reach, sign: float) -> _Chords:
    """The level chords of cells whose heights are those of the part, or their negatives."""
    runs = cells.level_runs()
    x, y = cells.places
    heights = sign * (y[:-1] + y[1:]) / 2
    ends = np.array([[[x[n], heights[run.row]] for n in (run.first, run.last)] for run in runs])
    far, length = np.full(cells.inside.shape, np.inf), np.full(cells.inside.shape, np.inf)
    for run, limit in zip(runs, reach(ends).tolist(), strict=True):
        far[run.first : run.last, run.row] = limit
        length[run.first : run.last, run.row] = x[run.last] - x[run.first]
    return _Chords(runs, far, length)


@dataclass(frozen=True)
class _Side:
    """What is known of panels along one direction.

    Attributes:
        cells: The cells, turned so that it is level.
        chords: The chords.
        limits: How far a panel may reach in each cell, mm.
    """

    cells: Cells
    chords: _Chords
    limits: Numbers

    @property
    def length(self) -> float:
        """Over what height there are chords, each counted, mm."""
        return float(sum(self.cells.heights[run.row] for run in self.chords.runs))

    def least(self, run: LevelRun) -> float:
        """What u adds up to along a chord, over the height of its row, mm."""
        places = self.cells.places[0][run.first : run.last + 1]
        count = fewest(places, self.limits[run.first : run.last, run.row])
        return float(count * self.cells.heights[run.row])


@dataclass
class _Rows:
    """The conditions of a linear programme: sums of columns that are no less than something."""

    columns: list[Integers]
    values: list[Numbers]
    least: list[float]

    def add(self, columns: Integers, values: Numbers, least: float) -> None:
        """One more condition."""
        self.columns.append(columns)
        self.values.append(values)
        self.least.append(least)


def _least_sum(
    cells: Cells, sides: Sequence[_Side], aspect: Numbers, asked: Sequence[float]
) -> float:
    """No more than what u and v add up to over all cells, mm."""
    count = int(cells.inside.sum())
    numbers = np.full(cells.inside.shape, -1)
    numbers[cells.inside] = np.arange(count)
    rows = _Rows([], [], [])
    low = []
    for n, side in enumerate(sides):
        own = (numbers.T if n else numbers) + n * count
        held = side.cells.inside
        for run in side.chords.runs:
            columns = own[run.first : run.last, run.row]
            rows.add(columns, np.ones(len(columns)), side.least(run))
        rows.add(np.arange(count) + n * count, np.ones(count), asked[n])
        floor = np.zeros(held.shape)
        floor[held] = side.cells.areas[held] / (side.limits[held] + MEASURE)
        low.append((floor.T if n else floor)[cells.inside])
    shares = 1.0 / aspect[cells.inside]
    for cell in np.flatnonzero(shares > 0.0).tolist():
        for one, other in ((cell, count + cell), (count + cell, cell)):
            rows.add(np.array([one, other]), np.array([1.0, -shares[cell]]), 0.0)
    return _proven(rows, np.concatenate(low))


def _proven(rows: _Rows, low: Numbers) -> float:
    """What prices of the conditions prove of the least sum of all columns, none of which is less than that."""
    starts = np.cumsum([0, *(len(columns) for columns in rows.columns)])
    columns, values = np.concatenate(rows.columns), np.concatenate(rows.values)
    least = np.array(rows.least)
    prices = np.maximum(_prices(starts, columns, values, least, low), 0.0)

    def costs() -> Numbers:
        weights = values * np.repeat(prices, np.diff(starts))
        return np.asarray(np.bincount(columns, weights=weights, minlength=len(low)))

    prices = prices / max(1.0, float(costs().max()))
    return float(least @ prices + low @ np.maximum(1.0 - costs(), 0.0))


def _prices(
    starts: Integers, columns: Integers, values: Numbers, least: Numbers, low: Numbers
) -> Numbers:
    """The solver's prices of the conditions."""
    import highspy

    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(low), len(least)
    lp.col_cost_ = np.ones(len(low))
    lp.col_lower_, lp.col_upper_ = low, np.full(len(low), highspy.kHighsInf)
    lp.row_lower_, lp.row_upper_ = least, np.full(len(least), highspy.kHighsInf)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = starts.astype(np.int32)
    lp.a_matrix_.index_ = columns.astype(np.int32)
    lp.a_matrix_.value_ = values
    solver = silent_solver({"random_seed": 1, "simplex_iteration_limit": MOST_ITERATIONS})
    solver.passModel(lp)
    solver.run()
    return np.array(solver.getSolution().row_dual)
