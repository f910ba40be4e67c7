"""The joints that must cross the level chords of a figure, wherever they lie.

Where a joint is no longer than the reach from the next along an axis, a chord of length c between two edges is crossed
by at least ceil(c / reach) - 1 joints, and joints that cross chords over a height h, whatever their slope, are at
least h long each. Between two neighbouring heights of corners the chords are those of trapezoids, whose length changes
evenly, so that the heights over which k joints must cross are known exactly.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from kerfline.engine.arrays import Numbers
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
    shapely.prepare(figure)
    heights = np.unique(np.append(rising[:, :, 1], levels))
    found = [
        _crossing_between(rising, figure, reach, low, high)
        for low, high in pairwise(heights.tolist())
        if high - low > SAME
    ]
    return sum(found, Crossed())


def _crossing_between(
    rising: Numbers, figure: Area, reach: Reach, low: float, high: float
) -> Crossed:
    """The same between two heights that no corner lies between."""
    here = rising[(rising[:, 0, 1] <= low) & (rising[:, 1, 1] >= high)]
    middle = (low + high) / 2
    at = np.column_stack([_places(here, level) for level in (low, middle, high)])
    at = at[np.argsort(at[:, 1], kind="stable")]
    level = np.full(max(len(at) - 1, 0), middle)
    starts, stops = (np.column_stack([at[n, 1], level]) for n in (slice(-1), slice(1, None)))
    inside = np.asarray(shapely.contains_xy(figure, (starts + stops) / 2), dtype=bool)
    widths = np.sort(np.diff(at, axis=0)[inside][:, [0, 2]], axis=1)
    chords = np.stack([starts, stops], axis=1)[inside]
    joints = float(_shares(widths, reach(chords)).sum())
    return Crossed((high - low) * joints, (high - low) * len(chords))


def _places(edges: Numbers, level: float) -> Numbers:
    """Where edges cross a level that they reach over."""
    (x0, y0), (x1, y1) = edges[:, 0].T, edges[:, 1].T
    return np.asarray(x0 + (x1 - x0) * (level - y0) / (y1 - y0))


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
