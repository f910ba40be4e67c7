"""Mends a layout that somebody else made: keeps its joints and adds the fewest that clear the errors."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import shapely
from shapely import LineString

from kerfline.app.check import check_job
from kerfline.app.lay_out import engine_options
from kerfline.app.outcome import Outcome
from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.geometry.faces import lines_of
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Joint, Layout
from kerfline.model.panelling import panels_of

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
    "length_hidden": 1.0,
    "tee": 1.0,
    "line": 1.0,
}
"""The engine's weights for a mend: nothing counts but broken rules and feet of new joint."""

LEAST_PIECE = 50.0
"""An addition shorter than this (mm) is the repair of an end that stops short, not a joint."""

BARS = (Rule.CORNER, Rule.FREE_END, Rule.TEE_END, Rule.COLUMN)
"""Rules that bars answer where a joint cannot."""


@dataclass(frozen=True, kw_only=True)
class Mended:
    """An amended layout.

    Attributes:
        before: The layout as given and what was found.
        after: The layout with the additions and what is left.
        added: Ids of the joints that were added.
        bars: Findings that are left and that bars answer.
        unmended: Errors that are left and that neither a joint nor bars answer.
    """

    before: Outcome
    after: Outcome
    added: tuple[str, ...]
    bars: tuple[Finding, ...]
    unmended: tuple[Finding, ...]


def mend_job(job: Job, progress: Callable[[str], None] | None = None) -> Mended:
    """Adds the fewest joints that clear the errors of a job's own joints.

    Args:
        job: A job that gives its joints.
        progress: Told in words what the engine is at.

    Raises:
        InputRefused: The job gives no joints.
    """
    before = check_job(job)
    if before.clean:
        return _mended(before, before, ())
    options = replace(engine_options(job, progress), weights={**FEWEST, **job.weights})
    wished = lay_out(job.slab, replace(before.rules, to_maximum=True), options)
    added = additions(before.layout, wished)
    after = _with(before, added)
    return _mended(before, after, tuple(j.id for j in added))


def additions(given: Layout, wished: Layout) -> tuple[Joint, ...]:
    """The parts of a layout that another does not have yet, as joints ``A1``, ``A2``, ..."""
    there = shapely.union_all([j.line for j in given.joints]).buffer(TOUCH, cap_style="flat")
    pieces = [(joint, piece) for joint in wished.joints for piece in _new_parts(joint, there)]
    return tuple(
        replace(
            joint,
            id=f"A{number}",
            path=tuple((float(x), float(y)) for x, y in piece.coords),
            hidden=joint.hidden * float(piece.length) / joint.length,
        )
        for number, (joint, piece) in enumerate(pieces, 1)
    )


def _new_parts(joint: Joint, there: shapely.Geometry) -> list[LineString]:
    """What is left of a joint along no existing one; crossings do not cut it."""
    along = [p for p in lines_of(joint.line.intersection(there)) if p.length > LEAST_PIECE]
    left = joint.line.difference(shapely.union_all(along).buffer(SAME, cap_style="flat"))
    return [piece for piece in lines_of(left) if piece.length > LEAST_PIECE]


def _with(before: Outcome, added: tuple[Joint, ...]) -> Outcome:
    job, joints = before.job, (*before.layout.joints, *added)
    panels = panels_of(job.slab.concrete, [j.line for j in joints])
    layout = replace(before.layout, joints=joints, panels=panels)
    findings = check(job.slab, layout, before.rules, job.display)
    return replace(before, layout=layout, findings=findings)


def _mended(before: Outcome, after: Outcome, added: tuple[str, ...]) -> Mended:
    errors = [f for f in after.findings if f.severity is Severity.ERROR]
    return Mended(
        before=before,
        after=after,
        added=added,
        bars=tuple(f for f in after.findings if f.rule in BARS),
        unmended=tuple(f for f in errors if f.rule not in BARS),
    )
