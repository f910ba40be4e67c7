"""The cells of a part of a region whose edges and duties all run along two directions."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.arrays import Flags, Numbers
from kerfline.geometry.tolerance import SAME, TOUCH

MOST_CELLS = 1500
"""Cells beyond which a part is left as it is."""


@dataclass(frozen=True)
class LevelRun:
    """A level chord through a row of cells.

    Attributes:
        row: The row.
        first: The line where it begins.
        last: The line where it ends.
    """

    row: int
    first: int
    last: int


@dataclass(frozen=True)
class Cells:
    """Cells between upright and level lines.

    Attributes:
        places: Places of the lines, upright ones and level ones, mm.
        inside: Whether each is concrete, as [upright line, level line].
        stops: Whether a level chord ends at a piece of upright line, as [upright line, level line], and an upright
            chord at one of a level line, as [level line, upright line].
    """

    places: tuple[Numbers, Numbers]
    inside: Flags
    stops: tuple[Flags, Flags]

    @property
    def turned(self) -> "Cells":
        """The same with upright for level."""
        return Cells(self.places[::-1], self.inside.T, self.stops[::-1])

    @property
    def heights(self) -> Numbers:
        """Of the rows, mm."""
        return np.asarray(np.diff(self.places[1]))

    @property
    def areas(self) -> Numbers:
        """Of each, mm2."""
        return np.outer(np.diff(self.places[0]), self.heights)

    def level_runs(self) -> list[LevelRun]:
        """The level chords, row by row."""
        return [
            LevelRun(row, first, last)
            for row in range(self.inside.shape[1])
            for first, last in pairwise(np.flatnonzero(self.stops[0][:, row]).tolist())
            if self.inside[first, row]
        ]

    def under(self, panel: Polygon) -> Flags:
        """Which cells the bounds of a panel reach into."""
        x0, y0, x1, y1 = panel.bounds
        x, y = self.places
        along = (x[1:] > x0 + TOUCH) & (x[:-1] < x1 - TOUCH)
        over = (y[1:] > y0 + TOUCH) & (y[:-1] < y1 - TOUCH)
        return along[:, None] & over


def cells_of(figure: Polygon, pieces: Numbers, panels: Sequence[Polygon]) -> Cells | None:
    """The cells between edges, duties and the bounds of panels; None where an edge or a duty is on the slant, or many.

    Args:
        figure: The concrete.
        pieces: Pieces of edge and of duties (n x 2 x 2, mm).
        panels: The panels on it.
    """
    if (np.abs(pieces[:, 1] - pieces[:, 0]).min(axis=1) > SAME).any():
        return None
    bounds = shapely.bounds(list(panels)).reshape(-1, 4)
    places = [
        _apart(np.append(pieces[:, :, axis].ravel(), bounds[:, axis::2].ravel())) for axis in (0, 1)
    ]
    x, y = ((at[:-1] + at[1:]) / 2 for at in places)
    if len(x) * len(y) > MOST_CELLS:
        return None
    inside = shapely.contains_xy(figure, *np.meshgrid(x, y, indexing="ij"))
    return Cells(
        places=(places[0], places[1]),
        inside=np.asarray(inside, dtype=bool),
        stops=(_stops(pieces, places, 0), _stops(pieces, places, 1)),
    )


def _apart(places: Numbers) -> Numbers:
    """Places in order, of those that are the same the first."""
    ordered = np.unique(places)
    return np.asarray(ordered[np.append(True, np.diff(ordered) > SAME)])


def _stops(pieces: Numbers, places: Sequence[Numbers], axis: int) -> Flags:
    """Which pieces of the lines across an axis lie on an edge or a duty, as [line, piece]."""
    own, other = places[axis], places[1 - axis]
    out = np.zeros((len(own), len(other) - 1), dtype=bool)
    across = np.abs(pieces[:, 1, axis] - pieces[:, 0, axis]) <= SAME
    for piece in pieces[across]:
        line = int(np.argmin(np.abs(own - piece[0, axis])))
        low, high = (int(np.argmin(np.abs(other - at))) for at in np.sort(piece[:, 1 - axis]))
        out[line, low:high] = True
    return out
