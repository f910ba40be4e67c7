"""Mends a layout that somebody else made: keeps its joints and adds the fewest that clear the errors.

Two mends are made: the engine completes the layout around the existing joints, and the plain way carries
on and cuts across. What either adds and no error needs is taken out again, and the better one is taken. Additions that do not lessen the errors are not proposed at all, so that a mend makes nothing worse.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import LineString

from kerfline.app.lay_out import engine_options
from kerfline.app.mend_ends import landed
from kerfline.app.mend_notes import with_notes
from kerfline.app.mend_plain import plain_additions
from kerfline.app.outcome import Outcome
from kerfline.checks.check import check, in_order
from kerfline.engine.lay_out import lay_out
from kerfline.geometry.faces import lines_of
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Joint, Layout
from kerfline.model.panelling import panels_of
from kerfline.model.slab import Slab

FEWEST = {
    "wall_bare": 0.0,
    "wall_bare_once": 0.0,
    "aspect_advised": 0.0,
    "square": 0.0,
    "small": 0.0,
    "uneven": 0.0,
    "width_advised": 0.0,
    "column_side": 0.0,
    "penetration_auto": 0.0,
    "corner_passed": 0.0,
    "warned": 0.0,
    "span_advised": 0.0,
    "length_hidden": 1.0,
    "tee": 1.0,
    "line": 1.0,
}
"""The engine's weights for a mend: nothing counts but broken rules and feet of new joint."""

LEAST_PIECE = 50.0
"""An addition shorter than this (mm) is the repair of an end that stops short, not a joint."""

MOST_TRIALS = 20_000
"""Trials times panels up to which each addition is asked whether it is needed."""

BARS = (Rule.CORNER, Rule.FREE_END, Rule.TEE_END, Rule.COLUMN)
"""Rules that bars answer where a joint cannot."""


@dataclass(frozen=True, kw_only=True)
class Mended:
    """An amended layout.

    Attributes:
        before: The layout as given and what was found.
        after: The layout with the additions and what is left; its ``layout.added`` names them.
        bars: Findings that are left and that bars answer.
        unmended: Errors that are left and that neither a joint nor bars answer.
    """

    before: Outcome
    after: Outcome
    bars: tuple[Finding, ...]
    unmended: tuple[Finding, ...]

    @property
    def added(self) -> tuple[Joint, ...]:
        """The joints that were added."""
        return tuple(_added(self.after))


def mend(before: Outcome, progress: Callable[[str], None] | None = None) -> Mended:
    """Adds the fewest joints that clear the errors of a layout that was checked.

    Args:
        before: The layout as given and what was found.
        progress: Told in words what the engine is at.
    """
    if before.clean:
        return _mended(before, with_joints(before, ()))
    job = before.job
    options = replace(engine_options(job, progress), weights={**FEWEST, **job.weights})
    wished = lay_out(job.slab, replace(before.rules, to_maximum=True), options)
    offers = (
        additions(job.slab, before.layout, wished),
        plain_additions(job.slab, before.layout, before.rules, job.display),
    )
    best = min((_needed(before, offer) for offer in offers), key=_cost)
    return _mended(before, min(best, _cut_on(before, best), key=_cost))


def _cut_on(before: Outcome, best: Outcome) -> Outcome:
    """A mend whose errors that are left are tried the plain way, with what it has added already."""
    if best.clean:
        return best
    job = before.job
    more = plain_additions(job.slab, best.layout, before.rules, job.display)
    return _needed(before, _numbered([*_added(best), *more]))


def _added(outcome: Outcome) -> list[Joint]:
    names = outcome.layout.added or ()
    return [j for j in outcome.layout.joints if j.id in names]


def _cost(outcome: Outcome) -> tuple[int, float]:
    """What a mend should be least in: errors, then feet of joint."""
    return (_errors(outcome), round(sum(j.length for j in _added(outcome))))


def additions(slab: Slab, given: Layout, wished: Layout) -> tuple[Joint, ...]:
    """The parts of a layout that another does not have yet, as joints ``A1``, ``A2``, ..."""
    lines = [j.line for j in given.joints]
    there = shapely.union_all(lines).buffer(TOUCH, cap_style="flat")
    pieces = [(joint, piece) for joint in wished.joints for piece in _new_parts(joint, there)]
    added = (
        replace(
            joint,
            id=f"A{number}",
            path=tuple((float(x), float(y)) for x, y in piece.coords),
            hidden=joint.hidden * float(piece.length) / joint.length,
        )
        for number, (joint, piece) in enumerate(pieces, 1)
    )
    return landed(slab.concrete, lines, added)


def _new_parts(joint: Joint, there: shapely.Geometry) -> list[LineString]:
    """What is left of a joint along no existing one; crossings do not cut it."""
    along = [p for p in lines_of(joint.line.intersection(there)) if p.length > LEAST_PIECE]
    left = joint.line.difference(shapely.union_all(along).buffer(SAME, cap_style="flat"))
    return [piece for piece in lines_of(left) if piece.length > LEAST_PIECE]


def _needed(before: Outcome, offered: Sequence[Joint]) -> Outcome:
    """The layout with those additions that the errors need; with none where they clear nothing."""
    none = with_joints(before, ())
    best = with_joints(before, offered)
    kept = list(offered)
    trials = len(kept) * len(best.layout.panels)
    for joint in sorted(offered, key=lambda j: (-j.length, j.id)) if trials <= MOST_TRIALS else ():
        fewer = [j for j in kept if j.id != joint.id]
        tried = with_joints(before, fewer)
        if _errors(tried) <= _errors(best):
            kept, best = fewer, tried
    return with_joints(before, _numbered(kept)) if _errors(best) < _errors(none) else none


def _numbered(joints: Sequence[Joint]) -> list[Joint]:
    return [replace(joint, id=f"A{number}") for number, joint in enumerate(joints, 1)]


def _errors(outcome: Outcome) -> int:
    return outcome.count(Severity.ERROR)


def with_joints(before: Outcome, added: Sequence[Joint]) -> Outcome:
    """A layout with joints added: the existing ones as they were, panels and findings taken anew."""
    job, joints = before.job, (*before.layout.joints, *added)
    layout = replace(
        before.layout,
        joints=joints,
        panels=panels_of(job.slab.concrete, [j.line for j in joints]),
        limits=replace(before.rules, to_maximum=True).working(job.slab.thickness),
        added=frozenset(j.id for j in added),
    )
    found = check(job.slab, layout, before.rules, job.display)
    return replace(before, layout=layout, findings=in_order((*found, *before.beside)))


def _mended(before: Outcome, after: Outcome) -> Mended:
    left = [f for f in after.findings if f.severity is Severity.ERROR]
    bars = tuple(f for f in after.findings if f.rule in BARS and f.severity is not Severity.ADVICE)
    return Mended(
        before=before,
        after=with_notes(after, bars),
        bars=bars,
        unmended=tuple(f for f in left if f.rule not in BARS),
    )
