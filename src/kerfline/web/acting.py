"""Does what an action of the page says: the state before in, the state after out."""

import math
from dataclasses import replace

from kerfline.app import joint_edit, joint_ends, slab_edit
from kerfline.app.joint_axis import line_of
from kerfline.app.joint_parts import find
from kerfline.app.joint_refit import refit
from kerfline.app.repeat import Named, repeated
from kerfline.app.working import Working
from kerfline.errors import InputRefused, Mistake
from kerfline.files.slab_sense import check_slab
from kerfline.geometry.ring import Point
from kerfline.model.layout import Panel
from kerfline.model.panelling import panels_of
from kerfline.model.slab import GivenJoint, Slab
from kerfline.units import depth_unit, parse_length
from kerfline.web.actions import (
    Action,
    Add,
    AddVertex,
    ColumnGrid,
    Delete,
    Draw,
    Forbid,
    Kind,
    Many,
    Move,
    MoveEnd,
    MoveVertex,
    Pin,
    Place,
    PlaceVertex,
    RemoveVertex,
    Repeat,
    Rules,
    Set,
    Slide,
    Split,
    StepEnd,
    Thickness,
)
from kerfline.web.bends import on_bend
from kerfline.web.openings import on_corner, on_opening
from kerfline.web.tracing_actions import TracingAction, on_tracing


def apply(action: Action, working: Working) -> Working:
    """The state after an action.

    Raises:
        InputRefused: It cannot be done; the state stays as it was.
    """
    if isinstance(action, TracingAction):
        return replace(working, tracing=on_tracing(action, working.tracing, working.units))
    match action:
        case Many():
            for single in action.actions:
                working = apply(single, working)
            return working
        case Thickness() | Rules():
            return _choose(action, working)
        case Repeat():
            return _repeated(action, working)
        case ColumnGrid():
            return _columns(action, working)
        case MoveVertex() | PlaceVertex() | AddVertex() | RemoveVertex():
            if action.what == "joint":
                return replace(working, joints=on_bend(action, working))
            return _sensible(working, on_corner(action, working.slab, working.units))
        case Add() | Move() | Set():
            return _on_slab(action, working)
        case Delete() if action.what != "joint":
            return _on_slab(action, working)
        case _:
            return _on_joints(action, working)


def _choose(action: Thickness | Rules, working: Working) -> Working:
    if isinstance(action, Rules):
        return replace(working, rule_set=action.set, to_maximum=action.to_maximum)
    thickness = slab_edit.positive_length(action.text, depth_unit(working.units), "thickness")
    return _sensible(working, replace(working.slab, thickness=thickness))


WAYS = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}


def _repeated(action: Repeat, working: Working) -> Working:
    by = action.by
    if by is None:
        step = slab_edit.positive_length(action.text, working.units, "step")
        by = (WAYS[action.way][0] * step, WAYS[action.way][1] * step)
    copied = repeated(working, (Named(i.what, i.id) for i in action.items), by, action.times)
    if copied.slab is working.slab:
        return copied
    return _sensible(replace(copied, slab=working.slab), copied.slab)


def _columns(action: ColumnGrid, working: Working) -> Working:
    unit, slab = working.units, working.slab
    first = [parse_length(text, unit, where="first column") for text in action.at]
    steps = [
        slab_edit.positive_length(text, unit, "spacing") if count > 1 else 0.0
        for text, count in zip(action.every, action.times, strict=True)
    ]
    x0, y0, _, _ = slab.gross.bounds
    names = {j.id for j in working.joints}
    for row in range(action.times[1]):
        for number in range(action.times[0]):
            at = (x0 + first[0] + number * steps[0], y0 + first[1] + row * steps[1])
            name = slab_edit.new_id(slab, "column", names)
            slab = slab_edit.add(slab, "column", (at,), name)
    return _sensible(working, slab)


