"""What the aspect of panels ties together: how many joints one way ask for joints the other way.

Proof. Let u at a place of a part be one over the width of the panel there, v one over its height. Along level chords u adds
up to the number of panels on them, so that over the part it adds up to the length of the upright joints and the height
over which there are level chords, each counted; v to the length of the level joints and the width over which there are
upright chords. Let no panel be longer one way than k times the other.

Over the whole part (``coupled``): where a line along either direction meets each panel in one piece, u adds up over a panel
to its height, v to its width. So the sum of u is no less than a k-th of that of v, nor the other way round.

Place by place (``least_on_cells``), where all edges are square and all panels rectangles:

- no panel is wider than a panel may be at any place of it, so that u is no less than one over that there;
- on a level chord there are no fewer panels than fill it;
- in each panel u is at least v / k, and v at least u / k.

How wide a panel may be at a place is the reach along level chords, or k times how high it may be, if that is less: the
reach along the upright chord there, or the whole of this chord. All of that is linear, and holds for sums over cells as
well: where a level and an upright trapezoid of chords meet, nothing of it changes. So the least sum of u and v over the
cells, less what the chords are, is no more than the joints of any layout. Any prices of the conditions prove it, if no
cell costs more than it counts by them: those of the solver are made small enough for that.
"""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.bounds.chords import Chords
from kerfline.engine.partition.set_partition import silent_solver
from kerfline.geometry.arrays import Integers, Numbers
from kerfline.geometry.tolerance import MEASURE, SAME

MOST_CELLS = 1500
"""Cells beyond which a part is left to what holds over the whole of it."""

MOST_ITERATIONS = 20_000
"""Steps of the solver, after which its prices are taken as they are."""

Pair = tuple[float, float]
"""Of the upright joints, and of the level ones, mm."""

Reach = tuple[Numbers, Numbers]
"""How far (mm) a panel may reach along the chords of each trapezoid: of level ones, and of upright ones."""


def coupled(joints: Pair, chords: tuple[Chords, Chords], aspect: float) -> Pair:
    """The least length of the joints across each direction, by the aspect over the whole of a part, mm.

    Args:
        joints: What is known of it, mm.
        chords: The level chords of the part, and the upright ones (with x for y).
        aspect: The greatest aspect; infinite where nothing follows from it.
    """
    (upright, level), (high, wide) = joints, (float(c.high.sum()) for c in chords)
    return (
        max(upright, (level + wide) / aspect - high),
        max(level, (upright + high) / aspect - wide),
    )


def least_on_cells(
    joints: Pair, chords: tuple[Chords, Chords], reach: Reach, aspect: float
) -> float:
    """The least length of joints in a part of square edges, by the aspect place by place; 0 where it has many cells, mm.

    Args:
        joints: What is known of the joints across each direction, mm.
        chords: The level chords of the part, and the upright ones (with x for y).
        reach: How far a panel may reach along them.
        aspect: The greatest aspect.
    """
    if max(len(own.high) for own in chords) > MOST_CELLS:
        return 0.0
    cells = _Cells.between(*chords)
    count, rows, low = len(cells.area), _Rows(), []
    if not 0 < count <= MOST_CELLS:
        return 0.0
    for n, own in enumerate(chords):
        other = chords[1 - n]
        columns = np.arange(count) + n * count
        rows.add(columns, 1.0, joints[n] + float(own.high.sum()))
        across = np.minimum(reach[1 - n], other.lengths[:, 0])[cells.of[1 - n]]
        limits = np.minimum(reach[n][cells.of[n]], aspect * across)
        low.append(cells.area / (limits + MEASURE))
        for which in cells.along(n):
            places = np.append(cells.starts[n][which], cells.ends[n][which[-1:]])
            panels = fewest(places, limits[which])
            rows.add(columns[which], 1.0, panels * float(own.high[cells.of[n][which[0]]]))
    for cell in range(count):
        for pair in ((cell, count + cell), (count + cell, cell)):
            rows.add(np.array(pair), np.array([1.0, -1.0 / aspect]), 0.0)
    met = sum(float(own.high.sum()) for own in chords)
    return max(0.0, rows.proven(np.concatenate(low)) - met)


def fewest(places: Numbers, limits: Numbers) -> int:
    """The fewest panels that fill a chord, each no longer than the limit at any place of it.

    Args:
        places: Ends of the stretches of the chord.
        limits: Greatest length of a panel that covers some of each stretch.
    """
    if places[-1] - places[0] <= limits.min() + MEASURE:
        return 1
    count, at = 0, float(places[0])
    while at < places[-1] - MEASURE:
        count += 1
        first = int(np.searchsorted(places, at + MEASURE, side="right")) - 1
        reach = at + np.minimum.accumulate(limits[first:])
        ends = np.minimum(np.maximum(reach, places[first:-1]), places[first + 1 :])
        stays = np.flatnonzero(ends < places[first + 1 :])
        at = float(ends[stays[0]]) if len(stays) else float(places[-1])
    return count


@dataclass(frozen=True)
class _Cells:
    """Where level and upright chords meet.

    Attributes:
        of: The trapezoid of level chords of each cell, and that of upright ones.
        starts: Where each begins along level chords, and along upright ones, mm.
        ends: Where it ends.
    """

    of: tuple[Integers, Integers]
    starts: tuple[Numbers, Numbers]
    ends: tuple[Numbers, Numbers]

    @property
    def area(self) -> Numbers:
        """Of each, mm2."""
        (x0, y0), (x1, y1) = self.starts, self.ends
        return np.asarray((x1 - x0) * (y1 - y0))

    @staticmethod
    def between(level: Chords, upright: Chords) -> "_Cells":
        """The cells of a figure, all of whose chords are those of rectangles."""
        x0 = np.maximum(level.starts[:, :1], upright.heights[:, 0])
        x1 = np.minimum(level.ends[:, :1], upright.heights[:, 1])
        y0 = np.maximum(level.heights[:, :1], upright.starts[:, 0])
        y1 = np.minimum(level.heights[:, 1:], upright.ends[:, 0])
        one, other = np.nonzero((x1 - x0 > SAME) & (y1 - y0 > SAME))
        at = (one, other)
        return _Cells(at, (x0[at], y0[at]), (x1[at], y1[at]))

    def along(self, axis: int) -> list[Integers]:
        """The numbers of the cells of each trapezoid of chords along an axis, in their order."""
        order = np.lexsort((self.starts[axis], self.of[axis]))
        return np.split(order, np.flatnonzero(np.diff(self.of[axis][order])) + 1)


class _Rows:
    """The conditions of a linear programme: sums of columns that are no less than something."""

    def __init__(self) -> None:
        """None yet."""
        self.columns: list[Integers] = []
        self.values: list[Numbers] = []
        self.least: list[float] = []

    def add(self, columns: Integers, values: Numbers | float, least: float) -> None:
        """One more condition."""
        self.columns.append(columns)
        self.values.append(np.broadcast_to(values, columns.shape))
        self.least.append(least)

    def proven(self, low: Numbers) -> float:
        """What prices of them prove of the least sum of all columns, none of which is less than that."""
        starts = np.cumsum([0, *(len(columns) for columns in self.columns)])
        columns, values = np.concatenate(self.columns), np.concatenate(self.values)
        least = np.array(self.least)
        prices = np.maximum(_prices(starts, columns, values, least, low), 0.0)
        costs = np.bincount(columns, values * np.repeat(prices, np.diff(starts)), len(low))
        most = max(1.0, float(costs.max()))
        return float(least @ prices / most + low @ np.maximum(1.0 - costs / most, 0.0))


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
