"""Brings runs from the lines of the grid onto the true slab.

A surveyed slab is never quite square, and corners, columns and walls that share a line lie a few inches
out of it. Each run becomes one straight saw pass through what it must meet exactly, is carried on to
the true edge or to the joint that it ends on, and is cut where a boxout interrupts it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.run_on import onward
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Run
from kerfline.engine.regions.features import is_opening, model_outline
from kerfline.engine.regions.region import HAIR, MERGE, Region, X, along_axis
from kerfline.engine.regions.walls import wall_slack
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH

EXACT = 1e-4
"""How nearly (mm) a joint meets a corner or a column's axis."""

LEAST_RUN = 150.0
"""Anchors closer together than this (mm) do not set the direction of a joint."""

BEYOND = 3 * MERGE
"""How far past the squared outline the true edge is looked for, mm."""

ALL_FOUR = 4
"""Cells around a vertex inside the slab."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """Something that a run must meet.

    Attributes:
        along: Place along the run, mm.
        at: Where the run should be there.
        slack: How far off it may be.
    """

    along: float
    at: float
    slack: float


@dataclass(frozen=True, slots=True)
class Track:
    """The true line of a run: its place as a function of the place along it."""

    along: float
    at: float
    slope: float = 0.0

    def place(self, along: float) -> float:
        """Where the line is at a place along it."""
        return self.at + self.slope * (along - self.along)


Path = tuple[Point, Point]
"""The two ends of a straight joint."""


@dataclass(frozen=True, kw_only=True)
class TrueRun:
    """A run on the true slab.

    Attributes:
        path: Its two ends, mm.
        pieces: The parts of it in concrete.
    """

    path: Path
    pieces: tuple[tuple[Point, ...], ...]


def true_runs(grid: Grid, region: Region, runs: Sequence[Run]) -> list[TrueRun]:
    """Every run as a cut on the true slab."""
    outline = model_outline(region)
    shapely.prepare(outline)
    corners = [c.at for c in reentrant_corners(outline)]
    columns = [c.at for c in region.columns if not is_opening(c, region)]
    tracks = {run: _track(grid, region, run, [*corners, *columns]) for run in runs}
    paths: list[Path] = []
    for run in runs:
        first, last = (
            _end(grid, outline, runs, tracks, run, corners, last=last) for last in (False, True)
        )
        paths.append((first, last))
    out = []
    for path in _carried_on(region.concrete, paths):
        pieces = in_concrete(region.concrete, path)
        if pieces:
            out.append(TrueRun(path=path, pieces=tuple(pieces)))
    return out


def _carried_on(concrete: Polygon, paths: Sequence[Path]) -> list[Path]:
    """Paths whose ends lie in the open run straight on to the next edge or joint.

    The grid squares the outline: where the true edge lies further off than it is looked for, or a slanted track
    misses the end of the joint across, an end by the grid is none on the slab.
    """
    out = list(paths)
    lines = [LineString(path) for path in paths]
    for number, (first, last) in enumerate(paths):
        others = [line for n, line in enumerate(lines) if n != number and out[n][0] != out[n][1]]
        stops = [concrete.boundary, *others]
        head = onward(concrete, last, first, stops, TOUCH)
        out[number] = (head, onward(concrete, first, last, stops, TOUCH))
        lines[number] = LineString(out[number])
    return out


def in_concrete(concrete: Polygon, path: tuple[Point, Point]) -> list[tuple[Point, ...]]:
    """The parts of a path in concrete, in order from its first end; what lies along an edge is no joint."""
    line = LineString(path)
    if line.length <= SAME:
        return []
    band = line.buffer(HAIR, cap_style="flat")
    beside = [x for x in lines_of(concrete.boundary.intersection(band)) if x.length > TOUCH]
    if not beside and concrete.covers(line):
        return [path]
    within = line.intersection(concrete)
    if beside:
        within = within.difference(shapely.union_all(beside).buffer(SAME))
    parts = lines_of(shapely.line_merge(within))
    found = []
    for part in sorted(parts, key=lambda p: line.project(shapely.Point(p.coords[0]))):
        stops = sorted(line.project(shapely.Point(c)) for c in (part.coords[0], part.coords[-1]))
        if stops[1] - stops[0] > TOUCH:
            found.append(tuple(_xy(line.interpolate(s)) for s in stops))
    return found


def _xy(point: shapely.Point) -> Point:
    return (float(point.x), float(point.y))


def _stretch(grid: Grid, run: Run) -> tuple[float, float]:
    """Where a run begins and ends along itself, by the grid."""
    stops = grid.places[1 - run.axis]
    return float(stops[run.first]), float(stops[run.last])


def _track(grid: Grid, region: Region, run: Run, spots: Sequence[Point]) -> Track:
    at = float(grid.places[run.axis][run.line])
    start, end = _stretch(grid, run)
    own = [spot for spot in spots if _is_served(grid, run, spot)]
    exact = _exact_anchors(region, run.axis, at, (start, end), own)
    loose = _wall_anchors(region, run.axis, at, (start, end))
    middle = (start + end) / 2
    for track in _tracks(at, middle, exact, loose):
        if all(abs(track.place(a.along) - a.at) <= a.slack + EXACT for a in (*exact, *loose)):
            return track
    return next(iter(_tracks(at, middle, exact, [])[-1:]), Track(middle, at))


def _is_served(grid: Grid, run: Run, spot: Point) -> bool:
    """Whether no line that something sets is nearer to a corner or a column than the line of a run.

    Another line serves it else: drawn to it, the run would undo the bays that were chosen.
    """
    firm = grid.firm[run.axis]
    away = abs(spot[run.axis] - grid.places[run.axis][run.line])
    return bool((away <= np.abs(firm - spot[run.axis]) + TOUCH).all())


def _tracks(
    at: float, middle: float, exact: Sequence[Anchor], loose: Sequence[Anchor]
) -> list[Track]:
    """Lines to try, the straightest first."""
    out = [Track(middle, at)]
    out.extend(Track(a.along, a.at) for a in exact)
    if loose and not exact:
        out.append(Track(middle, float(np.mean([a.at for a in loose]))))
    for anchors in (exact, [*exact, *loose], loose):
        line = _through(anchors)
        if line:
            out.append(line)
    return out


def _through(anchors: Sequence[Anchor]) -> Track | None:
    """The line through the two anchors furthest apart."""
    if not anchors:
        return None
    low = min(anchors, key=lambda a: a.along)
    high = max(anchors, key=lambda a: a.along)
    if high.along - low.along < LEAST_RUN:
        return None
    return Track(low.along, low.at, (high.at - low.at) / (high.along - low.along))


def _exact_anchors(
    region: Region,
    axis: int,
    at: float,
    stretch: tuple[float, float],
    spots: Sequence[Point],
) -> list[Anchor]:
    """Corners and column axes that a run serves, nooks and pinned joints on it."""
    out = [
        Anchor(p[1 - axis], p[axis], 0.0)
        for p in spots
        if abs(p[axis] - at) <= MERGE and stretch[0] - MERGE <= p[1 - axis] <= stretch[1] + MERGE
    ]
    out.extend(
        Anchor(nook.level, place, 0.0)
        for nook in region.nooks
        for place in (nook.low, nook.high)
        if nook.axis == axis
        and abs(place - at) <= TOUCH
        and stretch[0] - MERGE <= nook.level <= stretch[1] + MERGE
    )
    for joint in region.pinned:
        for start, end in pairwise(joint.path):
            if along_axis(start, end) == axis:
                out.extend(
                    Anchor(p[1 - axis], p[axis], 0.0)
                    for p in (start, end)
                    if abs(p[axis] - at) <= TOUCH
                    and stretch[0] - TOUCH <= p[1 - axis] <= stretch[1] + TOUCH
                )
    return sorted(out, key=lambda a: (a.along, a.at))


def _wall_anchors(
    region: Region, axis: int, at: float, stretch: tuple[float, float]
) -> list[Anchor]:
    """Both ends of the part of every wall that a run lies under: of those that its line serves.

    Other walls nearby draw no joint: their pull would undo the bays that were chosen.
    """
    out = []
    for wall in region.walls:
        slack = wall_slack(wall)
        for start, end in pairwise(wall.path):
            if not wall.takes_joint or along_axis(start, end) != axis:
                continue
            (s0, c0), (s1, c1) = sorted([(p[1 - axis], p[axis]) for p in (start, end)])
            low, high = max(s0, stretch[0]), min(s1, stretch[1])
            if high - low < LEAST_RUN:
                continue
            slope = (c1 - c0) / (s1 - s0)
            ends = [Anchor(s, c0 + slope * (s - s0), slack) for s in (low, high)]
            if abs((c0 + c1) / 2 - at) <= max(slack, TOUCH) + TOUCH:
                out.extend(ends)
    return out


def _end(
    grid: Grid,
    outline: Polygon,
    runs: Sequence[Run],
    tracks: dict[Run, Track],
    run: Run,
    corners: Sequence[Point],
    *,
    last: bool,
) -> Point:
    """Where a run truly ends: on the joint across its end, at a corner, or on the edge."""
    vertex = run.last if last else run.first
    track = tracks[run]
    if _open_vertex(grid, run, vertex):
        across = _run_across(runs, run, vertex)
        if across is not None:
            return _meeting(run.axis, track, tracks[across])
    along = float(grid.places[1 - run.axis][vertex])
    other = float(grid.places[1 - run.axis][run.first if last else run.last])
    for corner in corners:
        off = abs(corner[1 - run.axis] - along)
        # A short run may have a corner at its other end within reach of this one.
        near = off <= MERGE and off < abs(corner[1 - run.axis] - other)
        if near and abs(track.place(corner[1 - run.axis]) - corner[run.axis]) <= TOUCH:
            return corner
    return _edge_end(grid, outline, run, track, along, last=last)


def _open_vertex(grid: Grid, run: Run, vertex: int) -> bool:
    """Whether a vertex of a run has slab all around."""
    i, j = (run.line, vertex) if run.axis == X else (vertex, run.line)
    padded = np.pad(grid.inside, 1)
    return int(padded[i : i + 2, j : j + 2].sum()) == ALL_FOUR


def _run_across(runs: Sequence[Run], run: Run, vertex: int) -> Run | None:
    return next(
        (
            r
            for r in runs
            if r.axis != run.axis and r.line == vertex and r.first <= run.line <= r.last
        ),
        None,
    )


def _meeting(axis: int, own: Track, other: Track) -> Point:
    """Where two tracks cross; ``axis`` is that of the first."""
    along = other.at
    for _ in range(8):
        along = other.place(own.place(along))
    return _point(axis, own.place(along), along)


def _point(axis: int, at: float, along: float) -> Point:
    return (at, along) if axis == X else (along, at)


def _edge_end(
    grid: Grid, outline: Polygon, run: Run, track: Track, along: float, *, last: bool
) -> Point:
    """Where a track leaves the slab near the end that the grid gives it."""
    start, end = _stretch(grid, run)
    sign = 1.0 if last else -1.0
    inner = (start + end) / 2
    outer = along + sign * BEYOND
    ray = LineString([_point(run.axis, track.place(s), s) for s in (inner, outer)])
    nominal = abs(along - inner)
    reach = [
        stop
        for part in lines_of(ray.intersection(outline))
        for stop in [max(ray.project(shapely.Point(c)) for c in part.coords)]
        if abs(stop * (outer - inner) / ray.length) > SAME
    ]
    best = min(reach, key=lambda s: (round(abs(s - nominal), 6), s), default=nominal)
    where = inner + sign * best * abs(outer - inner) / ray.length
    return _point(run.axis, track.place(where), where)
