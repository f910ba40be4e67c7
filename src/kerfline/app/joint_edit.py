"""Moves, draws and takes away joints so that they stop on an edge or on another joint.

All functions take the concrete and the joints as drawn and give back joints; nothing is measured
against the rules here.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from shapely import Polygon

from kerfline.app import joint_bend
from kerfline.app.joint_axis import (
    OVERLAP,
    SHORTEST,
    Axis,
    axis_of,
    crossings,
    inside,
    line_of,
    reach_of,
    stops_along,
    straight,
)
from kerfline.app.joint_follow import follow, met
from kerfline.app.joint_parts import find, in_place, new_name, renamed
from kerfline.app.working import DrawnJoint
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME


def slide(
    concrete: Area, joints: Sequence[DrawnJoint], name: str, by: Point
) -> tuple[DrawnJoint, ...]:
    """Moves a joint sideways; it keeps to the edges and joints that it ends on.

    Joints that end on it follow; one that would be left with no length goes. A joint that an
    opening would cut in two becomes two.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        name: Which one moves.
        by: How far the pointer went, mm; only the part square to a straight joint counts.

    Raises:
        InputRefused: There is no concrete where it would go.
    """
    joint = find(joints, name)
    if not straight(joint):
        return joint_bend.slide(concrete, joints, joint, by)
    old = axis_of(joint)
    square = (-old.way[1], old.way[0])
    shift = by[0] * square[0] + by[1] * square[1]
    moved = Axis((old.origin[0] + shift * square[0], old.origin[1] + shift * square[1]), old.way)
    others = [j for j in joints if j.id != name]
    span = _span_after(concrete, others, joint, moved)
    pieces = inside(concrete, moved, span)
    if not pieces:
        raise InputRefused(
            Mistake(what="there is no concrete there", where=name, remedy="move the joint less far")
        )
    mine = renamed(joint, pieces, joints)
    followers = follow(concrete, others, joint, mine)
    return in_place(joints, {name: mine, **followers})


def _span_after(
    concrete: Area, others: Sequence[DrawnJoint], joint: DrawnJoint, moved: Axis
) -> tuple[float, float]:
    """From where to where the moved joint runs along its new axis."""
    size = math.dist(joint.path[0], joint.path[-1])
    stops_of = [met(others, joint.path[0]), met(others, joint.path[-1])]
    reach = reach_of(concrete, moved.origin)
    edges = crossings(moved, concrete.boundary, reach)
    start = _stop(moved, 0.0, -1, size / 2, stops_of[0], edges, reach)
    end = _stop(moved, size, 1, size / 2, stops_of[1], edges, reach)
    return (start, end)


def _stop(
    axis: Axis,
    old: float,
    way: int,
    middle: float,
    ended_on: Sequence[DrawnJoint],
    edges: Sequence[float],
    reach: float,
) -> float:
    """Where one end comes to lie: on the joint that it met, else on the edge nearest to where it was."""
    for other in ended_on:
        here = crossings(axis, line_of(other), reach)
        if here:
            return min(here, key=lambda t: abs(t - old))
    beyond = [t for t in edges if (t - middle) * way > SAME] or list(edges)
    return min(beyond, key=lambda t: abs(t - old)) if beyond else old


def draw(
    concrete: Area, joints: Sequence[DrawnJoint], start: Point, end: Point
) -> tuple[DrawnJoint, ...]:
    """Adds a joint between two points, carried on at both ends to the next edge or joint.

    Raises:
        InputRefused: The points are one, or no concrete lies between them.
    """
    size = math.dist(start, end)
    if size < SHORTEST:
        raise InputRefused(
            Mistake(what="the joint has no length", remedy="draw from one place to another")
        )
    axis = Axis(start, direction(start, end))
    stops = stops_along(concrete, axis, joints)
    low = max((t for t in stops if t < OVERLAP), default=0.0)
    high = min((t for t in stops if t > size - OVERLAP), default=size)
    return _added(joints, inside(concrete, axis, (low, high)))


def split(
    concrete: Area, joints: Sequence[DrawnJoint], panel: Polygon, way: Point, at: Point
) -> tuple[DrawnJoint, ...]:
    """Adds a joint across one panel, on both sides of an opening in it.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        panel: The panel.
        way: Direction of the new joint.
        at: A point that it runs through.

    Raises:
        InputRefused: The line does not cross the panel.
    """
    reach = reach_of(concrete, at)
    axis = Axis(at, way)
    stops = crossings(axis, panel.exterior, reach)
    low = max((t for t in stops if t <= SAME), default=None)
    high = min((t for t in stops if t >= -SAME), default=None)
    if low is None or high is None:
        raise InputRefused(Mistake(what="this line does not cross the panel"))
    return _added(joints, inside(concrete, axis, (low, high)))


def _added(
    joints: Sequence[DrawnJoint], pieces: Sequence[tuple[Point, Point]]
) -> tuple[DrawnJoint, ...]:
    if not pieces:
        raise InputRefused(
            Mistake(what="there is no concrete between these points", remedy="draw over the slab")
        )
    taken = {j.id for j in joints}
    out = list(joints)
    for piece in pieces:
        name = new_name(taken)
        taken.add(name)
        out.append(DrawnJoint(id=name, path=piece, pinned=True))
    return tuple(out)


def delete(concrete: Area, joints: Sequence[DrawnJoint], name: str) -> tuple[DrawnJoint, ...]:
    """Takes a joint away; straight joints that ended on it are carried on to the next stop."""
    gone = find(joints, name)
    others = [j for j in joints if j.id != name]
    return in_place(others, follow(concrete, others, gone, []))


def pinned(joints: Sequence[DrawnJoint], name: str, *, pinned: bool) -> tuple[DrawnJoint, ...]:
    """The joints with one pinned or unpinned, or all of them where no name is given."""
    if name:
        find(joints, name)
    return tuple(replace(j, pinned=pinned) if name in ("", j.id) else j for j in joints)
