"""Hatching as plain lines, so that every writer draws the same."""

import math

import shapely
from shapely import LineString, Polygon, affinity

from kerfline.geometry.faces import lines_of


def hatch_lines(area: Polygon, pitch: float, angle: float = 45.0) -> list[LineString]:
    """Parallel lines over an area.

    Args:
        area: What is hatched, mm of paper.
        pitch: Distance of the lines in mm.
        angle: Their direction in degrees.
    """
    turned = affinity.rotate(area, -angle, origin=(0, 0))
    x0, y0, x1, y1 = turned.bounds
    first = math.ceil(y0 / pitch)
    rows = [
        LineString([(x0 - 1, i * pitch), (x1 + 1, i * pitch)])
        for i in range(first, math.floor(y1 / pitch) + 1)
    ]
    if not rows:
        return []
    cut = shapely.intersection(turned, rows)
    return [
        affinity.rotate(line, angle, origin=(0, 0)) for shape in cut for line in lines_of(shape)
    ]
