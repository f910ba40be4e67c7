"""Copies what is on the slab: once beside itself, or in a row at even steps."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from kerfline.app import joint_edit, slab_edit
from kerfline.app.joint_axis import straight
from kerfline.app.joint_parts import by_hand, find, new_name
from kerfline.app.joint_path import within
from kerfline.app.ring_corners import ring_of
from kerfline.app.working import DrawnJoint, Working
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import TOUCH

MOST = 200
"""Copies that one step makes at most."""


@dataclass(frozen=True, slots=True)
class Named:
    """One thing on the slab: a joint, an opening by its number, or one of ``slab_edit.FIELDS``."""

    what: str
    id: str


def repeated(working: Working, items: Iterable[Named], by: Point, times: int) -> Working:
    """The state with copies of some things, each so far from the one before.

    Joints that are straight are carried on to the edge or joint that they come to. What comes to lie
    wholly beside the concrete is not made where it is a joint; anything else is held against the slab
    by whoever asks.

    Args:
        working: The state.
        items: What is copied.
        by: From one to the next, mm.
        times: How many copies of each.

    Raises:
        InputRefused: The step is none, there are too many, or one of the things is not there.
    """
    items = tuple(items)
    if math.hypot(*by) <= 2 * TOUCH:
        raise InputRefused(Mistake(what="the copies would lie on each other", remedy="give a step"))
    if not 1 <= times * len(items) <= MOST:
        raise InputRefused(
            Mistake(
                what="that is too many copies at once",
                found=str(times * len(items)),
                allowed=f"1 to {MOST}",
            )
        )
    before = working
    for count in range(1, times + 1):
        step = (by[0] * count, by[1] * count)
        for item in items:
            working = _copied(before, working, item, step)
    return working


def _copied(before: Working, working: Working, item: Named, by: Point) -> Working:
    if item.what == "joint":
        return replace(working, joints=_joints(working, find(before.joints, item.id), by))
    if item.what == "opening":
        ring = ring_of(before.slab, int(item.id) if item.id.isdigit() else -1)
        new = Ring(tuple(_shifted(p, by) for p in ring.points), ring.bulges)
        return replace(working, slab=replace(working.slab, openings=(*working.slab.openings, new)))
    slab = working.slab
    name = slab_edit.new_id(slab, item.what, {j.id for j in working.joints})
    copy = replace(slab_edit.moved(slab_edit.find(before.slab, item.what, item.id), by), id=name)
    things = (*slab_edit.things(slab, item.what), copy)
    return replace(working, slab=slab_edit.with_things(slab, item.what, things))


def _joints(working: Working, joint: DrawnJoint, by: Point) -> tuple[DrawnJoint, ...]:
    """The joints with a copy of one; what lies beside the concrete is left out."""
    concrete, joints = working.slab.concrete, working.joints
    path = tuple(_shifted(p, by) for p in joint.path)
    pieces = within(concrete, path)
    if not pieces:
        return joints
    if straight(joint):
        drawn = joint_edit.draw(concrete, joints, pieces[0][0], pieces[-1][-1])
        mine = tuple(replace(j, kind=joint.kind) for j in drawn[len(joints) :])
        return (*joints, *mine)
    taken, out = {j.id for j in joints}, list(joints)
    for piece in pieces:
        name = new_name(taken)
        taken.add(name)
        out.append(by_hand(replace(joint, id=name, path=piece)))
    return tuple(out)


def _shifted(point: Point, by: Point) -> Point:
    return (point[0] + by[0], point[1] + by[1])
