"""An as-cut survey held against the plan: joints off their line, not cut, or not planned."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import LineString

from kerfline.checks.along import Beside, Run, left_of, merged, runs_of
from kerfline.checks.sources import AS_CUT, OFF_PLAN, ON_PLANNED_LINE
from kerfline.checks.wording import Wording, wording_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Layout
from kerfline.model.slab import GivenJoint, JointKind, Slab
from kerfline.rules.limits import Source
from kerfline.units import Display

SAME_JOINT = 304.8
"""A cut farther than this (mm, 1 ft) from a planned joint is another joint (common practice)."""

SHORT = 101.6
"""What a saw may leave uncut at a wall (mm, 4 in): a stretch of this length is no missing joint."""


@dataclass(frozen=True)
class Offset:
    """How a stretch of a surveyed joint lies against the plan.

    Attributes:
        at: Middle of the stretch.
        length: Length of the stretch, mm.
        planned: Id of the planned joint it stands for; empty where there is none near.
        off: Greatest distance sideways from it, mm; None where there is none near.
    """

    at: Point
    length: float
    planned: str
    off: float | None


@dataclass(frozen=True)
class Lines:
    """Joints by id and line, found by place."""

    ids: tuple[str, ...]
    lines: tuple[LineString, ...]

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Finds joints."""
        return shapely.STRtree(self.lines)

    def beside(self, run: Run) -> list[tuple[Beside, str]]:
        """The joints along a stretch within ``SAME_JOINT``, and where."""
        near = sorted(self.tree.query(run.line, "dwithin", SAME_JOINT).tolist())
        return [
            (beside, self.ids[i])
            for i in near
            for beside in run.alongside(self.lines[i], SAME_JOINT)
        ]


def as_cut(slab: Slab, plan: Layout, display: Display) -> tuple[Finding, ...]:
    """Holds the joints that a survey found against those that were planned.

    Args:
        slab: The slab, whose existing joints are the survey.
        plan: The layout that was to be cut.
        display: How lengths are written in messages.

    Returns:
        Findings of the rule ``edge``, joint by joint: cuts more than 3/4 in off their planned place,
        cuts that stand for no planned joint, and stretches of the plan that were not cut.
    """
    words = wording_of(slab, display)
    survey = [j for j in slab.joints if j.existing and not j.forbidden]
    planned = Lines(tuple(j.id for j in plan.joints), tuple(j.line for j in plan.joints))
    off = [
        _off_plan(words, joint, offset)
        for joint in survey
        for offset in offsets(joint.path, planned)
        if offset.off is None or offset.off > OFF_PLAN + MEASURE
    ]
    return (*off, *_not_cut(words, survey, plan))


def offsets(path: Sequence[Point], planned: Lines) -> list[Offset]:
    """How each straight stretch of a surveyed joint lies against the plan.

    A stretch within ``OFF_PLAN`` of one planned joint is measured against that one, whatever others
    are near; crossings and the run-out of the blade (``SHORT``) are no stretches.
    """
    return [offset for run in runs_of(path) for offset in _run_offsets(run, planned)]


def _run_offsets(run: Run, planned: Lines) -> Iterator[Offset]:
    beside = sorted(planned.beside(run), key=lambda row: (row[0].off, row[1]))
    near = [row for row in beside if row[0].off <= OFF_PLAN + MEASURE]
    covered = merged((b.start, b.end) for b, _ in near)
    yield from (
        Offset(run.at((b.start + b.end) / 2), b.end - b.start, name, b.off) for b, name in near
    )
    for start, end in left_of((0.0, run.length), covered):
        if end - start > min(SHORT, run.length / 2):
            middle = (start + end) / 2
            off, name = next(
                ((b.off, n) for b, n in beside if b.start <= middle <= b.end), (None, "")
            )
            yield Offset(run.at(middle), end - start, name, off)


def _off_plan(words: Wording, joint: GivenJoint, offset: Offset) -> Finding:
    construction = joint.kind is JointKind.CONSTRUCTION
    kind = "The construction joint" if construction else "The joint"
    where = f"at {words.place(offset.at)}"
    if offset.off is None:
        message = f"{kind} {joint.id} {where} stands for no joint of the plan."
        severity = Severity.ERROR if construction else Severity.WARNING
    else:
        message = (
            f"{kind} {joint.id} {where} lies {words.depth(offset.off)} off its planned place on "
            f"{offset.planned}; {words.depth(OFF_PLAN)} is allowed."
        )
        severity = Severity.WARNING
    return _finding(
        joint.id,
        offset.at,
        severity,
        offset.off,
        message,
        source=ON_PLANNED_LINE if construction else AS_CUT,
        remedy="Note the change on the drawing and hold the panels beside it against the rules again.",
    )


def _not_cut(words: Wording, survey: Sequence[GivenJoint], plan: Layout) -> Iterator[Finding]:
    found = Lines(tuple(j.id for j in survey), tuple(LineString(j.path) for j in survey))
    for joint in plan.joints:
        for run in runs_of(joint.path):
            cut = merged((b.start, b.end) for b, _ in found.beside(run))
            for start, end in left_of((0.0, run.length), cut):
                if end - start > SHORT:
                    at = run.at((start + end) / 2)
                    yield _finding(
                        joint.id,
                        at,
                        Severity.ERROR,
                        end - start,
                        f"{words.length(end - start)} of {joint.id} at {words.place(at)} is not cut.",
                        source=AS_CUT,
                        remedy="Cut it now: a late cut is worth more than none, unless a crack runs there.",
                    )


def _finding(
    subject: str,
    at: Point,
    severity: Severity,
    measured: float | None,
    message: str,
    *,
    source: Source,
    remedy: str,
) -> Finding:
    return Finding(
        rule=Rule.EDGE,
        severity=severity,
        at=at,
        subject=subject,
        measured=measured,
        limit=OFF_PLAN,
        message=message,
        source=str(source),
        remedy=remedy,
    )
