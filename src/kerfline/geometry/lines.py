"""Lines on a plan: stretches of them, and the order in which they are read."""

from collections.abc import Sequence

from shapely import LineString
from shapely.ops import substring

from kerfline.geometry.ring import Point


def line_order(path: Sequence[Point]) -> tuple[bool, float, float, float, float]:
    """A key that sorts lines that run up before those that run across, then by place."""
    (x0, y0), (x1, y1) = path[0], path[-1]
    up = abs(y1 - y0) >= abs(x1 - x0)
    first, second = ((x0 + x1) / 2, min(y0, y1)) if up else ((y0 + y1) / 2, min(x0, x1))
    return (not up, round(first, 0), round(second, 0), x0, y0)


def stretch_of(line: LineString, start: float, end: float) -> LineString:
    """The stretch of a line between two distances from its start, mm."""
    return LineString(substring(line, start, end).coords)
