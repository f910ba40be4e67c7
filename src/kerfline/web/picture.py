"""What the page draws: a layout and its findings as plain data, every text ready to be shown.

The page computes no measure of its own; each number here comes from the same code that
``kerfline check`` uses. Coordinates are mm in the drawing's own origin, y up.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import shapely
from shapely import Polygon

from kerfline.app.joint_path import knees_of
from kerfline.app.outcome import Outcome
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding, Severity
from kerfline.model.layout import Joint, Layout, Panel
from kerfline.model.slab import Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import (
    Display,
    depth_unit,
    format_area,
    format_depth,
    format_length,
    format_run,
    grid_step,
    in_words,
)
from kerfline.web.slab_picture import PLACES, Data, point_of, points_of, ring_points, slab_data
from kerfline.web.tracing import tracing_data

DIMENSION_STEP = 1.0
"""Two joints closer than this (mm) along a side share a tick of the dimension string."""

KEPT = 8192
"""Panels whose words are kept."""

ROOM = 50.0
"""How closely (mm) the roomiest place in a panel with an opening is looked for."""

UPRIGHT = 1e-3
"""A joint is square to a side where its slope is below this."""


@dataclass(frozen=True)
class Shown:
    """A state that was shown: what it was drawn from, and what the page was told."""

    outcome: Outcome
    picture: Data


def picture(outcome: Outcome, before: Shown | None = None) -> Data:
    """Everything that the page draws.

    Args:
        outcome: What is drawn.
        before: A state like it; what is drawn as it was there is the same object.
    """
    job, layout = outcome.job, outcome.layout
    display = job.display
    return {
        "job": job.name,
        "display": display.value,
        "units": {"length": job.units.value, "depth": depth_unit(job.units).value},
        "grid": grid_step(display),
        "bounds": [round(v, PLACES) for v in job.slab.gross.bounds],
        "slab": slab_data(job.slab, display),
        "joints": [joint_data(j, display) for j in layout.joints],
        "panels": panels_data(outcome, before),
        "findings": [finding_data(f) for f in outcome.findings],
        "totals": totals_data(outcome),
        "dimensions": dimensions(job.slab, layout, display),
        "rules": rules_data(outcome),
        "tracing": tracing_data(job.tracing),
        "notes": [*job.notes, *(in_words(note, display) for note in layout.notes)],
    }


def joint_data(joint: Joint, display: Display) -> Data:
    """One joint."""
    return {
        "id": joint.id,
        "kind": joint.kind.value,
        "path": points_of(joint.path),
        "bends": knees_of(joint.path),
        "length": format_length(joint.length, display),
        "hidden": format_length(joint.hidden, display) if joint.hidden else "",
        "depth": format_depth(joint.depth, display) if joint.depth else "",
        "reason": joint.reason.value,
        "note": in_words(joint.note, display),
    }


def panels_data(outcome: Outcome, before: Shown | None = None) -> list[Data]:
    """The panels, each with its sizes, its share of the limit and how it stands."""
    order = {severity: number for number, severity in enumerate(Severity)}
    worst: dict[str, Severity] = {}
    for finding in outcome.findings:
        held = worst.get(finding.subject)
        if held is None or order[finding.severity] < order[held]:
            worst[finding.subject] = finding.severity
    spans: dict[float, tuple[float, float]] = {}
    known, display = _known(outcome, before), outcome.job.display
    out = []
    for panel in outcome.layout.panels:
        status = _status(worst.get(panel.id))
        data = known.get(id(panel))
        if data is None:
            drawn = _drawn(panel.polygon, display)
            thickness = outcome.job.slab.thickness_at(*drawn.at)
            if thickness not in spans:
                spans[thickness] = _spans(outcome.rules, thickness)
            data = _panel(panel, drawn, spans[thickness], status, display)
        out.append(data if data["status"] == status else data | {"status": status})
    return out


def _known(outcome: Outcome, before: Shown | None) -> dict[int, Data]:
    """What was said of each panel before, by the panel itself, where it is still said so."""
    if before is None or _panel_context(before.outcome) != _panel_context(outcome):
        return {}
    panels = before.outcome.layout.panels
    return {id(p): data for p, data in zip(panels, before.picture["panels"], strict=True)}


def _panel_context(outcome: Outcome) -> object:
    """What is read for the words on a panel besides the panel itself and its findings."""
    slab = outcome.job.slab
    return outcome.rules, outcome.job.display, slab.thickness, slab.zones


def _status(worst: Severity | None) -> str:
    return worst.value if worst and worst is not Severity.ADVICE else "ok"


def _spans(rules: SlabRules, thickness: float) -> tuple[float, float]:
    """The span that is worked to and the greatest one, at a thickness; mm."""
    return rules.working(thickness).span, rules.limits(thickness).span.bound


@dataclass(frozen=True)
class DrawnPanel:
    """What the page is told of a panel's figure, whatever it is called and however it stands.

    Attributes:
        at: Where its size is written, mm.
        span: What is held against the span, mm.
        data: The rest, ready to be sent.
    """

    at: Point
    span: float
    data: Data


@lru_cache(maxsize=KEPT)
def _drawn(polygon: Polygon, display: Display) -> DrawnPanel:
    """A panel's figure in words; kept, since a change leaves most panels as they were."""
    panel = Panel(id="", polygon=polygon)
    at = label_point(polygon)
    data = {
        "outline": ring_points(polygon),
        "openings": [points_of(list(r.coords)[:-1]) for r in polygon.interiors],
        "at": point_of(at),
        "length": format_length(panel.length, display),
        "width": format_length(panel.width, display),
        "aspect": f"{panel.aspect:.2f}",
        "area": format_area(panel.area, display),
        "mm": {
            "length": round(panel.length, 4),
            "width": round(panel.width, 4),
            "area": round(panel.area, 1),
        },
    }
    return DrawnPanel(at=at, span=panel.span, data=data)


