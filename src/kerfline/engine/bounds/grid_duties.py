"""The joints that any layout on a grid owes, as pieces of its lines: those at which the chords of a bound end."""

from collections.abc import Sequence

import numpy as np

from kerfline.engine.arrays import Flags
from kerfline.engine.partition.grid import Grid, empty_pieces, mark_beside
from kerfline.engine.regions.features import is_opening, model_outline
from kerfline.engine.regions.region import MERGE, Region, X, Y
from kerfline.engine.regions.walls import wall_slack
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH

MOSTLY = 0.5
"""A wall under this share of a piece of line does not bound the chords there."""


def stops_on(grid: Grid, region: Region, joints: tuple[Flags, Flags]) -> tuple[Flags, Flags]:
    """Pieces where the chords along each axis end: the boundary, and duties that are served."""
    corners = _corners_on(grid, [c.at for c in reentrant_corners(model_outline(region))])
    columns = _corners_on(grid, [c.at for c in region.columns if not is_opening(c, region)])
    under = _under_walls(grid, region)
    out = []
    for axis in (X, Y):
        duty = (under[axis] | grid.must[axis]) & joints[axis]
        lines, pieces = np.nonzero(duty)
        ends = {(int(n), int(p) + e) for n, p in zip(lines, pieces, strict=True) for e in (0, 1)}
        ends |= {(corner[axis], corner[1 - axis]) for corner in corners}
        for line, node in sorted(ends):
            duty[line, _onward(joints, axis, line, node, crossed=True)] = True
        for column in columns:
            line, node = column[axis], column[1 - axis]
            duty[line, _onward(joints, axis, line, node, crossed=False)] = True
        out.append(np.asarray(~grid.interior[axis] | duty, dtype=bool))
    return out[X], out[Y]


def _under_walls(grid: Grid, region: Region) -> tuple[Flags, Flags]:
    """The pieces of all lines that lie for the most part under walls that ask for a joint."""
    under = empty_pieces(grid.places)
    for wall in region.walls:
        if wall.takes_joint and wall.id not in region.wishes:
            mark_beside(under, grid.places, wall.path, wall_slack(wall) + TOUCH)
    rows = [np.diff(grid.places[1 - axis]) for axis in (X, Y)]
    return under[X] > MOSTLY * rows[X], under[Y] > MOSTLY * rows[Y]


def _corners_on(grid: Grid, spots: Sequence[Point]) -> list[tuple[int, int]]:
    """The nodes of the grid that stand for some places, those left out that have none."""
    out = []
    for spot in spots:
        i, j = (int(np.argmin(np.abs(grid.places[a] - spot[a]))) for a in (X, Y))
        if max(abs(grid.places[X][i] - spot[X]), abs(grid.places[Y][j] - spot[Y])) <= MERGE + SAME:
            out.append((i, j))
    return out


def _onward(
    joints: tuple[Flags, Flags], axis: int, line: int, start: int, *, crossed: bool
) -> list[int]:
    """The pieces of a joint on a line, from a node of it on both ways: to its ends, or to where another meets it."""
    own, across = joints[axis][line], joints[1 - axis]
    out = []
    for way in (-1, 1):
        node = start
        while 0 <= (piece := node if way > 0 else node - 1) < len(own) and own[piece]:
            out.append(piece)
            node += way
            if crossed and across[node, max(line - 1, 0) : line + 1].any():
                break
    return out


def pieces_under(grid: Grid, paths: Sequence[tuple[Point, Point]]) -> tuple[Flags, Flags]:
    """The pieces of a grid's lines that joints along the axes cover."""
    out = (np.zeros_like(grid.interior[X]), np.zeros_like(grid.interior[Y]))
    for start, end in paths:
        for axis in (X, Y):
            if abs(start[axis] - end[axis]) > SAME:
                continue
            line = int(np.argmin(np.abs(grid.places[axis] - start[axis])))
            low, high = sorted((start[1 - axis], end[1 - axis]))
            stops = grid.places[1 - axis]
            out[axis][line] |= (stops[:-1] >= low - SAME) & (stops[1:] <= high + SAME)
    return out
