"""Holds a working state against the rules at once, with the very code of ``kerfline check``."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from shapely import LineString

from kerfline.app.lay_out import lay_out_job
from kerfline.app.outcome import Outcome, held
from kerfline.app.placements import placed
from kerfline.app.rules_of import rules_of
from kerfline.app.working import Working, job_of, was_kept
from kerfline.checks.check import held_against
from kerfline.checks.given import given_layout
from kerfline.checks.measures import measures_of
from kerfline.checks.parting import Parted, parted, parted_again
from kerfline.model.job import Job
from kerfline.model.layout import Joint, Layout, Panel, Reason
from kerfline.model.slab import GivenJoint, JointKind, Slab
from kerfline.rules.slab_rules import SlabRules


def measured(base: Job, working: Working, before: Outcome | None = None) -> Outcome:
    """The layout and the findings of a working state.

    Args:
        base: The job that it began with.
        working: The slab and the joints as drawn.
        before: A state like it; only what differs from it is measured anew.

    Raises:
        InputRefused: There is no such rule set.
    """
    return kept_outcome(job_of(base, working, only_pinned=False), before)


def outcome_of(job: Job, progress: Callable[[str], None] | None = None) -> Outcome:
    """The layout of a job: the one that was kept in it, else the one that the engine finds.

    Args:
        job: What the user told us.
        progress: Told in words what the engine is at.
    """
    if not was_kept(job):
        return lay_out_job(job, progress)
    if not job.day:
        return kept_outcome(job)
    rules = rules_of(job)
    return held(job, rules, placed(job, kept_layout(job.slab, rules)))


def kept_outcome(job: Job, before: Outcome | None = None) -> Outcome:
    """A job's own joints as its layout, of the kinds that they are, held against its rules.

    Args:
        job: The job.
        before: A job like it; only what differs from it is measured anew.
    """
    rules = rules_of(job)
    was = before.held if before else None
    concrete, lines = job.slab.concrete, [LineString(g.path) for g in job.slab.pinned]
    cut = parted_again(was.measures.parted, concrete, lines) if was else parted(concrete, lines)
    layout = kept_layout(job.slab, rules, cut, before.layout.panels if before else ())
    kept = was.measures.panels if was else ()
    result = held_against(measures_of(job.slab, layout, rules, job.display, cut, kept), was)
    return Outcome(job=job, rules=rules, layout=layout, findings=result.findings, held=result)


def kept_layout(
    slab: Slab, rules: SlabRules, cut: Parted | None = None, known: Sequence[Panel] = ()
) -> Layout:
    """The given joints and their panels.

    A joint that was laid out before keeps its reason, and is cut as deep as the rules ask now. Of a
    joint that somebody else drew no depth is assumed.

    Args:
        slab: The slab with its joints.
        rules: The rules.
        cut: The concrete cut along them, where that is known.
        known: Panels of an earlier layout, which stay themselves where nothing changed them.
    """
    layout = given_layout(slab, faces=cut.faces if cut else None, known=known)
    given = {g.id: g for g in slab.pinned}
    joints = tuple(_as_kept(j, given[j.id], slab, rules) for j in layout.joints)
    return replace(layout, joints=joints)


def _as_kept(joint: Joint, given: GivenJoint, slab: Slab, rules: SlabRules) -> Joint:
    reason = Reason(given.reason) if given.reason else joint.reason
    return replace(
        joint,
        reason=reason,
        note=given.note or joint.note,
        depth=_depth(joint, given, slab, rules),
    )


def _depth(joint: Joint, given: GivenJoint, slab: Slab, rules: SlabRules) -> float:
    """The depth that was noted, else for a cut planned here what the rules ask at its middle."""
    planned = given.reason and not given.existing and given.kind is JointKind.CONTROL
    if given.depth is not None or not planned:
        return joint.depth
    middle = joint.line.interpolate(0.5, normalized=True)
    return rules.cut_depth(slab.thickness_at(middle.x, middle.y))
