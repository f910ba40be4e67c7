"""Patterns of tiles: many alike cells of lines that cross. Sizes and shares are common practice."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.opened import Drawing

MOST_CURVES = 5_000
"""Layers with more curves than this are not looked at."""

FEWEST = 50
"""Cells of a pattern of tiles; axes have fewer bays."""

LARGEST_TILE = 4e6
"""A tile is no larger (mm2, 2 m square)."""

LEAST_CELL = 1e4
"""What is smaller (mm2, 100 mm square) lies between lines that were drawn twice."""

ALIKE = 0.1
HALF = 0.5
"""This share of the cells have the area of the middle one but for the first share."""

EVEN = 1.0
"""Lines of tiles that miss one another by this (mm) cross."""


def tile_side(drawing: Drawing, layer: str) -> float:
    """How long (mm) and wide the tiles of a layer are about; 0 where it is no pattern of tiles."""
    curves = drawing.on(layer)
    if not FEWEST // 4 <= len(curves) <= MOST_CURVES or not drawing.linework(layer).rings:
        return 0.0
    areas = np.asarray([c.area for c in _cells([c.path.line for c in curves])])
    areas = areas[areas > LEAST_CELL]
    if len(areas) < FEWEST:
        return 0.0
    tile = float(np.median(areas))
    alike = float(np.mean(np.abs(areas / tile - 1) <= ALIKE))
    return math.sqrt(tile) if alike >= HALF and tile <= LARGEST_TILE else 0.0


def _cells(lines: Sequence[LineString]) -> list[Polygon]:
    """What lines that cross part the plane into."""
    noded = shapely.union_all(lines, grid_size=EVEN)
    return [p for p in shapely.get_parts(shapely.polygonize([noded])) if isinstance(p, Polygon)]
