"""Lines that may mend the panels of an answer which break a rule."""

import math

import numpy as np

from kerfline.engine.lines.features import X, Y
from kerfline.engine.lines.grid_lines import Ruler
from kerfline.engine.lines.lattice import More
from kerfline.engine.partition.grid import Grid, Whole
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.regions.region import Region
from kerfline.geometry.tolerance import RATIO


def mending_lines(grid: Grid, panels: Panels, chosen: Whole, region: Region) -> More:
    """Even divisions of the panels over the aspect, and the lines in use so that they stay.

    Empty where no panel is over the aspect, or none can be divided without a narrow one.
    """
    wanted: tuple[set[float], set[float]] = (set(), set())
    for p in chosen[panels.aspect[chosen] > region.working.aspect + RATIO]:
        axis = X if panels.size[X][p] > panels.size[Y][p] else Y
        for at in _divisions(grid, panels, int(p), axis, region):
            wanted[axis].add(at)
    if not any(wanted):
        return ((), ())
    for axis in (X, Y):
        used = np.unique(np.r_[panels.low[axis][chosen], panels.high[axis][chosen]])
        wanted[axis].update(float(at) for at in grid.places[axis][used])
    return tuple(sorted(wanted[X])), tuple(sorted(wanted[Y]))


def _divisions(grid: Grid, panels: Panels, p: int, axis: int, region: Region) -> list[float]:
    """Even divisions of the long side of one panel into pieces within the aspect, and one more."""
    start = float(grid.places[axis][panels.low[axis][p]])
    size, across = float(panels.size[axis][p]), float(panels.size[1 - axis][p])
    least = math.ceil(size / (region.working.aspect * across) - RATIO)
    ruler = Ruler(region.baseline[axis], region.step)
    return [
        ruler.nearest(start + size * k / count)
        for count in (least, least + 1)
        if size / count >= region.working.width
        for k in range(1, count)
    ]
