"""Reading order of lines on a plan: those that run up first, each kind from the lower left."""

from collections.abc import Sequence

from kerfline.geometry.ring import Point


def line_order(path: Sequence[Point]) -> tuple[bool, float, float, float, float]:
    """A key that sorts lines that run up before those that run across, then by place."""
    (x0, y0), (x1, y1) = path[0], path[-1]
    up = abs(y1 - y0) >= abs(x1 - x0)
    first, second = ((x0 + x1) / 2, min(y0, y1)) if up else ((y0 + y1) / 2, min(x0, x1))
    return (not up, round(first, 0), round(second, 0), x0, y0)
