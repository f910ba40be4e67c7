"""Grids by hand, for the tests of the search on a grid."""

from dataclasses import replace

import numpy as np
import shapely

from kerfline.engine.partition.grid import Grid
from unit.engine.plans import box, region_of, slab


def flags(places):
    """No flag on any piece of any line."""
    nx, ny = (len(p) for p in places)
    return np.zeros((nx, ny - 1), dtype=bool), np.zeros((ny, nx - 1), dtype=bool)


def grid_of(xs, ys, *, out=(), must=(), banned=(), walls=()):
    """A grid between lines at some places, its joints priced by their length.

    Args:
        xs: Places of the lines that run up.
        ys: Places of those that run across.
        out: Cells (i, j) that are no slab.
        must: Pieces (axis, line, piece) that are pinned.
        banned: Pieces where no joint may lie.
        walls: Pieces with a wall over the whole of them, each a wall by itself.
    """
    places = (np.asarray(xs, dtype=float), np.asarray(ys, dtype=float))
    inside = np.ones((len(xs) - 1, len(ys) - 1), dtype=bool)
    for cell in out:
        inside[cell] = False
    interior = flags(places)
    interior[0][1:-1] = inside[:-1] & inside[1:]
    interior[1][1:-1] = inside.T[:-1] & inside.T[1:]
    lengths = tuple(
        np.broadcast_to(np.diff(places[1 - a]), interior[a].shape).copy() for a in (0, 1)
    )
    wall = tuple(np.where(marked(places, walls)[a], lengths[a], 0.0) for a in (0, 1))
    owed = tuple(np.where(w > 0.0, 60 * 304.8 + 10 * w, 0.0) for w in wall)
    return Grid(
        places=places,
        inside=inside,
        interior=interior,
        hidden=wall,
        wall=wall,
        owed=owed,
        wish=tuple(np.zeros_like(w) for w in wall),
        beside=(),
        firm=places,
        price=tuple(np.where(interior[a], lengths[a], 0.0) for a in (0, 1)),
        banned=marked(places, banned),
        must=marked(places, must),
    )


def marked(places, pieces):
    """Flags on some pieces."""
    found = flags(places)
    for axis, line, piece in pieces:
        found[axis][line, piece] = True
    return found


def boxes(panels):
    """Each panel as (first line up, last, first across, last)."""
    ends = (panels.low[0], panels.high[0], panels.low[1], panels.high[1])
    return list(zip(*(e.tolist() for e in ends), strict=True))


def region_on(grid):
    """A region whose concrete is what the grid calls slab; no panel on it may be over the span."""
    xs, ys = (p.tolist() for p in grid.places)
    cells = [shapely.box(xs[i], ys[j], xs[i + 1], ys[j + 1]) for i, j in np.argwhere(grid.inside)]
    whole = shapely.union_all(cells)
    return replace(region_of(slab(box(10, 10))), gross=whole, concrete=whole, stretch=1.0)
