"""The joints that must cross the level chords of a figure, wherever they lie.

Where a joint is no longer than the reach from the next along an axis, a chord of length c between two edges is crossed
by at least ceil(c / reach) - 1 joints, and joints that cross chords over a height h, whatever their slope, are at
least h long each. Between two neighbouring heights of corners the chords are those of trapezoids, whose length changes
evenly, so that the heights over which k joints must cross are known exactly.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from kerfline.engine.arrays import Integers, Numbers
from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import MEASURE, SAME

Reach = Callable[[Numbers], Numbers]
"""Of chords by their ends (n x 2 x 2, mm), how far (mm) a panel on each may reach along it."""


@dataclass(frozen=True)
class Crossed:
    """Level chords and the joints that must cross them.

    Attributes:
        joints: The least length of joints that cross them, mm.
        chords: Over what height there are chords, each counted, mm.
    """

    joints: float = 0.0
    chords: float = 0.0

    def __add__(self, other: "Crossed") -> "Crossed":
        """Both together."""
        return Crossed(self.joints + other.joints, self.chords + other.chords)


def least_crossing(
    edges: Numbers, figure: Area, reach: Reach, levels: Sequence[float] = ()
) -> Crossed:
    """The least length of joint that crosses the level chords of a figure.

    Args:
        edges: Pieces of line (n x 2 x 2, mm) at which chords end, the boundary of the figure among them; they meet
            at their ends alone.
        figure: The figure.
        reach: How far a panel may reach along a chord.
        levels: Further heights at which that may change.
    """
    rising = np.where((edges[:, 0, 1] > edges[:, 1, 1])[:, None, None], edges[:, ::-1], edges)
    rising = rising[rising[:, 0, 1] < rising[:, 1, 1]]
    bands = _bands(np.unique(np.append(rising[:, :, 1], levels)))
    band, at = _crossings(rising, bands)
    one = np.flatnonzero(band[1:] == band[:-1])
    middle = bands[band[one]].mean(axis=1)
    starts, stops = (np.column_stack([at[n, 1], middle]) for n in (one, one + 1))
    shapely.prepare(figure)
    inside = np.asarray(shapely.contains_xy(figure, (starts + stops) / 2), dtype=bool)
    widths = np.sort((at[one + 1] - at[one])[inside][:, [0, 2]], axis=1)
    chords = np.stack([starts, stops], axis=1)[inside]
    high = np.diff(bands[band[one]][inside], axis=1)[:, 0]
    joints = _shares(widths, reach(chords))
    return Crossed(float((high * joints).sum()), float(high.sum()))


def _bands(heights: Numbers) -> Numbers:
    """From each height (n, mm) to the next (k x 2), those that all but coincide left out."""
    bands = np.column_stack([heights[:-1], heights[1:]])
    return np.asarray(bands[bands[:, 1] - bands[:, 0] > SAME])


def _crossings(rising: Numbers, bands: Numbers) -> tuple[Integers, Numbers]:
    """Which pieces of line reach over which bands: the band, and where it is crossed low, amid and high.

    They come band by band, from left to right.
    """
    low, high = bands.T
    first = np.searchsorted(low, rising[:, 0, 1])
    count = np.maximum(np.searchsorted(high, rising[:, 1, 1], "right") - first, 0)
    piece = np.repeat(np.arange(len(rising)), count)
    band = np.arange(len(piece)) + np.repeat(first - np.cumsum(count) + count, count)
    levels = np.column_stack([low, bands.mean(axis=1), high])[band]
    at = np.column_stack([_places(rising[piece], level) for level in levels.T])
    order = np.lexsort((at[:, 1], band))
    return band[order], at[order]


def _places(edges: Numbers, levels: Numbers) -> Numbers:
    """Where edges cross levels that they reach over, one each."""
    (x0, y0), (x1, y1) = edges[:, 0].T, edges[:, 1].T
    return np.asarray(x0 + (x1 - x0) * (levels - y0) / (y1 - y0))


def _shares(widths: Numbers, reach: Numbers) -> Numbers:
    """How many joints must cross trapezoids, a joint over a part of the height counting as that part.

    Args:
        widths: The shortest and the longest chord of each.
        reach: How far a panel may reach in it.
    """
    shortest, longest = widths.T
    total = np.zeros(len(widths))
    limit = reach + MEASURE
    for times in range(1, int((longest / limit).max(initial=0.0)) + 1):
        beyond = longest - times * limit
        slope = np.maximum(longest - shortest, SAME)
        total += np.clip(beyond / slope, 0.0, 1.0)
    return total
