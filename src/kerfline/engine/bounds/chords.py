"""The chords of a figure along an axis, and the joints that must cross them, wherever they lie.

Here chords are level; those of the other axis are seen with x for y. Between two neighbouring heights of corners they
are those of trapezoids, whose length changes evenly.

Proof. Where no panel takes more than the reach of a chord, one of length c between two edges is crossed by at least
ceil(c / reach) - 1 joints, and joints that cross chords over a height h, whatever their slope, are at least h long each.
The heights over which k joints must cross a trapezoid are known exactly.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.regions.region import X
from kerfline.geometry.arrays import Integers, Numbers, Shapes
from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import MEASURE, SAME


@dataclass(frozen=True)
class Chords:
    """The chords of a figure, as trapezoids.

    Attributes:
        heights: Where each trapezoid begins and ends (n x 2, mm).
        starts: Where its chords begin at the one height and at the other (n x 2, mm).
        ends: Where they end.
    """

    heights: Numbers
    starts: Numbers
    ends: Numbers

    @property
    def high(self) -> Numbers:
        """Of each trapezoid, mm."""
        return np.asarray(self.heights[:, 1] - self.heights[:, 0])

    @property
    def lengths(self) -> Numbers:
        """Of its chords at the one height and at the other, mm."""
        return self.ends - self.starts

    @property
    def square(self) -> bool:
        """Whether all are rectangles."""
        return bool((np.abs(np.diff(np.stack([self.starts, self.ends]))) <= SAME).all())


def chords_of(pieces: Numbers, figure: Area, axis: int = X, levels: Sequence[float] = ()) -> Chords:
    """The chords of a figure along an axis.

    Args:
        pieces: Pieces of line (n x 2 x 2, mm) at which chords end, the boundary of the figure among them; they meet
            at their ends alone.
        figure: The figure.
        axis: The axis; along the other one they are level with x for y.
        levels: Further heights at which trapezoids are to end.
    """
    seen = pieces if axis == X else pieces[:, :, ::-1]
    rising = np.where((seen[:, 0, 1] > seen[:, 1, 1])[:, None, None], seen[:, ::-1], seen)
    rising = rising[rising[:, 0, 1] < rising[:, 1, 1]]
    at = np.unique(np.append(rising[:, :, 1], levels))
    bands = np.column_stack([at[:-1], at[1:]])
    bands = bands[bands[:, 1] - bands[:, 0] > SAME]
    band, at = _crossings(rising, bands)
    one = np.flatnonzero(band[1:] == band[:-1])
    middle = np.column_stack([(at[one, 1] + at[one + 1, 1]) / 2, bands[band[one]].mean(axis=1)])
    shapely.prepare(figure)
    inside = shapely.contains_xy(figure, middle if axis == X else middle[:, ::-1])
    one = one[inside]
    return Chords(bands[band[one]], at[one][:, [0, 2]], at[one + 1][:, [0, 2]])


def pieces_of(lines: Shapes | Sequence[LineString]) -> Numbers:
    """The straight pieces of some lines (n x 2 x 2, mm)."""
    at, line = shapely.get_coordinates(lines, return_index=True)
    on = line[1:] == line[:-1]
    return np.stack([at[:-1][on], at[1:][on]], axis=1)


def _crossings(rising: Numbers, bands: Numbers) -> tuple[Integers, Numbers]:
    """Which pieces of line reach over which bands: the band, and where it is crossed low, amid and high.

    They come band by band, from left to right.
    """
    low, high = bands.T
    first = np.searchsorted(low, rising[:, 0, 1])
    count = np.maximum(np.searchsorted(high, rising[:, 1, 1], "right") - first, 0)
    piece = np.repeat(np.arange(len(rising)), count)
    band = np.arange(len(piece)) + np.repeat(first - np.cumsum(count) + count, count)
    (x0, y0), (x1, y1) = rising[piece].transpose(1, 2, 0)[..., None]
    levels = np.column_stack([low, bands.mean(axis=1), high])[band]
    at = x0 + (x1 - x0) * (levels - y0) / (y1 - y0)
    order = np.lexsort((at[:, 1], band))
    return band[order], np.asarray(at[order])


def least_crossing(chords: Chords, reach: Numbers) -> float:
    """The least length of joints that cross some chords, mm.

    Args:
        chords: The chords.
        reach: How far a panel may reach along those of each trapezoid, mm.
    """
    shortest, longest = np.sort(chords.lengths, axis=1).T
    slope, limit = np.maximum(longest - shortest, SAME), reach + MEASURE
    shares = np.zeros(len(longest))
    for times in range(1, int((longest / limit).max(initial=0.0)) + 1):
        shares += np.clip((longest - times * limit) / slope, 0.0, 1.0)
    return float(chords.high @ shares)
