"""Ends of added joints, set exactly on what they meet: a crew reads the offset of an end off the sheet."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

import shapely
from shapely import LineString
from shapely.ops import nearest_points

from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Joint

PLACES = 6
"""Additions are given to a millionth of a millimetre, so that no place reads as minus nothing."""


def landed(
    concrete: Area, there: Sequence[LineString], added: Iterable[Joint]
) -> tuple[Joint, ...]:
    """Joints whose ends lie on the edge or joint that they stop at, not merely near it.

    Args:
        concrete: The slab.
        there: The joints that are there already.
        added: The joints to set; an end that meets nothing stays.
    """
    joints = list(added)
    for i, joint in enumerate(joints):
        others = [j.line for j in joints[:i] + joints[i + 1 :]]
        lines = [*there, *others]
        path = _set(_set(joint.path, concrete, lines)[::-1], concrete, lines)[::-1]
        joints[i] = replace(joint, path=path)
    return tuple(joints)


def _set(path: tuple[Point, ...], concrete: Area, lines: Sequence[LineString]) -> tuple[Point, ...]:
    """A path whose first point lies on what it meets."""
    at, inner = path[0], path[1]
    spot = shapely.Point(at)
    met = [m for m in (concrete.boundary, *lines) if m.distance(spot) <= TOUCH]
    if not met:
        return path
    ends = [end for line in met for end in _ends(line) if end.distance(spot) <= TOUCH]
    place = min(ends, key=spot.distance) if ends else _straight_on(spot, inner, met)
    return ((round(place.x, PLACES) + 0.0, round(place.y, PLACES) + 0.0), *path[1:])


def _ends(line: shapely.Geometry) -> list[shapely.Point]:
    """Where a joint ends; the edge of the slab goes round and has no end."""
    return [shapely.Point(p) for p in shapely.get_coordinates(shapely.boundary(line))]


def _straight_on(
    spot: shapely.Point, inner: Point, met: Sequence[shapely.Geometry]
) -> shapely.Point:
    """Where a joint that is carried on or cut back meets the lines; the nearest place where it runs along."""
    dx, dy = direction(inner, (spot.x, spot.y))
    reach = 2 * TOUCH
    way = LineString(
        [(spot.x - reach * dx, spot.y - reach * dy), (spot.x + reach * dx, spot.y + reach * dy)]
    )
    every = shapely.union_all(met)
    crossed = way.intersection(every)
    if crossed.is_empty or crossed.length > 0:
        return nearest_points(every, spot)[0]
    return nearest_points(crossed, spot)[0]
