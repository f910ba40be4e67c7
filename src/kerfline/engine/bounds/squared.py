"""Where the squared outline of a surveyed slab is not the true one, and a bound may ask for less."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from kerfline.engine.arrays import Flags
from kerfline.engine.partition.grid import Grid
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.tolerance import SAME

Box = tuple[float, float, float, float]
"""Bounds: left, bottom, right and top, mm."""

SAME_AREA = 1e-6
"""Share of the area within which a squared outline is the true one."""


@dataclass(frozen=True)
class Squared:
    """Where the squared outline of a surveyed slab is not the true one.

    Attributes:
        slack: Twice the greatest distance of the two, mm; 0 where they are the same.
        places: Where they differ.
    """

    slack: float
    places: BaseGeometry

    def meets(self, boxes: Sequence[Box]) -> Flags:
        """Which boxes meet such a place, or touch one."""
        if not self.slack or not len(boxes):
            return np.zeros(len(boxes), dtype=bool)
        shapes = shapely.box(*np.asarray(boxes).T)
        return np.asarray(shapely.dwithin(shapes, self.places, SAME), dtype=bool)


def squared_off(grid: Grid, region: Region) -> Squared:
    """Where the outline of a grid's cells is not the true one, what is thinner than a hair left out."""
    cells = [
        shapely.box(
            grid.places[X][i], grid.places[Y][j], grid.places[X][i + 1], grid.places[Y][j + 1]
        )
        for i, j in np.argwhere(grid.inside)
    ]
    square = shapely.union_all(cells)
    apart = square.symmetric_difference(region.gross)
    if apart.area <= SAME_AREA * region.gross.area:
        return Squared(0.0, shapely.Polygon())
    distance = float(shapely.hausdorff_distance(square.boundary, region.gross.boundary))
    return Squared(2.0 * distance, apart.buffer(-SAME).buffer(2.0 * SAME))
