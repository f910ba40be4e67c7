"""The ends of cuts: run a hair beyond what they end on, and bent square where they come in too flat."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH

HAIR = SAME / 2
"""How far (mm) a cut reaches beyond what it ends on: well under what counts as one point."""


LEVER = 50.0
"""How far (mm) along an edge its direction is read at an end."""


def overshot(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A path whose ends reach a hair beyond what they end on, so that rounding leaves no gap."""
    head, tail = direction(path[1], path[0]), direction(path[-2], path[-1])
    first = (path[0][0] + head[0] * HAIR, path[0][1] + head[1] * HAIR)
    last = (path[-1][0] + tail[0] * HAIR, path[-1][1] + tail[1] * HAIR)
    return (first, *path[1:-1], last)


def path_of(line: LineString) -> tuple[Point, ...]:
    """The points of a line."""
    return tuple((float(x), float(y)) for x, y in line.coords)


def under(lines: Sequence[LineString], tip: Point) -> LineString | None:
    """The line that an end stops on."""
    away = np.round(shapely.distance(np.asarray(lines, dtype=object), shapely.Point(tip)), 6)
    nearest = int(np.argmin(away)) if len(lines) else -1
    return lines[nearest] if len(lines) and away[nearest] <= TOUCH else None


def tangent(line: LineString, at: Point) -> Point:
    """The direction of a line at a point on it."""
    where = line.project(shapely.Point(at))
    before = line.interpolate(max(0.0, where - LEVER))
    after = line.interpolate(min(line.length, where + LEVER))
    return direction((before.x, before.y), (after.x, after.y))


def arrival(lines: Sequence[LineString], inner: Point, tip: Point) -> float | None:
    """Angle (degrees, up to 90) at which a stretch comes in on the line that it stops on."""
    target = under(lines, tip)
    if target is None:
        return None
    flat = angle_between(direction(inner, tip), tangent(target, tip))
    return min(flat, 180.0 - flat)
