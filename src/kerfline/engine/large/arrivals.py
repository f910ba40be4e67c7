"""Where the joints that are there already end, kept so that a block is asked for its own quickly."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import chain

import numpy as np
import shapely

from kerfline.engine.partition.grid import Array
from kerfline.engine.regions.region import Region
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

DIGITS = 2
"""Digits of a millimetre to which places are rounded."""

FIRST = 1024
"""Places that there is room for at first; the room doubles when it is full."""


class Arrivals:
    """The ends of joints, in the order in which the joints came."""

    def __init__(self, paths: Iterable[tuple[Point, ...]] = ()) -> None:
        self._room: Array = np.empty((FIRST, 2))
        self._count = 0
        self.add(paths)

    def add(self, paths: Iterable[tuple[Point, ...]]) -> None:
        """Takes both ends of each path."""
        ends = list(chain.from_iterable((path[0], path[-1]) for path in paths))
        if not ends:
            return
        count = self._count + len(ends)
        while count > len(self._room):
            self._room = np.concatenate([self._room, np.empty_like(self._room)])
        self._room[self._count : count] = ends
        self._count = count

    def on(self, part: Region) -> Region:
        """A part of a floor with the places on its border where joints arrive."""
        if not self._count:
            return part
        ends = self._room[: self._count]
        x0, y0, x1, y1 = part.gross.bounds
        inside = (ends[:, 0] > x0 - TOUCH) & (ends[:, 0] < x1 + TOUCH)
        inside &= (ends[:, 1] > y0 - TOUCH) & (ends[:, 1] < y1 + TOUCH)
        near = np.unique(np.round(ends[inside], DIGITS), axis=0)
        beside = shapely.distance(part.gross.boundary, shapely.points(near)) <= TOUCH
        return replace(part, landings=tuple((float(x), float(y)) for x, y in near[beside]))
