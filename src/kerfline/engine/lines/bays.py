"""Divides a free span into even bays at whole steps, the remainder in one or two bays."""

import math
from itertools import pairwise

from kerfline.engine.lines.grid_lines import Ruler
from kerfline.geometry.tolerance import MEASURE

MANY = 3
"""From this many bays on, the remainder goes into the outer two; fewer are rounded one by one."""


def bay_count(span: float, limit: float) -> int:
    """The least number of bays of a span that none exceeds a limit, mm."""
    return max(1, math.ceil((span - MEASURE) / limit))


def even_lines(start: float, end: float, count: int, limit: float, ruler: Ruler) -> list[float]:
    """The places of the ``count - 1`` lines between even bays, at whole steps where they fit.

    Args:
        start: Where the span begins, mm.
        end: Where it ends.
        count: Number of bays.
        limit: Greatest bay, mm.
        ruler: The whole steps.
    """
    exact = [start + (end - start) * k / count for k in range(1, count)]
    for places in (_equal_inner_bays(start, end, count, ruler), [ruler.nearest(p) for p in exact]):
        if places and _widest(start, end, places) <= limit + MEASURE:
            return places
    return exact


def _equal_inner_bays(start: float, end: float, count: int, ruler: Ruler) -> list[float]:
    """Equal bays of whole steps inside, what is over or short in the outer two."""
    if count <= MANY:
        return []
    module = round((end - start) / count / ruler.step) * ruler.step
    middle = (start + end) / 2
    first = ruler.nearest(middle - module * (count - 2) / 2)
    return [first + k * module for k in range(count - 1)]


def _widest(start: float, end: float, places: list[float]) -> float:
    stops = [start, *places, end]
    return max(b - a for a, b in pairwise(stops))
