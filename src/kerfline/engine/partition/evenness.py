"""How far each panel departs from the even division of the free spans that it lies in."""

import numpy as np

from kerfline.engine.arrays import Flags, Integers, Numbers
from kerfline.engine.lines.features import is_opening, model_outline
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.tolerance import MEASURE

MOSTLY = 0.5
"""A wall under this share of a piece of line divides the span there."""

MORE_BAYS = 1
"""A span may be divided into the least number of bays and up to this many more at no charge."""


def departures(grid: Grid, region: Region, panels: Panels) -> Numbers:
    """For each panel the sum over both axes of its relative departure from an even bay."""
    out = np.zeros(len(panels))
    for axis in (X, Y):
        walls = _dividers(grid, axis)
        columns = _column_lines(grid, region, axis)
        strong = columns | _corner_lines(grid, region, axis)
        options = [walls, walls | columns, walls | strong]
        out += np.minimum.reduce(
            [_departure(grid, region, panels, axis, dividers) for dividers in options]
        )
    return out


def _dividers(grid: Grid, axis: int) -> Flags:
    """PieceLayout of an axis's lines where a free span ends: at the boundary and at walls."""
    pieces = np.diff(grid.places[1 - axis])
    return ~grid.interior[axis] | (grid.wall[axis] > MOSTLY * pieces) | grid.must[axis]


def _column_lines(grid: Grid, region: Region, axis: int) -> Flags:
    out = np.zeros_like(grid.interior[axis])
    for column in region.columns:
        if not is_opening(column, region):
            out[int(np.argmin(np.abs(grid.places[axis] - column.at[axis])))] = True
    return out


def _corner_lines(grid: Grid, region: Region, axis: int) -> Flags:
    """The lines through re-entrant corners: a joint there may set the bays on either side."""
    out = np.zeros_like(grid.interior[axis])
    for corner in reentrant_corners(model_outline(region)):
        out[int(np.argmin(np.abs(grid.places[axis] - corner.at[axis])))] = True
    return out


def _departure(grid: Grid, region: Region, panels: Panels, axis: int, dividers: Flags) -> Numbers:
    """Relative departure of each panel's size on one axis from the module of its free span.

    The number of bays is what the span asks for, or what the aspect asks for beside the panel's other
    side.
    """
    start, end = _free_span(dividers, panels, axis)
    reach = grid.places[axis][end] - grid.places[axis][start]
    size, across = panels.size[axis], panels.size[1 - axis]
    limits = (panels.span, np.minimum(panels.span, region.working.aspect * across))
    counts = [np.maximum(np.ceil((reach - MEASURE) / limit), 1.0) for limit in limits]
    off = [np.abs(size * (n + k) / reach - 1.0) for n in counts for k in range(MORE_BAYS + 1)]
    return np.asarray(np.minimum.reduce(off))


def _free_span(dividers: Flags, panels: Panels, axis: int) -> tuple[Integers, Integers]:
    """The lines where the free span around each panel begins and ends: the least over its rows."""
    before, after = _nearest(dividers)
    other = 1 - axis
    start = np.zeros(len(panels), dtype=np.int64)
    end = np.full(len(panels), dividers.shape[0] - 1)
    for row in range(dividers.shape[1]):
        spans = (panels.low[other] <= row) & (row < panels.high[other])
        start[spans] = np.maximum(start[spans], before[panels.low[axis][spans], row])
        end[spans] = np.minimum(end[spans], after[panels.high[axis][spans], row])
    return start, end


def _nearest(dividers: Flags) -> tuple[Integers, Integers]:
    """For each line and row the nearest divider at or before it, and at or after it."""
    count = dividers.shape[0]
    index = np.arange(count)[:, None]
    before = np.maximum.accumulate(np.where(dividers, index, 0), axis=0)
    after = np.where(dividers, index, count - 1)[::-1]
    return before, np.minimum.accumulate(after, axis=0)[::-1]
