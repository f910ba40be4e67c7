"""What each rectangle costs: its share of the joints around it, its shape, its evenness, and the rules it breaks."""

from itertools import pairwise

import numpy as np

from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels, inner_sum, side_sums
from kerfline.engine.regions.features import CLEAR_OF, is_opening, model_corners, worth
from kerfline.engine.regions.region import MERGE, Region, X, Y, along_axis
from kerfline.engine.regions.walls import BESIDE_REACH, STUB, strip_half
from kerfline.geometry.arrays import Flags, Integers, Numbers
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.slab import Meeting

MOSTLY = 0.5
"""A wall under this share of a piece of line divides the span there."""

MORE_BAYS = 1
"""A span may be divided into the least number of bays and up to this many more at no charge."""

DIGITS = 2
"""Digits of a millimetre to which costs are told."""

HALF = 0.5
"""Two panels share a joint."""

HALF_OF_FOUR = 2
"""Cells of the four around a vertex on a straight edge."""


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
    """Pieces of an axis's lines where a free span ends: at the boundary and at walls."""
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
    for corner in model_corners(region):
        out[int(np.argmin(np.abs(grid.places[axis] - corner[axis])))] = True
    return out


def _departure(grid: Grid, region: Region, panels: Panels, axis: int, dividers: Flags) -> Numbers:
    """Relative departure of each panel's size on one axis from the module of its free span.

    The number of bays is what the span asks for, or what the aspect asks for beside the panel's other
    side. One bay is even too, also where it is a little over the advised span.
    """
    start, end = _free_span(dividers, panels, axis)
    reach = grid.places[axis][end] - grid.places[axis][start]
    size, across = panels.size[axis], panels.size[1 - axis]
    limits = (panels.span, np.minimum(panels.span, region.working.aspect * across))
    counts = [np.maximum(np.ceil((reach - MEASURE) / limit), 1.0) for limit in limits]
    off = [np.abs(size * (n + k) / reach - 1.0) for n in counts for k in range(MORE_BAYS + 1)]
    one_bay = reach <= panels.span * region.stretch + MEASURE
    whole = np.where(one_bay, np.abs(size / reach - 1.0), np.inf)
    return np.asarray(np.minimum.reduce([whole, *off]))


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


