"""Which lines of a grid serve the walls: the nearest, and any other within a wall's thickness."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from kerfline.engine.regions.region import Region, along_axis
from kerfline.engine.regions.walls import wall_slack
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.tolerance import TOUCH


def overlap(stops: Numbers, start: float, end: float) -> Numbers:
    """How much of each piece between stops lies between two places."""
    return np.asarray(np.maximum(np.minimum(stops[1:], end) - np.maximum(stops[:-1], start), 0.0))


@dataclass(frozen=True, kw_only=True)
class Served:
    """A straight part of a wall and the lines of a grid that serve it.

    Attributes:
        axis: The axis whose lines run along it.
        line: Index of the line nearest to it.
        first: Index of the first line within its thickness.
        last: Index of the last one.
        lengths: Length of it on each piece of those lines, mm.
        short: Whether it only wishes for a joint.
    """

    axis: int
    line: int
    first: int
    last: int
    lengths: Numbers
    short: bool


def served(region: Region, places: tuple[Numbers, Numbers]) -> Iterator[Served]:
    """Every straight part of a wall along an axis that a line serves."""
    for wall in region.walls:
        if not wall.takes_joint:
            continue
        for start, end in pairwise(wall.path):
            axis = along_axis(start, end)
            if axis is None:
                continue
            away = np.abs(places[axis] - (start[axis] + end[axis]) / 2)
            near = np.flatnonzero(away <= max(wall_slack(wall), TOUCH) + TOUCH)
            if len(near):
                low, high = sorted((start[1 - axis], end[1 - axis]))
                yield Served(
                    axis=axis,
                    line=int(np.argmin(away)),
                    first=int(near[0]),
                    last=int(near[-1]),
                    lengths=overlap(places[1 - axis], low, high),
                    short=wall.id in region.wishes,
                )
