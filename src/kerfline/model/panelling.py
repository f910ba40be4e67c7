"""The panels that joints cut a slab into."""

from collections.abc import Iterable

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.corners import direction
from kerfline.geometry.faces import faces
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Panel


def panels_of(concrete: Polygon, lines: Iterable[LineString]) -> tuple[Panel, ...]:
    """The panels between joints, numbered ``P1``, ``P2``, ... in reading order.

    Args:
        concrete: The slab's concrete in mm; holes stay holes.
        lines: The joints, in any order, whole or in pieces. An end within ``TOUCH`` of an edge or of
            another joint closes a panel; a joint that stops inside the concrete closes none.
    """
    cut = faces(concrete, [reaching(line) for line in lines])
    return tuple(Panel(id=f"P{n}", polygon=face) for n, face in enumerate(cut, start=1))


def reaching(line: LineString, reach: float = TOUCH) -> LineString:
    """A line carried straight on by ``reach`` (mm) at both ends.

    What a joint is short of within the tolerance, it then crosses; what sticks out cuts nothing.
    """
    points = [(float(x), float(y)) for x, y in shapely.get_coordinates(line)]
    first, last = (
        _beyond(points[1], points[0], reach),
        _beyond(points[-2], points[-1], reach),
    )
    return LineString(np.asarray([first, *points[1:-1], last]))


def _beyond(start: Point, end: Point, reach: float) -> Point:
    way = direction(start, end)
    return (end[0] + way[0] * reach, end[1] + way[1] * reach)
