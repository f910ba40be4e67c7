"""Does what an action says to a bend of a joint."""

from kerfline.app import joint_bend
from kerfline.app.joint_parts import find
from kerfline.app.working import DrawnJoint, Working
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.units import parse_length
from kerfline.web.actions import AddVertex, MoveVertex, PlaceVertex, RemoveVertex, VertexAction


def on_bend(action: VertexAction, working: Working) -> tuple[DrawnJoint, ...]:
    """The joints after something was done to a bend of one.

    Raises:
        InputRefused: It cannot be done.
    """
    concrete, joints = working.slab.concrete, working.joints
    match action:
        case MoveVertex():
            return joint_bend.move_knee(concrete, joints, action.id, action.index, action.to)
        case PlaceVertex():
            to = _bend_at(action, working)
            return joint_bend.move_knee(concrete, joints, action.id, action.index, to)
        case AddVertex():
            return joint_bend.add_knee(joints, action.id, action.at, action.after)
        case RemoveVertex():
            return joint_bend.remove_knee(concrete, joints, action.id, action.index)


def _bend_at(action: PlaceVertex, working: Working) -> Point:
    """A bend with one of its distances from the slab's lower left as written."""
    path = find(working.joints, action.id).path
    if action.index >= len(path):
        raise InputRefused(Mistake(what="the joint has no such bend", where=action.id))
    wished = parse_length(action.text, working.units, where=action.axis)
    x0, y0, _, _ = working.slab.gross.bounds
    x, y = path[action.index]
    return (x0 + wished, y) if action.axis == "x" else (x, y0 + wished)
