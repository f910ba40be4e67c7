"""Moves one end of a joint to an edge or to another joint.

The end of a straight joint stays on the joint's line. That of a bent one may also go along the edge
that it is on, so that its last stretch turns.
"""

import math
from collections.abc import Sequence

import shapely
from shapely import Point as ShapelyPoint

from kerfline.app import joint_bend
from kerfline.app.joint_axis import (
    OVERLAP,
    SHORTEST,
    Axis,
    inside,
    line_of,
    stops_along,
    straight,
)
from kerfline.app.joint_parts import find, in_place, inner_of, renamed, tip_of, with_end
from kerfline.app.working import DrawnJoint
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point


def move_end(
    concrete: Area,
    joints: Sequence[DrawnJoint],
    name: str,
    end: int,
    to: Point,
    near: float = math.inf,
) -> tuple[DrawnJoint, ...]:
    """Moves an end to the edge or joint nearest to a point.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        name: Which joint.
        end: Its first (0) or last (1) point.
        to: The point, mm.
        near: A bent joint's last stretch keeps its direction where it then ends no further than this (mm)
            from the point; a straight joint always keeps its own.

    Raises:
        InputRefused: Nothing would be left of the joint.
    """
    joint = find(joints, name)
    axis = _last_stretch(joint, end)
    ahead = [t for t in stops_along(concrete, axis, _others(joints, joint)) if t > SHORTEST]
    on_line = [axis.at(min(ahead, key=lambda t: abs(t - axis.place(to))))] if ahead else []
    if straight(joint) or (on_line and math.dist(on_line[0], to) <= near):
        return _ended(concrete, joints, joint, end, on_line)
    return _ended(concrete, joints, joint, end, [_nearest(concrete, joints, joint, to)])


def step_end(
    concrete: Area, joints: Sequence[DrawnJoint], name: str, end: int, by: Point
) -> tuple[DrawnJoint, ...]:
    """Moves an end one step: to the next stop along its stretch, or along the edge that it is on.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        name: Which joint.
        end: Its first (0) or last (1) point.
        by: The step, mm; along an edge it is as long, along the stretch only its direction counts.

    Raises:
        InputRefused: There is no further stop that way.
    """
    joint = find(joints, name)
    axis, tip = _last_stretch(joint, end), tip_of(joint, end)
    along = by[0] * axis.way[0] + by[1] * axis.way[1]
    if abs(along) > math.hypot(*by) / 2:
        here = axis.place(tip)
        stops = stops_along(concrete, axis, _others(joints, joint))
        beyond = [t for t in stops if t > SHORTEST and (t - here) * along > OVERLAP * abs(along)]
        spots = [axis.at(min(beyond, key=lambda t: abs(t - here)))] if beyond else []
        return _ended(concrete, joints, joint, end, spots)
    if straight(joint):
        raise InputRefused(
            Mistake(
                what="the end of a straight joint moves along its own line",
                where=name,
                remedy="add a bend to turn it",
            )
        )
    to = (tip[0] + by[0], tip[1] + by[1])
    return _ended(concrete, joints, joint, end, [_nearest(concrete, joints, joint, to)])


def _last_stretch(joint: DrawnJoint, end: int) -> Axis:
    """The line of the stretch that leads to an end, from where it begins."""
    fixed, loose = inner_of(joint, end), tip_of(joint, end)
    return Axis(fixed, direction(fixed, loose))


def _others(joints: Sequence[DrawnJoint], joint: DrawnJoint) -> list[DrawnJoint]:
    return [j for j in joints if j.id != joint.id]


def _nearest(concrete: Area, joints: Sequence[DrawnJoint], joint: DrawnJoint, to: Point) -> Point:
    """The place on an edge or on another joint that is nearest to a point."""
    lines = [concrete.boundary, *map(line_of, _others(joints, joint))]
    spot = ShapelyPoint(to)
    foot = shapely.get_coordinates(
        shapely.shortest_line(min(lines, key=lambda line: line.distance(spot)), spot)
    )[0]
    return (float(foot[0]), float(foot[1]))


def _ended(
    concrete: Area,
    joints: Sequence[DrawnJoint],
    joint: DrawnJoint,
    end: int,
    spots: Sequence[Point],
) -> tuple[DrawnJoint, ...]:
    """The joints with one that ends elsewhere."""
    if not spots:
        raise InputRefused(
            Mistake(what="there is nothing further on for the joint to end on", where=joint.id)
        )
    ended = with_end(joint, end, spots[0])
    if not straight(joint):
        return joint_bend.placed(concrete, joints, joint, ended.path)
    line = Axis(ended.path[0], direction(ended.path[0], ended.path[1]))
    pieces = inside(concrete, line, (0.0, math.dist(*ended.path)))
    if not pieces:
        raise InputRefused(Mistake(what="there is no concrete there", where=joint.id))
    return in_place(joints, {joint.id: renamed(joint, pieces, joints)})
