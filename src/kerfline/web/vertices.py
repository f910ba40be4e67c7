"""Does what an action says to one point of a line: a knee of a joint."""

from dataclasses import replace

from kerfline.app import joint_bend
from kerfline.app.joint_parts import find
from kerfline.app.working import Working
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.units import parse_length
from kerfline.web.actions import AddVertex, MoveVertex, PlaceVertex, RemoveVertex, VertexAction


def on_vertex(action: VertexAction, working: Working) -> Working:
    """The state after something was done to a point.

    Raises:
        InputRefused: It cannot be done.
    """
    return _on_knee(action, working)


def _on_knee(action: VertexAction, working: Working) -> Working:
    concrete, joints = working.slab.concrete, working.joints
    match action:
        case MoveVertex():
            joints = joint_bend.move_knee(concrete, joints, action.id, action.index, action.to)
        case PlaceVertex():
            to = _knee_at(action, working)
            joints = joint_bend.move_knee(concrete, joints, action.id, action.index, to)
        case AddVertex():
            joints = joint_bend.add_knee(joints, action.id, action.at, action.after)
        case RemoveVertex():
            joints = joint_bend.remove_knee(concrete, joints, action.id, action.index)
    return replace(working, joints=joints)


def _knee_at(action: PlaceVertex, working: Working) -> Point:
    """A knee with one of its distances from the slab's lower left as written."""
    path = find(working.joints, action.id).path
    if action.index >= len(path):
        raise InputRefused(Mistake(what="the joint has no such knee", where=action.id))
    wished = parse_length(action.text, working.units, where=action.axis)
    x0, y0, _, _ = working.slab.gross.bounds
    x, y = path[action.index]
    return (x0 + wished, y) if action.axis == "x" else (x, y0 + wished)