def _on_slab(action: Add | Move | Set | Delete, working: Working) -> Working:
    slab = working.slab
    if action.what == "opening":
        return _sensible(working, on_opening(action, slab, working.units))
    match action:
        case Add():
            name = slab_edit.new_id(slab, action.what, {j.id for j in working.joints})
            slab = slab_edit.add(slab, action.what, action.points, name)
        case Move():
            slab = slab_edit.move(slab, action.what, action.id, action.by)
        case Set():
            slab = slab_edit.set_field(
                slab, action.what, action.id, action.field, action.value, working.units
            )
        case Delete():
            slab = slab_edit.remove(slab, action.what, action.id)
    return _sensible(working, slab)


def _sensible(working: Working, slab: Slab) -> Working:
    """The state with another slab, its joints fitted to the concrete that is there now."""
    mistakes = check_slab(slab, display=working.units.display)
    if mistakes:
        raise InputRefused(*mistakes)
    joints = refit(working.slab.concrete, slab.concrete, working.joints)
    return replace(working, slab=slab, joints=joints)


def _on_joints(
    action: Slide | Place | MoveEnd | StepEnd | Draw | Split | Delete | Pin | Kind | Forbid,
    working: Working,
) -> Working:
    concrete, joints = working.slab.concrete, working.joints
    match action:
        case Slide():
            joints = joint_edit.slide(concrete, joints, action.id, action.by)
        case Place():
            joints = joint_edit.slide(concrete, joints, action.id, _to_place(action, working))
        case MoveEnd():
            joints = joint_ends.move_end(
                concrete, joints, action.id, action.end, action.to, action.near
            )
        case StepEnd():
            joints = joint_ends.step_end(concrete, joints, action.id, action.end, action.by)
        case Draw():
            joints = joint_edit.draw(concrete, joints, action.start, action.end)
        case Split():
            panel = _panel(working, action.id)
            at, way = _split_line(panel, action)
            joints = joint_edit.split(concrete, joints, panel.polygon, way, at)
        case Delete():
            joints = joint_edit.delete(concrete, joints, action.id)
        case Pin():
            joints = joint_edit.pinned(joints, action.id, pinned=action.pinned)
        case Kind():
            joints = tuple(replace(j, kind=action.kind) if j.id == action.id else j for j in joints)
        case Forbid():
            return _forbid(working, action.id)
    return replace(working, joints=joints)


def _forbid(working: Working, name: str) -> Working:
    joint = find(working.joints, name)
    joints = joint_edit.delete(working.slab.concrete, working.joints, name)
    line = GivenJoint(
        id=slab_edit.new_id(working.slab, "forbidden", {j.id for j in joints}),
        path=joint.path,
        forbidden=True,
    )
    slab = replace(working.slab, joints=(*working.slab.joints, line))
    return replace(working, slab=slab, joints=joints)


def _panel(working: Working, name: str) -> Panel:
    lines = [line_of(j) for j in working.joints]
    panels = panels_of(working.slab.concrete, lines)
    found = next((p for p in panels if p.id == name), None)
    if found is None:
        raise InputRefused(Mistake(what="there is no such panel", where=name))
    return found


def _split_line(panel: Panel, action: Split) -> tuple[Point, Point]:
    """A point on the new joint and its direction: square to the panel's length unless turned."""
    spot = panel.polygon.centroid
    at = action.at or (float(spot.x), float(spot.y))
    angle = math.radians(panel.box.angle + (0.0 if action.turned else 90.0))
    return at, (math.cos(angle), math.sin(angle))


def _to_place(action: Place, working: Working) -> Point:
    """How far a joint must go to lie at the written distance from the slab's lower left."""
    joint = find(working.joints, action.id)
    (ax, ay), (bx, by) = joint.path[0], joint.path[-1]
    wished = parse_length(action.text, working.units, where="place")
    x0, y0, _, _ = working.slab.gross.bounds
    if abs(bx - ax) < abs(by - ay):
        return (x0 + wished - ax, 0.0)
    return (0.0, y0 + wished - ay)
