"""The chord bound on a grid: no layout with the same duties has less joint, wherever its other joints lie.

Duties are joints that any layout of the slab owes: under walls, pinned ones, and those that leave a column or a
re-entrant corner, as far as the next joint. Where this layout serves a duty the bound is that of layouts that serve
it so too; a duty that it leaves undone asks for nothing.

The aspect that panels may have is a limit of the same kind: the advised one, or the greatest of this layout where that
is more.

Proof, for joints along the axes of the frame. Take a layout with the duties D among its joints, and a chord along an
axis that D and the edges leave free, from one end to the other. Each panel that the chord runs through is no longer
along it than the span L, nor than the greatest aspect times its height, which is at most L and at most the free height
across the chord at each place of the panel, for no panel reaches over an edge or over D. Panels that follow one
another as long as these allow are as few as any that fill the chord, since what holds for a panel holds for a part of
it. With n of them the chord is crossed by n - 1 joints that are not in D. Added up over all chords of a direction that
is the length of joint across the direction beside D; both directions and D itself make the bound.

Where the outline was squared (by no more than e) a chord is that of the true slab unless it meets a place where the two
differ. One that does may be shorter by 2 e; at its level the slab may have ended already, if that is within e of an edge
along the chord; and no more is known of panels on it than of the highest. Where the free height meets such a place it
may be greater by 2 e, and what it is may hold e farther along the chord. A joint of D that meets such a place may be
shorter by 2 e.
"""

from itertools import pairwise

import numpy as np
import shapely

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.bounds.grid_duties import stops_on
from kerfline.engine.bounds.squared import Box, Squared, squared_off
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Run, runs
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.tolerance import MEASURE


def length_bound(
    grid: Grid,
    region: Region,
    joints: tuple[Flags, Flags],
    stretch: float = 1.0,
    aspect: float | None = None,
) -> float:
    """Least joint length, mm, for any positions along the axes.

    Args:
        grid: The grid.
        region: For the limits.
        joints: The pieces that are joints in the layout; duties that it leaves undone do not count.
        stretch: How many times the span panels may be long.
        aspect: The greatest aspect that panels may have; None for that of the limits.
    """
    stops, spans = stops_on(grid, region, joints), stretch * _spans(grid, region)
    aspect = region.working.aspect if aspect is None else aspect
    squared = squared_off(grid, region)
    total = sum(_crossings(grid, spans, aspect, axis, stops, squared) for axis in (X, Y))
    duties = (stops[X] & grid.interior[X], stops[Y] & grid.interior[Y])
    return float(max(0.0, total + _length_of(grid, duties, squared) - _uncut(region)))


def _uncut(region: Region) -> float:
    """Length that joints through columns save where they cross the boxouts."""
    boxes = [c.outline.polygon.bounds for c in region.columns if c.outline]
    return sum((x1 - x0) + (y1 - y0) for x0, y0, x1, y1 in boxes)


def _length_of(grid: Grid, duties: tuple[Flags, Flags], squared: Squared) -> float:
    """The least length of the duties on the true slab, mm."""
    boxes = [_box_of(grid, run) for run in runs(duties)]
    length = sum(x1 - x0 + y1 - y0 for x0, y0, x1, y1 in boxes)
    return float(length - squared.slack * squared.meets(boxes).sum())


def _box_of(grid: Grid, run: Run) -> Box:
    """The bounds of a stretch of joint."""
    at, along = grid.places[run.axis][run.line], grid.places[1 - run.axis]
    low, high = along[run.first], along[run.last]
    return (at, low, at, high) if run.axis == X else (low, at, high, at)


def _spans(grid: Grid, region: Region) -> Numbers:
    """The span that holds for panels over each cell: that of its zone, the longest of all where one has no joint."""
    out = np.full(grid.inside.shape, region.working.span)
    if not all(zone.joint_at_border for zone in region.zones):
        return np.full_like(
            out, max([region.working.span, *(z.working.span for z in region.zones)])
        )
    x, y = ((grid.places[a][:-1] + grid.places[a][1:]) / 2 for a in (X, Y))
    for zone in region.zones:
        within = shapely.contains_xy(zone.area, *np.meshgrid(x, y, indexing="ij"))
        out[within] = zone.working.span
    return out


