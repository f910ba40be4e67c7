"""Several buildings among the lines of walls, where only the widest gap that is bridged joins them.

Sizes are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

OWN = 100.0
OWN_LENGTH = 1_000.0
"""Walls of this length (mm), this far from the walls around a part, stand in it."""

LEAST_BUILDING = 10e6
OF_LARGEST = 0.2
NARROW = 500.0
"""What walls close off is a building by itself from this area (mm2, 10 square metres) and this share of the largest
beside it on, and where its area over half its length around is no less than the last (mm): else it is a wall."""


def lines_apart(
    steps: Sequence[Sequence[Polygon]], faces: Sequence[LineString]
) -> list[list[LineString]]:
    """The lines of each building, where several are closed off without the widest gap and only that joins them.

    So two plans on a sheet are joined that stand nearer to one another than a gate is wide. Nothing where the widest
    gap joins none, or walls of their own stand between.
    """
    for whole in steps[-1]:
        inside = [p for p in steps[-2] if whole.intersects(p)]
        largest = max((p.area for p in inside), default=0.0)
        buildings = [
            p
            for p in inside
            if p.area >= max(LEAST_BUILDING, OF_LARGEST * largest)
            and 2 * p.area >= NARROW * p.length
        ]
        between = whole.difference(shapely.union_all(inside))
        if len(buildings) > 1 and not walled(between, faces):
            nearest = shapely.STRtree(buildings).nearest(np.asarray(faces, dtype=object))
            own = [
                [f for f, n in zip(faces, nearest, strict=True) if n == i]
                for i in range(len(buildings))
            ]
            return own if all(own) else []
    return []


def walled(part: BaseGeometry, faces: Sequence[LineString]) -> bool:
    """Whether walls of its own stand in a part: outside is none."""
    inside = part.buffer(-OWN)
    shapely.prepare(inside)
    length = sum(f.intersection(inside).length for f in faces if inside.intersects(f))
    return length > OWN_LENGTH
