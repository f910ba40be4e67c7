"""Joints that bend: moved as a whole, and their knees moved, added and taken away.

All functions take the concrete and the joints as drawn and give back joints; nothing is measured
against the rules here.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString
from shapely import Point as ShapelyPoint

from kerfline.app.joint_axis import SHORTEST, Axis, crossings, line_of, reach_of
from kerfline.app.joint_follow import follow, met
from kerfline.app.joint_parts import (
    by_hand,
    find,
    in_place,
    inner_of,
    renamed,
    tip_of,
    with_end,
)
from kerfline.app.joint_path import Path, length_of, longest_stretch, within
from kerfline.app.working import DrawnJoint
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH


def slide(
    concrete: Area, joints: Sequence[DrawnJoint], joint: DrawnJoint, by: Point
) -> tuple[DrawnJoint, ...]:
    """Moves a bent joint parallel to itself, knees and all.

    Its ends stay on the edges and joints that they were on, each along its own last stretch.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        joint: The one that moves.
        by: How far, mm.

    Raises:
        InputRefused: There is no concrete where it would go.
    """
    others = [j for j in joints if j.id != joint.id]
    moved = replace(joint, path=tuple((x + by[0], y + by[1]) for x, y in joint.path))
    for end in (0, 1):
        moved = _landed(concrete, moved, end, met(others, tip_of(joint, end)))
    return placed(concrete, joints, joint, moved.path)


def _landed(
    concrete: Area, joint: DrawnJoint, end: int, ended_on: Sequence[DrawnJoint]
) -> DrawnJoint:
    """A joint with one end brought along its last stretch onto a joint that it was on, else onto an edge."""
    knee, tip = inner_of(joint, end), tip_of(joint, end)
    axis, old = Axis(knee, direction(knee, tip)), math.dist(knee, tip)
    reach = reach_of(concrete, knee)
    for line in (*map(line_of, ended_on), concrete.boundary):
        ahead = [t for t in crossings(axis, line, reach) if t > SAME]
        if ahead:
            return with_end(joint, end, axis.at(min(ahead, key=lambda t: abs(t - old))))
    return joint


def placed(
    concrete: Area, joints: Sequence[DrawnJoint], before: DrawnJoint, path: Path
) -> tuple[DrawnJoint, ...]:
    """The joints with one along another line, cut to the concrete; those that ended on it follow.

    Raises:
        InputRefused: The line crosses itself, or no part of it lies in concrete.
    """
    if not LineString(path).is_simple:
        raise InputRefused(Mistake(what="the joint would cross itself", where=before.id))
    pieces = within(concrete, path)
    if not pieces:
        raise InputRefused(
            Mistake(
                what="there is no concrete there",
                where=before.id,
                remedy="move the joint less far",
            )
        )
    mine = renamed(before, pieces, joints)
    others = [j for j in joints if j.id != before.id]
    return in_place(joints, {before.id: mine, **follow(concrete, others, before, mine)})


def move_knee(
    concrete: Area, joints: Sequence[DrawnJoint], name: str, index: int, to: Point
) -> tuple[DrawnJoint, ...]:
    """Moves one knee; the joint's ends stay. A knee that is put on a neighbour goes.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        name: Which joint.
        index: Which of its points, between the first and the last.
        to: Where it goes, mm.

    Raises:
        InputRefused: There is no such knee, or it may not lie there.
    """
    joint = find(joints, name)
    _ask_knee(joint, index)
    if concrete.distance(ShapelyPoint(to)) > TOUCH:
        raise InputRefused(
            Mistake(what="a bend must lie on the concrete", where=name, remedy="move it less far")
        )
    before, after = joint.path[index - 1], joint.path[index + 1]
    kept = () if min(math.dist(to, before), math.dist(to, after)) < SHORTEST else (to,)
    path = (*joint.path[:index], *kept, *joint.path[index + 1 :])
    return placed(concrete, joints, joint, path)


def add_knee(
    joints: Sequence[DrawnJoint], name: str, at: Point | None = None, stretch: int | None = None
) -> tuple[DrawnJoint, ...]:
    """Gives a joint one knee more, which does not bend it yet.

    Args:
        joints: All joints.
        name: Which one.
        at: Where, brought onto the joint; None for the middle of a stretch.
        stretch: Index of the point that the stretch begins at; None for the longest.

    Raises:
        InputRefused: A knee or an end is there already, or there is no such stretch.
    """
    joint = find(joints, name)
    if stretch is not None and not 0 <= stretch < len(joint.path) - 1:
        raise InputRefused(Mistake(what="the joint has no such stretch", where=name))
    line = LineString(joint.path)
    middle = _middle(joint.path, longest_stretch(joint.path) if stretch is None else stretch)
    place = middle if at is None else float(line.project(ShapelyPoint(at)))
    spot = line.interpolate(place)
    new = (float(spot.x), float(spot.y))
    if min(math.dist(new, point) for point in joint.path) < SHORTEST:
        raise InputRefused(
            Mistake(
                what="the joint has a bend or an end there already",
                where=name,
                remedy="tap further along",
            )
        )
    ahead = sum(line.project(ShapelyPoint(p)) < place for p in joint.path[:-1])
    bent = by_hand(replace(joint, path=(*joint.path[:ahead], new, *joint.path[ahead:])))
    return in_place(joints, {name: [bent]})


def _middle(path: Path, stretch: int) -> float:
    """How far along a path (mm) the middle of a stretch lies."""
    here, there = path[stretch], path[stretch + 1]
    return length_of(path[: stretch + 1]) + math.dist(here, there) / 2


def remove_knee(
    concrete: Area, joints: Sequence[DrawnJoint], name: str, index: int
) -> tuple[DrawnJoint, ...]:
    """Takes one knee away; the joint runs straight past where it was.

    Raises:
        InputRefused: There is no such knee, or no part of the new line lies in concrete.
    """
    joint = find(joints, name)
    _ask_knee(joint, index)
    return placed(concrete, joints, joint, (*joint.path[:index], *joint.path[index + 1 :]))


def _ask_knee(joint: DrawnJoint, index: int) -> None:
    if not 0 < index < len(joint.path) - 1:
        raise InputRefused(Mistake(what="the joint has no such bend", where=joint.id))
