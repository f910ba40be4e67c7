"""Joints that stay when the concrete under them changes: an edge moves, an opening comes or goes."""

import math
from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely import Point as ShapelyPoint

from kerfline.app.joint_axis import Axis, axis_of, inside, line_of, next_stop, straight
from kerfline.app.joint_parts import in_place, inner_of, renamed, tip_of, with_end
from kerfline.app.joint_path import Path, length_of, within
from kerfline.app.working import DrawnJoint
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import TOUCH


def refit(before: Area, after: Area, joints: Sequence[DrawnJoint]) -> tuple[DrawnJoint, ...]:
    """The joints fitted to concrete that has changed, as when an edge or a column's boxout moves.

    What lies off the concrete now is cut away; a joint that ended on an edge that is gone is carried
    on, along its last stretch, to the next stop.
    """
    if before.equals(after):
        return tuple(joints)
    mended = in_place(joints, {j.id: [_mended(before, after, joints, j)] for j in joints})
    return _trimmed(after, mended)


def _mended(
    before: Area, after: Area, joints: Sequence[DrawnJoint], joint: DrawnJoint
) -> DrawnJoint:
    others = [o for o in joints if o.id != joint.id]
    for end in (0, 1):
        spot = ShapelyPoint(tip_of(joint, end))
        was, still = before.boundary.distance(spot), after.boundary.distance(spot)
        if was <= TOUCH < still and after.contains(spot):
            fixed, loose = inner_of(joint, end), tip_of(joint, end)
            axis = Axis(fixed, direction(fixed, loose))
            to = next_stop(after, axis, math.dist(fixed, loose), others)
            joint = with_end(joint, end, axis.at(to))
    return joint


def _trimmed(concrete: Area, joints: Sequence[DrawnJoint]) -> tuple[DrawnJoint, ...]:
    out: dict[str, list[DrawnJoint]] = {}
    known = list(joints)
    shapely.prepare(concrete)
    for joint in joints:
        if concrete.covers(line_of(joint)):
            continue
        left = _left(concrete, joint)
        if sum(map(length_of, left)) < length_of(joint.path) - TOUCH:
            kept = renamed(joint, left, known) if left else []
            known += kept
            out[joint.id] = [
                replace(k, pinned=joint.pinned, reason=joint.reason, note=joint.note) for k in kept
            ]
    return in_place(joints, out)


def _left(concrete: Area, joint: DrawnJoint) -> Sequence[Path]:
    """The parts of a joint that lie in concrete."""
    if straight(joint):
        return inside(concrete, axis_of(joint), (0.0, math.dist(*joint.path)))
    return within(concrete, joint.path)
