"""The choice of panels as a programme: a set partition, of which joints, tees and chalk lines follow.

A panel is a column that is taken or not. Columns from 0 to 1 follow from it: whether each seam is a joint, whether
a joint stops at a node (a tee), whether a line is snapped at all. They are whole by themselves once the panels are.

Where each cell lies in one panel, a joint is the sum of the panels that lie on one side of it and do not reach
over, whichever the side. Rows of that kind name a panel along its rim only, and are quicker to solve than rows
that name it in every cell; put so, the programme is nearly whole as it stands, and most slabs need no branching.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from kerfline.engine.arrays import Flags, Integers, Numbers

INFINITE = float("inf")


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
        paid = np.concatenate([[0.0], np.cumsum(duals[self.panel_rows])])
        return np.asarray(self.panel_cost - (paid[self.starts[1:]] - paid[self.starts[:-1]]))


def by_panel(panel: Integers, row: Integers, count: int) -> tuple[Integers, Integers]:
    """Pairs (panel, row) as ``starts`` and ``panel_rows`` of so many panels."""
    order = np.lexsort((row, panel))
    starts = np.searchsorted(panel[order], np.arange(count + 1)).astype(np.int64)
    return starts, row[order]
