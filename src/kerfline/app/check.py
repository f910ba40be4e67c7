"""Holds a layout that somebody else made against the rules."""

from dataclasses import replace

from kerfline.app.check_beside import Beside
from kerfline.app.live import kept_outcome
from kerfline.app.outcome import Outcome
from kerfline.checks.check import in_order
from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job
from kerfline.model.slab import GivenJoint, JointKind
from kerfline.units import parse_length


def check_job(job: Job, beside: Beside = Beside()) -> Outcome:  # noqa: B008 - frozen
    """Holds the joints that a job's file or drawing gives against the job's rules.

    Args:
        job: A job that gives its joints.
        beside: The plan that they were cut by and the slab next door, where they are held against those
            too.

    Raises:
        InputRefused: The job gives no joints, or the neighbour lies elsewhere.
    """
    if not job.slab.pinned:
        raise InputRefused(_no_joints(job))
    held = kept_outcome(replace(job, slab=beside.surveyed(job.slab)))
    more = beside.findings(held.job, held.layout, held.rules)
    return replace(held, findings=in_order((*held.findings, *more)), beside=more)


def _no_joints(job: Job) -> Mistake:
    """That there is nothing to check, with the layers that may hold joints where a drawing was read."""
    from kerfline.files.drawing.perhaps import JOINTS_PERHAPS

    remedy = (
        'name their layers, as in --joints "S-JNTS*" (kerfline new lists what the drawing holds), '
        "or give them as [[joint]] in the job file"
    )
    offer = next((words for words in job.reading if words.startswith(JOINTS_PERHAPS)), "")
    if offer:
        remedy = (
            f"{offer[:1].lower()}{offer[1:].rstrip('.')}, or give them as [[joint]] in the job file"
        )
    return Mistake(what="there are no joints to check", where=job.name, remedy=remedy)


def with_depth(job: Job, depth: str | None) -> Job:
    """The job with a depth of cut for the control joints that have none noted.

    Raises:
        InputRefused: The text is no depth of a cut in this slab.
    """
    if depth is None:
        return job
    deep = parse_length(depth, job.units, where="--depth")
    if not 0 < deep < job.slab.thickness:
        raise InputRefused(
            Mistake(
                what="a sawn joint is cut into the slab, not through it",
                where="--depth",
                found=depth,
                allowed="more than nothing and less than the slab's thickness",
                remedy='write it as "1 1/4 in" or "32 mm"',
            )
        )
    joints = tuple(_cut(joint, deep) for joint in job.slab.joints)
    return replace(job, slab=replace(job.slab, joints=joints))


def _cut(joint: GivenJoint, depth: float) -> GivenJoint:
    sawn = joint.kind is JointKind.CONTROL and not joint.forbidden
    return replace(joint, depth=depth) if sawn and joint.depth is None else joint