def _crossings(
    grid: Grid,
    spans: Numbers,
    aspect: float,
    axis: int,
    stops: tuple[Flags, Flags],
    squared: Squared,
) -> float:
    """Length of joint that the chords along an axis ask for beside the duties across them."""
    span = spans if axis == X else spans.T
    heights = _free_heights(grid, 1 - axis, stops)
    inside = grid.inside if axis == X else grid.inside.T
    chords = [
        (row, *chord)
        for row in range(inside.shape[1])
        for chord in _chords(stops[axis][:, row], inside[:, row])
    ]
    near = squared.meets([_strip(grid, axis, chord) for chord in chords])
    beside = _beside(grid, 1 - axis, stops, squared)
    known = np.minimum(span, aspect * np.minimum(span, heights))
    most = np.minimum(span, aspect * np.minimum(span, heights + squared.slack))
    rows = np.diff(grid.places[1 - axis])
    total = 0.0
    for (row, start, end), off in zip(chords, near.tolist(), strict=True):
        places, own, height = grid.places[axis][start : end + 1], known[start:end, row], rows[row]
        if off:
            own = most[start:end, row].max(keepdims=True)
            places = np.array([places[0], max(places[0], places[-1] - squared.slack)])
            height = max(0.0, height - squared.slack / 2 * _edges(inside[start:end], row))
        elif (changed := beside[start:end, row]).any():
            own = np.where(changed, most[start:end, row], own)
            places, own = _blurred(places, own, squared.slack / 2)
        total += height * (fewest(places, own) - 1)
    return total


def _blurred(places: Numbers, limits: Numbers, by: float) -> tuple[Numbers, Numbers]:
    """Stretches of a chord and their limits where each limit may hold so much (mm) farther both ways."""
    spots = np.unique(np.clip(np.concatenate([places, places - by, places + by]), *places[[0, -1]]))
    middles = (spots[:-1] + spots[1:]) / 2
    reached = (places[:-1, None] - by < middles) & (middles < places[1:, None] + by)
    return spots, np.where(reached, limits[:, None], 0.0).max(axis=0)


def _edges(inside: Flags, row: int) -> int:
    """On how many of its two sides a row of cells has an edge of the slab somewhere."""
    count = inside.shape[1]
    return sum(not (0 <= other < count and inside[:, other].all()) for other in (row - 1, row + 1))


Chord = tuple[int, int, int]
"""The row of a chord, and the lines of the axis along it where it begins and ends."""


def _strip(grid: Grid, axis: int, chord: Chord) -> Box:
    """The bounds of all chords along an axis in one row between two lines."""
    row, start, end = chord
    low, high = grid.places[1 - axis][row : row + 2]
    first, last = grid.places[axis][start], grid.places[axis][end]
    return (first, low, last, high) if axis == X else (low, first, high, last)


def _beside(grid: Grid, axis: int, stops: tuple[Flags, Flags], squared: Squared) -> Flags:
    """For each cell whether the free chord through it along an axis meets a place that was squared.

    Returns:
        As [line of other axis, row].
    """
    inside = grid.inside if axis == X else grid.inside.T
    out = np.zeros(inside.shape, dtype=bool)
    for row in range(inside.shape[1]):
        chords = _chords(stops[axis][:, row], inside[:, row])
        near = squared.meets([_strip(grid, axis, (row, *chord)) for chord in chords])
        for start, end in np.array(chords, dtype=np.int64).reshape(-1, 2)[near].tolist():
            out[start:end, row] = True
    return out.T


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
    return max(count, 1)


def _chords(stops: Flags, inside: Flags) -> list[tuple[int, int]]:
    marks = np.flatnonzero(stops)
    return [(int(a), int(b)) for a, b in pairwise(marks) if inside[a]]


def _free_heights(grid: Grid, axis: int, stops: tuple[Flags, Flags]) -> Numbers:
    """For each cell the free chord through it along an axis, as [line of other axis, row]."""
    inside = grid.inside if axis == X else grid.inside.T
    out = np.zeros(inside.shape)
    for row in range(inside.shape[1]):
        for start, end in _chords(stops[axis][:, row], inside[:, row]):
            out[start:end, row] = grid.places[axis][end] - grid.places[axis][start]
    return out.T