def panel_costs(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    """The cost of each panel, mm of joint, to so many digits that last bits decide nothing."""
    price = cost_on(region, weights)
    whole = np.asarray(
        _joints(grid, panels)
        + price.of(panels.shape, panels.span)
        + feet(weights.uneven) * departures(grid, region, panels)
        + _bare_walls(grid, panels, weights)
        + _bearing_walls(grid, region, panels, weights)
        + _columns(grid, region, panels, weights)
        + _penetrations(grid, region, panels, weights)
        + _landings(grid, region, panels, weights)
        + _corners(grid, region, panels, weights)
        + _passed_corners(grid, region, panels, weights)
        + feet(weights.corner) * _passed_nooks(grid, region, panels)
    )
    return np.asarray(np.round(whole, DIGITS))


def breaks_nothing(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Flags:
    """Panels that keep every rule, leave no wall bare and hold no column inside."""
    free = cost_on(region, weights).keeps(panels.shape) & (_bare_length(grid, panels) <= STUB)
    for column in region.columns:
        if not is_opening(column, region):
            free &= ~_strictly_inside(grid, panels, column.at, TOUCH)
            free &= ~_amid_edge(grid, panels, _snapped(grid, column.at, MERGE))
    for at in jog_corners(grid, region):
        free &= ~_on_side(grid, panels, at)
    free &= _passed_nooks(grid, region, panels) == 0
    return np.asarray(free, dtype=bool)


def _joints(grid: Grid, panels: Panels) -> Numbers:
    return np.asarray(
        sum(HALF * s for axis in (X, Y) for s in side_sums(grid.price[axis], panels, axis))
    )


def _bare_length(grid: Grid, panels: Panels) -> Numbers:
    bare = inner_sum(grid.wall[X], panels, X) + inner_sum(grid.wall[Y], panels, Y)
    return np.asarray(np.maximum(bare - _served_beside(grid, panels, short=False), 0.0))


def _owed(grid: Grid, panels: Panels) -> Numbers:
    """What the walls in each panel cost that no joint serves, mm of joint."""
    owed = inner_sum(grid.owed[X], panels, X) + inner_sum(grid.owed[Y], panels, Y)
    served = _served_beside(grid, panels, short=False, priced=True)
    return np.asarray(np.maximum(owed - served, 0.0))


def _served_beside(grid: Grid, panels: Panels, *, short: bool, priced: bool = False) -> Numbers:
    """Length of wall inside each panel that a side of it serves, though another line lies nearer to the wall.

    Or what that length would cost if none did, mm of joint.
    """
    out = np.zeros(len(panels))
    for part in (p for p in grid.beside if p.short is short):
        low, high = panels.low[part.axis], panels.high[part.axis]
        holds = (low < part.line) & (part.line < high) & ((low >= part.first) | (high <= part.last))
        if holds.any():
            along = np.concatenate([[0.0], np.cumsum(part.lengths)])
            ends = (panels.high[1 - part.axis], panels.low[1 - part.axis])
            length = np.where(holds, along[ends[0]] - along[ends[1]], 0.0)
            out += part.rate * length if priced else length
    return out


def _bare_walls(grid: Grid, panels: Panels, weights: Weights) -> Numbers:
    bare = _bare_length(grid, panels)
    wished = inner_sum(grid.wish[X], panels, X) + inner_sum(grid.wish[Y], panels, Y)
    wished = np.maximum(wished - _served_beside(grid, panels, short=True), 0.0)
    duty = np.where(bare > STUB, _owed(grid, panels), weights.tee * bare)
    return np.asarray(duty + weights.wall_short * wished)


def _bearing_walls(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    """A strip inside a panel wants a joint beside it, on either side."""
    out = np.zeros(len(panels))
    for wall in (w for w in region.walls if not w.takes_joint):
        for start, end in pairwise(wall.path):
            axis = along_axis(start, end)
            if axis is None:
                continue
            at, half = (start[axis] + end[axis]) / 2, strip_half(wall)
            low, high = grid.places[axis][panels.low[axis]], grid.places[axis][panels.high[axis]]
            holds = (low < at - half + CLEAR_OF) & (high > at + half - CLEAR_OF)
            met = (low > at - half - BESIDE_REACH) | (high < at + half + BESIDE_REACH)
            first, last = sorted((start[1 - axis], end[1 - axis]))
            stops = grid.places[1 - axis]
            along = np.minimum(stops[panels.high[1 - axis]], last) - np.maximum(
                stops[panels.low[1 - axis]], first
            )
            bare = np.where(holds & ~met, np.maximum(along, 0.0), 0.0)
            out += cost_on(region, weights).bare(bare, wall.line.length)
    return out


def _strictly_inside(grid: Grid, panels: Panels, at: Point, margin: float) -> Flags:
    """Panels that hold a point, further from their sides than a margin."""
    inside = np.ones(len(panels), dtype=bool)
    for axis in (X, Y):
        place = at[axis]
        inside &= grid.places[axis][panels.low[axis]] < place - margin
        inside &= grid.places[axis][panels.high[axis]] > place + margin
    return inside


def _snapped(grid: Grid, at: Point, reach: float) -> Point:
    """A point moved onto the lines that lie within a reach of it."""
    out = []
    for axis in (X, Y):
        firm = grid.firm[axis]
        nearest = float(firm[int(np.argmin(np.abs(firm - at[axis])))])
        out.append(nearest if abs(nearest - at[axis]) <= reach + TOUCH else at[axis])
    return out[0], out[1]


def _on_side(grid: Grid, panels: Panels, at: Point) -> Flags:
    """Panels that have a point on a side, not at a corner."""
    on, within = [], []
    for axis in (X, Y):
        low, high = grid.places[axis][panels.low[axis]], grid.places[axis][panels.high[axis]]
        on.append((np.abs(low - at[axis]) <= TOUCH) | (np.abs(high - at[axis]) <= TOUCH))
        within.append((low < at[axis] - TOUCH) & (high > at[axis] + TOUCH))
    return np.asarray((on[X] & within[Y]) | (on[Y] & within[X]), dtype=bool)


def _columns(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    """Joints should cross at a column; one that only passes it leaves two of its points bare.

    To a column in the slab's edge a joint should run, for a crack will.
    """
    out = np.zeros(len(panels))
    for column in region.columns:
        if is_opening(column, region):
            continue
        at = _snapped(grid, column.at, MERGE)
        in_edge = _amid_edge(grid, panels, at)
        out += feet(weights.column_inside) * (_strictly_inside(grid, panels, at, TOUCH) | in_edge)
        side = weights.column_points if column.points else weights.column_side
        out += HALF * feet(side) * (_on_side(grid, panels, at) & ~in_edge)
    return out


def _amid_edge(grid: Grid, panels: Panels, at: Point) -> Flags:
    """Panels with a point amid a side that is the slab's edge: no joint reaches it there."""
    return _on_side(grid, panels, at) & _is_in_edge(grid, at)


def _is_in_edge(grid: Grid, at: Point) -> bool:
    """Whether a point lies amid a straight edge of the grid's slab."""
    i, j = (int(np.argmin(np.abs(grid.places[a] - at[a]))) for a in (X, Y))
    if max(abs(grid.places[X][i] - at[X]), abs(grid.places[Y][j] - at[Y])) > TOUCH:
        return False
    around = _around(grid.inside, i, j)
    straight = around[0, 0] == around[1, 0] or around[0, 0] == around[0, 1]
    return bool(around.sum() == HALF_OF_FOUR and straight)


def _penetrations(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    """Joints run through a penetration or keep clear of it."""
    out = np.zeros(len(panels))
    for hole in region.penetrations:
        radius = max(hole.diameter / 2, TOUCH)
        inside = _strictly_inside(grid, panels, hole.at, radius)
        clear = _strictly_inside(grid, panels, hole.at, max(hole.clear, radius))
        out += feet(worth(hole, weights)) * inside + feet(weights.penetration_near) * (
            inside & ~clear
        )
        if hole.meeting is Meeting.CLEAR:
            touched = ~inside & _strictly_inside(grid, panels, hole.at, -radius)
            out += HALF * feet(weights.penetration) * touched
    return out


def _landings(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    """A joint of a neighbouring region that arrives in the middle of a panel's side ends in a tee."""
    out = np.zeros(len(panels))
    for place in region.landings:
        at = _snapped(grid, place, MERGE)
        out += feet(weights.landing) * _on_side(grid, panels, at)
    return out


def jog_corners(grid: Grid, region: Region) -> list[Point]:
    """Re-entrant corners that the squared outline has lost, as the grid has them.

    A jog smaller than the merge distance is one straight edge in the grid; its re-entrant corner still
    wants a joint, square to that edge.
    """
    out = []
    for corner in model_corners(region):
        at = _snapped(grid, corner, MERGE)
        if _is_in_edge(grid, at):
            out.append(at)
    return out


def _around(inside: Flags, i: int, j: int) -> Flags:
    padded = np.pad(inside, 1)
    return np.asarray(padded[i : i + 2, j : j + 2])


def _corners(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    out = np.zeros(len(panels))
    for at in jog_corners(grid, region):
        out += feet(weights.corner) * _on_side(grid, panels, at)
    return out


def _passed_corners(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Numbers:
    """A panel whose side runs past a re-entrant corner: a joint would better end its row there."""
    out = np.zeros(len(panels))
    for corner in model_corners(region):
        at = _snapped(grid, corner, MERGE)
        out += feet(weights.corner_passed) * _on_side(grid, panels, at)
    return out


def _passed_nooks(grid: Grid, region: Region, panels: Panels) -> Numbers:
    """How many nooks beside each panel have no joint from a corner; one that a joint meets between two is shared."""
    out = np.zeros(len(panels))
    for nook in region.nooks:
        axis, level = nook.axis, int(np.argmin(np.abs(grid.places[1 - nook.axis] - nook.level)))
        beside = (panels.low[1 - axis] == level) | (panels.high[1 - axis] == level)
        low, high = (grid.places[axis][ends[axis]] for ends in (panels.low, panels.high))
        from_first, to_last = low < nook.low - TOUCH, high > nook.high + TOUCH
        ends_within = (high > nook.low + TOUCH) & (high < nook.high - TOUCH)
        begins_within = (low > nook.low + TOUCH) & (low < nook.high - TOUCH)
        whole = from_first & to_last
        part = (from_first & ends_within) | (begins_within & to_last)
        out += beside * (whole + HALF * part)
    return out
