"""Finds the mirror lines of a grid, and for each panel the image that must be chosen with it."""

from collections.abc import Iterator

import numpy as np

from kerfline.engine.arrays import Integers, Numbers
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.regions.region import X, Y

SAME_COST = 1.0
"""Images whose costs differ by less than this (mm of joint) are alike."""

SAME_PLACE = 30.0
"""Lines whose images lie within this (mm, about an inch: positions are rounded) are alike."""


def twins(grid: Grid, panels: Panels, costs: Numbers) -> Integers:
    """For each panel the index of the first of its images under the grid's symmetries.

    A symmetric slab gets a symmetric layout: the images of a panel are chosen together. Mirroring in
    x, in y, and the half turn are looked for; one holds where the cells, the prices and the costs of
    all panels agree with their images.
    """
    count = len(panels)
    out = np.arange(count)
    index = _index(panels)
    for flips in _flips(grid):
        image = _images(grid, panels, index, flips)
        if image is None or not np.allclose(costs, costs[image], atol=SAME_COST):
            continue
        out = np.minimum(out, out[image])
    return out


def _flips(grid: Grid) -> Iterator[tuple[bool, bool]]:
    mirrored = [_mirrored(grid.places[a]) for a in (X, Y)]
    for flip_x, flip_y in ((True, False), (False, True), (True, True)):
        if (not flip_x or mirrored[X]) and (not flip_y or mirrored[Y]):
            inside = grid.inside[::-1] if flip_x else grid.inside
            inside = inside[:, ::-1] if flip_y else inside
            if np.array_equal(inside, grid.inside):
                yield flip_x, flip_y


def _mirrored(places: Numbers) -> bool:
    image = places[0] + places[-1] - places[::-1]
    return bool(np.all(np.abs(image - places) <= SAME_PLACE))


def _key(low_x: Integers, high_x: Integers, low_y: Integers, high_y: Integers) -> Integers:
    return np.asarray(((low_x * 1000 + high_x) * 1000 + low_y) * 1000 + high_y)


def _index(panels: Panels) -> tuple[Integers, Integers]:
    keys = _key(panels.low[X], panels.high[X], panels.low[Y], panels.high[Y])
    order = np.argsort(keys)
    return keys[order], order


def _images(
    grid: Grid, panels: Panels, index: tuple[Integers, Integers], flips: tuple[bool, bool]
) -> Integers | None:
    """The image of every panel; None where one has none."""
    ends = []
    for axis in (X, Y):
        low, high = panels.low[axis], panels.high[axis]
        last = len(grid.places[axis]) - 1
        ends.extend([last - high, last - low] if flips[axis] else [low, high])
    keys, order = index
    wanted = _key(*ends)
    found = np.searchsorted(keys, wanted)
    if (found >= len(keys)).any() or not np.array_equal(keys[found], wanted):
        return None
    return np.asarray(order[found])