def _panel(
    panel: Panel,
    drawn: DrawnPanel,
    spans: tuple[float, float],
    status: str,
    display: Display,
) -> Data:
    working, greatest = spans
    return {
        "id": panel.id,
        **drawn.data,
        "share": round(drawn.span / working, 4),
        "limit": format_length(working, display),
        "greatest": format_length(greatest, display),
        "status": status,
    }


def label_point(polygon: Polygon) -> Point:
    """Where a panel's size is written: its centroid where that is well inside, else where there is most room."""
    spot = polygon.centroid
    if polygon.interiors:
        circle = shapely.maximum_inscribed_circle(polygon, ROOM)
        spot = shapely.Point(circle.coords[0])
    elif not polygon.contains(spot):
        spot = polygon.representative_point()
    return (float(spot.x), float(spot.y))


def finding_data(finding: Finding) -> Data:
    """One finding."""
    return {
        "rule": finding.rule.value,
        "severity": finding.severity.value,
        "at": point_of(finding.at),
        "subject": finding.subject,
        "message": finding.message,
        "source": finding.source,
        "remedy": finding.remedy,
    }


def totals_data(outcome: Outcome) -> Data:
    """The totals as a builder reads them."""
    job, layout = outcome.job, outcome.layout
    lines = [j.line for j in layout.joints]
    ends = joint_ends(job.slab.concrete, lines) if lines else []
    totals = {
        "panels": len(layout.panels),
        "joints": len(layout.joints),
        "length": format_run(layout.joint_length, job.display),
        "hidden": format_run(layout.hidden_length, job.display),
        "area": format_area(float(job.slab.concrete.area), job.display),
        "lines": chalk_lines(lines),
        "tees": sum(e.kind is EndKind.TEE for e in ends),
        "free": sum(e.kind is EndKind.FREE for e in ends),
        "errors": outcome.count(Severity.ERROR),
        "warnings": outcome.count(Severity.WARNING),
        "advice": outcome.count(Severity.ADVICE),
    }
    return totals | {"words": _totals_words(totals)}


def _totals_words(totals: Data) -> str:
    """The totals as one line, to be held beside those of other layouts."""
    return (
        f"{totals['panels']} panels, {totals['length']} of joint, {totals['hidden']} under walls, "
        f"{totals['lines']} chalk lines, {totals['tees']} tee ends; "
        f"{totals['errors']} errors, {totals['warnings']} warnings"
    )


def rules_data(outcome: Outcome) -> Data:
    """The limits that hold for the slab's own thickness."""
    display = outcome.job.display
    limits = outcome.rules.limits(outcome.job.slab.thickness)
    return {
        "set": limits.rule_set,
        "title": load(outcome.job.rules.name).title,
        "toMaximum": outcome.rules.to_maximum,
        "span": format_length(limits.span.advised, display),
        "greatest": format_length(limits.span.bound, display),
        "aspect": f"{limits.aspect.advised:g} advised, {limits.aspect.bound:g} at most",
        "source": str(limits.span.source),
    }


def dimensions(slab: Slab, layout: Layout, display: Display) -> list[Data]:
    """Dimension strings below and left of the slab: every joint that runs square to that side."""
    x0, y0, x1, y1 = slab.gross.bounds
    upright = [j.line for j in layout.joints if _runs(j, axis=0)]
    level = [j.line for j in layout.joints if _runs(j, axis=1)]
    return [
        _string("x", x0, x1, [line.coords[0][0] for line in upright], display),
        _string("y", y0, y1, [line.coords[0][1] for line in level], display),
    ]


def _runs(joint: Joint, *, axis: int) -> bool:
    """Whether a joint keeps one coordinate from end to end."""
    across = [p[axis] for p in joint.path]
    return max(across) - min(across) <= UPRIGHT * joint.length


def _string(axis: str, low: float, high: float, at: Sequence[float], display: Display) -> Data:
    stops = [low]
    for value in sorted([*at, high]):
        if value - stops[-1] > DIMENSION_STEP:
            stops.append(value)
    return {
        "axis": axis,
        "stops": [round(float(s), PLACES) for s in stops],
        "texts": [format_length(b - a, display) for a, b in itertools.pairwise(stops)],
        "running": [format_length(s - low, display) for s in stops],
        "whole": format_length(high - low, display),
    }
