"""How far the true outline of a surveyed slab lies beyond the squared one, piece by piece."""

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.arrays import Flags, Integers, Numbers
from kerfline.engine.partition.grid import Grid
from kerfline.engine.regions.region import X, Y
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import SAME, TOUCH

DEPTH = 1000.0
"""How far beyond the squared outline the true one is looked for, mm."""

Ends = tuple[Numbers, Numbers]
"""For the low and for the high end of panels: a value for each piece of each line of an axis."""


def overshoots(grid: Grid, outline: Polygon) -> tuple[Ends, Ends] | None:
    """The overshoot at every boundary piece, mm, for both axes; None where there is none."""
    found = (_ends(grid, outline, X), _ends(grid, outline, Y))
    worst = max(float(side.max(initial=0.0)) for ends in found for side in ends)
    return found if worst > TOUCH else None


def _ends(grid: Grid, outline: Polygon, axis: int) -> Ends:
    inside = grid.inside if axis == X else grid.inside.T
    padded = np.pad(inside, ((1, 1), (0, 0)))
    low = _beyond(grid, outline, axis, padded[1:] & ~padded[:-1], -1.0)
    high = _beyond(grid, outline, axis, padded[:-1] & ~padded[1:], 1.0)
    return low, high


def _beyond(grid: Grid, outline: Polygon, axis: int, edges: Flags, way: float) -> Numbers:
    """How far the slab goes on beyond each boundary piece, towards one side."""
    out = np.zeros(edges.shape)
    at, stops = grid.places[axis], grid.places[1 - axis]
    for line, piece in np.argwhere(edges):
        start, end = stops[piece] + SAME, stops[piece + 1] - SAME
        if start >= end:  # lines a hair apart: nothing lies between them
            continue
        near, far = sorted((at[line], at[line] + way * DEPTH))
        frame = (near, start, far, end) if axis == X else (start, near, end, far)
        for part in polygons_of(shapely.clip_by_rect(outline, *frame)):
            low, high = part.bounds[axis], part.bounds[axis + 2]
            if abs((low if way > 0 else high) - at[line]) <= TOUCH:
                out[line, piece] = max(out[line, piece], high - low)
    return out


def added(
    ends: Ends, low: tuple[Integers, Integers], high: tuple[Integers, Integers], axis: int
) -> Numbers:
    """What the overshoots add to the extent of panels along an axis, mm."""
    before = np.zeros(len(low[axis]))
    after = np.zeros(len(low[axis]))
    for piece in np.flatnonzero((ends[0] > 0).any(axis=0) | (ends[1] > 0).any(axis=0)):
        here = (low[1 - axis] <= piece) & (piece < high[1 - axis])
        before[here] = np.maximum(before[here], ends[0][low[axis][here], piece])
        after[here] = np.maximum(after[here], ends[1][high[axis][here], piece])
    return before + after
