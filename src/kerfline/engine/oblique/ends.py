"""The ends of cuts: run a hair beyond what they end on, and bent square where they come in too flat."""

from shapely import LineString

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME

HAIR = SAME / 2
"""How far (mm) a cut reaches beyond what it ends on: well under what counts as one point."""


def overshot(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A path whose ends reach a hair beyond what they end on, so that rounding leaves no gap."""
    head, tail = direction(path[1], path[0]), direction(path[-2], path[-1])
    first = (path[0][0] + head[0] * HAIR, path[0][1] + head[1] * HAIR)
    last = (path[-1][0] + tail[0] * HAIR, path[-1][1] + tail[1] * HAIR)
    return (first, *path[1:-1], last)


def path_of(line: LineString) -> tuple[Point, ...]:
    """The points of a line."""
    return tuple((float(x), float(y)) for x, y in line.coords)
