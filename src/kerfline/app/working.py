"""The state that a person works on: the slab and the joints as they are drawn now, legal or not."""

from dataclasses import dataclass, replace

from kerfline.app.outcome import Outcome
from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Joint, Reason
from kerfline.model.slab import GivenJoint, JointKind, Slab
from kerfline.model.tracing import Tracing
from kerfline.units import Unit

KEPT = (Reason.PINNED, Reason.FOUND)
"""Reasons of joints that are the user's own; the engine leaves them where they are."""

BY_HAND = "placed by hand"


@dataclass(frozen=True, kw_only=True)
class DrawnJoint:
    """A joint as it is drawn now.

    Attributes:
        id: Name that stays with it while it is moved.
        path: Its line, two points or more.
        kind: What it is.
        pinned: Whether the engine must leave it where it is.
        existing: Whether it is in the concrete already.
        depth: Depth of the cut the user noted; None leaves it to the rules.
        reason: Why it is there.
        note: The reason in words.
    """

    id: str
    path: tuple[Point, ...]
    kind: JointKind = JointKind.CONTROL
    pinned: bool = False
    existing: bool = False
    depth: float | None = None
    reason: Reason = Reason.PINNED
    note: str = BY_HAND


@dataclass(frozen=True, kw_only=True)
class Working:
    """Everything that a person may change.

    Attributes:
        name: Name of the job.
        units: Unit of bare numbers that are typed, and the way lengths are shown.
        slab: What is given; its ``joints`` are the forbidden lines only.
        joints: The joints as drawn.
        rule_set: Name of the rule set.
        to_maximum: Work to the greatest span instead of the advised one.
        tracing: The picture under the drawing; None where there is none.
    """

    name: str
    units: Unit
    slab: Slab
    joints: tuple[DrawnJoint, ...]
    rule_set: str
    to_maximum: bool = False
    tracing: Tracing | None = None


def working_of(outcome: Outcome) -> Working:
    """The working state that a layout starts with."""
    job = outcome.job
    given = {g.id: g for g in job.slab.pinned}
    return Working(
        name=job.name,
        units=job.units,
        slab=replace(job.slab, joints=job.slab.forbidden),
        joints=tuple(_drawn(j, given.get(j.id)) for j in outcome.layout.joints),
        rule_set=job.rules.name,
        to_maximum=job.rules.to_maximum,
        tracing=job.tracing,
    )


def _drawn(joint: Joint, given: GivenJoint | None) -> DrawnJoint:
    return DrawnJoint(
        id=joint.id,
        path=joint.path,
        kind=joint.kind,
        pinned=joint.reason in KEPT,
        existing=joint.reason is Reason.FOUND or bool(given and given.existing),
        depth=given.depth if given else None,
        reason=joint.reason,
        note=joint.note,
    )


def job_of(base: Job, working: Working, *, only_pinned: bool) -> Job:
    """The job that a working state stands for.

    Args:
        base: The job that it began with; gives what the page does not change.
        working: The state.
        only_pinned: Give the pinned joints alone, for the engine to complete; else all of them.
    """
    given = tuple(_given(j) for j in working.joints if j.pinned or not only_pinned)
    return replace(
        base,
        name=working.name,
        units=working.units,
        slab=replace(working.slab, joints=(*given, *working.slab.joints)),
        rules=replace(base.rules, name=working.rule_set, to_maximum=working.to_maximum),
        tracing=working.tracing,
    )


def _given(joint: DrawnJoint) -> GivenJoint:
    kept = joint.pinned and joint.reason not in KEPT
    return GivenJoint(
        id=joint.id,
        path=joint.path,
        kind=joint.kind,
        existing=joint.existing,
        depth=joint.depth,
        reason=(Reason.PINNED if kept else joint.reason).value,
        note=joint.note,
    )


def was_kept(job: Job) -> bool:
    """Whether a job's joints are a whole layout that was kept before, not joints to complete around."""
    return any(j.reason for j in job.slab.pinned)
