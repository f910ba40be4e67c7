"""The panels that joints cut a slab into."""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely import LineString

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import Area, faces
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Panel


def panels_of(concrete: Area, lines: Iterable[LineString]) -> tuple[Panel, ...]:
    """The panels between joints, numbered ``P1``, ``P2``, ... in reading order.

    Args:
        concrete: The slab's concrete in mm; holes stay holes.
        lines: The joints, in any order, whole or in pieces. An end within ``TOUCH`` of an edge or of
            another joint closes a panel; a joint that stops inside the concrete closes none.
    """
    cut = faces(concrete, joined(concrete, list(lines)))
    return tuple(Panel(id=f"P{n}", polygon=face) for n, face in enumerate(cut, start=1))


def joined(concrete: Area, lines: Sequence[LineString]) -> list[LineString]:
    """Joints whose ends really meet what they meet within ``TOUCH``.

    An end that is that near to a corner of the concrete, or to another joint's end, is moved there; then
    every end is carried straight on by ``TOUCH``, so that it crosses what it stops just short of. What
    sticks out cuts nothing. The order stays.
    """
    if not lines:
        return []
    joints = np.array(lines, dtype=object)
    points = shapely.get_coordinates(joints)
    last = np.cumsum(shapely.get_num_coordinates(joints)) - 1
    first = np.concatenate(([0], last[:-1] + 1))
    ends = np.concatenate((first, last))
    points[ends] = _together(shapely.get_coordinates(concrete), points[ends])
    beyond = np.concatenate((first + 1, last - 1))
    points[ends] += TOUCH * _ways(points[beyond], points[ends])
    return list(shapely.set_coordinates(joints, points))


def _together(corners: Numbers, ends: Numbers) -> Numbers:
    """Ends moved to the first corner or end within ``TOUCH`` of them, corners before ends."""
    spots = np.concatenate((corners, ends))
    places = np.asarray(shapely.points(spots))
    asked, near = shapely.STRtree(places).query(places[len(corners) :], "dwithin", TOUCH)
    target = np.full(len(ends), len(spots))
    np.minimum.at(target, asked, near)
    together: Numbers = spots[target]
    return together


def _ways(start: Numbers, end: Numbers) -> Numbers:
    """Unit vectors from points to points."""
    step = end - start
    return step / np.maximum(np.hypot(step[:, 0], step[:, 1]), SAME)[:, None]
