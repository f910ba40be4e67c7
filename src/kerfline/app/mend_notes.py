"""What an amended plan says of its additions: what each one does, where bars go, what it was mended to."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kerfline.app.outcome import Outcome
from kerfline.geometry.ends import EndKind, JointEnd, joint_ends
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Finding
from kerfline.model.layout import Joint
from kerfline.units import stored_length, stored_run

STRAIGHT_ON = 0.999
"""Cosine of the angle (about 2.5 degrees) within which one joint carries another on."""


def with_notes(after: Outcome, bars: Sequence[Finding]) -> Outcome:
    """An amended layout whose additions say what they do, with notes for the sheet."""
    layout = after.layout
    names = layout.added or frozenset()
    ends = joint_ends(after.job.slab.concrete, [j.line for j in layout.joints])
    joints = tuple(
        replace(j, note=_what(i, j, layout.joints, ends)) if j.id in names else j
        for i, j in enumerate(layout.joints)
    )
    notes = (*layout.notes, *_notes(after, joints, bars))
    return replace(after, layout=replace(layout, joints=joints, notes=notes))


def _what(index: int, joint: Joint, joints: Sequence[Joint], ends: Sequence[JointEnd]) -> str:
    """What an addition does: carries an existing joint on, or what the engine put it there for."""
    own = [e for e in ends if e.joint == index]
    carried = [
        (joints[other.joint].id, own[1 - i])
        for i, end in enumerate(own)
        for other in ends
        if other.joint in end.others and _goes_on(end, other)
    ]
    if len({name for name, _ in carried}) > 1:
        return f"joins {' and '.join(name for name, _ in carried)}"
    said = [f"carries {name} on to {_meets(far, joints)}" for name, far in carried]
    return ", ".join(said) or f"added: {joint.note}"


def _goes_on(end: JointEnd, other: JointEnd) -> bool:
    """Whether two ends meet and point at each other."""
    apart = max(abs(end.at[0] - other.at[0]), abs(end.at[1] - other.at[1]))
    facing = end.outward[0] * other.outward[0] + end.outward[1] * other.outward[1]
    return apart <= TOUCH and facing <= -STRAIGHT_ON


def _meets(end: JointEnd, joints: Sequence[Joint]) -> str:
    if end.kind is EndKind.EDGE:
        return "the edge"
    return joints[end.others[0]].id if end.others else "its end"


def _notes(after: Outcome, joints: Sequence[Joint], bars: Sequence[Finding]) -> Iterator[str]:
    added = [j for j in joints if j.id in (after.layout.added or ())]
    if added:
        length = stored_run(sum(j.length for j in added))
        listed = ", ".join(f"{j.id} {stored_length(j.length)}" for j in added)
        yield f"Added joints, {length} in all: {listed}. Existing joints stay as they are."
    else:
        yield "No joint is added: none would clear an error. Existing joints stay as they are."
    for finding in bars:
        yield f"Bars, where the engineer agrees: {finding.message} {finding.remedy}"
