"""Writes ``NAME-layout.json``, everything about a layout for programs, and reads it back."""

import json
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from shapely import LineString, Polygon
from shapely.geometry.polygon import orient

from kerfline.errors import InputRefused, Mistake
from kerfline.files.atomic import finish
from kerfline.files.layout_schema import SCHEMA, JointPart, LayoutFile, PanelPart, SlabPart
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.geometry.faces import Area, area_of, left_by, polygons_of
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Dowels, Joint, Layout, Panel, Solution, WorkingLimits
from kerfline.model.slab import Slab
from kerfline.sheets.rows import PanelStatus, panel_statuses

PLACES = 4
"""Coordinates and lengths are rounded to 0.0001 mm."""

Data = dict[str, Any]


@dataclass(frozen=True, kw_only=True)
class LayoutRead:
    """What a layout file holds.

    Attributes:
        job: Name of the job.
        rule_set: Name of its rule set.
        thickness: Thickness of the slab, mm.
        concrete: Outline and openings.
        layout: Joints and panels.
        findings: What was found.
    """

    job: str
    rule_set: str
    thickness: float
    concrete: Area
    layout: Layout
    findings: tuple[Finding, ...]


def layout_json(
    job: Job, layout: Layout, findings: Sequence[Finding], *, timings: bool = False
) -> bytes:
    """The layout as JSON, one joint, panel or finding a line.

    Args:
        job: The job.
        layout: Its layout.
        findings: What was found.
        timings: Whether to say how long the engine took. That time never repeats, so without it the
            same input gives the same bytes.
    """
    return _written(layout_data(job, layout, findings, timings=timings)).encode("utf-8")


def layout_data(
    job: Job, layout: Layout, findings: Sequence[Finding], *, timings: bool = False
) -> Data:
    """The layout as plain data, as ``LayoutFile`` describes it."""
    statuses = panel_statuses(layout, findings)
    return {
        "schema": SCHEMA,
        "job": job.name,
        "run": job.sheet.run,
        "rule_set": job.rules.name,
        "slab": _slab(job.slab),
        "limits": _limits(layout.limits),
        "joints": [_joint(joint) for joint in layout.joints],
        "panels": [_panel(panel, statuses[panel.id]) for panel in layout.panels],
        "findings": [_finding(finding) for finding in findings],
        "totals": _totals(job.slab, layout),
        "solution": _solution(layout.solution, timings=timings),
        "walls_left": dict(layout.walls_left),
        "notes": list(layout.notes),
    }


def _slab(slab: Slab) -> Data:
    """The one piece of concrete; of several, the outline and the boxouts that part it among the openings."""
    if len(slab.pieces) == 1:
        return {**_area(slab.pieces[0]), "thickness": _number(slab.thickness)}
    rings = [_area(Polygon(slab.outline.polygon.exterior)), *map(_area, _taken_out(slab))]
    outline, *openings = (ring["outline"] for ring in rings)
    return {
        "outline": outline,
        "openings": [ring[:1] + ring[:0:-1] for ring in openings],
        "thickness": _number(slab.thickness),
    }


def _taken_out(slab: Slab) -> list[Polygon]:
    """What openings and boxouts take out of the outline."""
    outline = slab.outline.polygon
    taken = (*(o.polygon for o in slab.openings), *slab.boxouts)
    return [part for hole in taken for part in polygons_of(hole.intersection(outline))]


def _limits(limits: WorkingLimits | None) -> Data | None:
    if limits is None:
        return None
    return {
        "span": _number(limits.span),
        "aspect": _number(limits.aspect),
        "width": _number(limits.width),
        "angle": _number(limits.angle),
    }


def _joint(joint: Joint) -> Data:
    return {
        "id": joint.id,
        "kind": joint.kind.value,
        "path": [_spot(point) for point in joint.path],
        "length": _number(joint.length),
        "hidden_length": _number(joint.hidden),
        "depth": _number(joint.depth),
        "reason": joint.reason.value,
        "note": joint.note,
        **({"dowels": _dowels(joint.dowels)} if joint.dowels else {}),
    }


def _dowels(dowels: Dowels) -> Data:
    return {
        "count": dowels.count,
        "diameter": _number(dowels.diameter),
        "length": _number(dowels.length),
        "spacing": _number(dowels.spacing),
    }


def _panel(panel: Panel, status: PanelStatus) -> Data:
    return {
        "id": panel.id,
        **_area(panel.polygon),
        "length": _number(panel.length),
        "width": _number(panel.width),
        "aspect": _number(panel.aspect),
        "area": _number(panel.area),
        "status": status.value,
    }


def _finding(finding: Finding) -> Data:
    return {
        "rule": finding.rule.value,
        "severity": finding.severity.value,
        "at": _spot(finding.at),
        "subject": finding.subject,
        "measured": _number(finding.measured),
        "limit": _number(finding.limit),
        "message": finding.message,
        "source": finding.source,
        "remedy": finding.remedy,
    }


def _totals(slab: Slab, layout: Layout) -> Data:
    lines = [joint.line for joint in layout.joints]
    kinds = [end.kind for end in joint_ends(slab.concrete, lines)] if lines else []
    return {
        "joint_length": _number(layout.joint_length),
        "hidden_length": _number(layout.hidden_length),
        "panels": len(layout.panels),
        "tee_ends": kinds.count(EndKind.TEE),
        "free_ends": kinds.count(EndKind.FREE),
        "lines": chalk_lines(lines),
    }


def _solution(solution: Solution, *, timings: bool) -> Data:
    return {
        "status": solution.status.value,
        "cost": _number(solution.cost),
        "bound": _number(solution.bound),
        "gap": _number(solution.gap),
        "length_bound": _number(solution.length_bound),
        "through": solution.through,
        "seconds": _number(solution.seconds) if timings else None,
    }


def _area(polygon: Polygon) -> Data:
    """Outline (anticlockwise) and openings (clockwise), rounded unless rounding would make them cross."""
    solid = orient(polygon)
    rings = [solid.exterior, *solid.interiors]
    exact = [_from_lowest([(float(x), float(y)) for x, y in ring.coords[:-1]]) for ring in rings]
    rounded = [[_spot(point) for point in ring] for ring in exact]
    valid = Polygon(rounded[0], rounded[1:]).is_valid or not polygon.is_valid
    outline, *openings = rounded if valid else [[list(point) for point in r] for r in exact]
    return {"outline": outline, "openings": openings}


def _from_lowest(points: list[Point]) -> list[Point]:
    """A ring that starts at its lowest point, of two the left one, wherever it started before."""
    first = min(range(len(points)), key=lambda i: (*reversed(_spot(points[i])), i))
    return points[first:] + points[:first]


def _spot(point: Point) -> list[float]:
    return [round(point[0], PLACES) + 0.0, round(point[1], PLACES) + 0.0]


def _number(value: float | None) -> float | None:
    """A rounded number without a minus zero; nothing for what is not finite."""
    if value is None or not math.isfinite(value):
        return None
    return round(value, PLACES) + 0.0


def _written(data: Data) -> str:
    """JSON with the long lists one item a line, so that two files compare well."""
    body = ",\n".join(f'"{key}": {_value(value)}' for key, value in data.items())
    return f"{{\n{body}\n}}\n"


def _value(value: object) -> str:
    if isinstance(value, list) and value:
        items = ",\n  ".join(_compact(item) for item in value)
        return f"[\n  {items}\n]"
    return _compact(value)


def _compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def read_layout_json(path: Path) -> LayoutRead:
    """Reads a layout file.

    Raises:
        InputRefused: It cannot be read or is no layout file of this schema.
    """
    finish(path.parent)
    try:
        file = LayoutFile.model_validate_json(path.read_bytes())
    except OSError as error:
        mistake = Mistake(
            what=f"the layout file cannot be read ({error.strerror})",
            where=str(path),
            remedy="lay the job out first, with kerfline layout",
        )
        raise InputRefused(mistake) from None
    except ValidationError as error:
        raise InputRefused(*_mistakes(error, path)) from None
    return _read(file)


def _mistakes(error: ValidationError, path: Path) -> Iterable[Mistake]:
    for each in error.errors(include_url=False):
        key = ".".join(str(part) for part in each["loc"])
        yield Mistake(
            what=f"this is not a layout file of schema {SCHEMA}: {each['msg'].lower()}",
            where=", ".join(filter(None, [path.name, key])),
            remedy="write it anew with kerfline layout",
        )


def _read(file: LayoutFile) -> LayoutRead:
    layout = Layout(
        joints=tuple(_joint_of(part) for part in file.joints),
        panels=tuple(_panel_of(part) for part in file.panels),
        solution=Solution(
            status=file.solution.status,
            cost=file.solution.cost,
            bound=file.solution.bound,
            length_bound=file.solution.length_bound,
            through=file.solution.through,
            seconds=file.solution.seconds or 0.0,
        ),
        limits=WorkingLimits(**file.limits.model_dump()) if file.limits else None,
        walls_left=file.walls_left,
        notes=tuple(file.notes),
    )
    return LayoutRead(
        job=file.job,
        rule_set=file.rule_set,
        thickness=file.slab.thickness,
        concrete=_concrete(file.slab),
        layout=layout,
        findings=tuple(
            Finding(**{**part.model_dump(), "at": (part.at[0], part.at[1])})
            for part in file.findings
        ),
    )


def _concrete(slab: SlabPart) -> Area:
    """What the openings leave of the outline: in pieces where they reach from edge to edge."""
    whole, holes = Polygon(slab.outline), [Polygon(o) for o in slab.openings]
    if all(whole.contains_properly(hole) for hole in holes):
        return Polygon(slab.outline, slab.openings)
    return area_of(left_by(whole, holes))


def _joint_of(part: JointPart) -> Joint:
    line = LineString(part.path)
    return Joint(
        id=part.id,
        kind=part.kind,
        path=tuple((float(x), float(y)) for x, y in line.coords),
        depth=part.depth,
        reason=part.reason,
        note=part.note,
        hidden=part.hidden_length,
        dowels=Dowels(**part.dowels.model_dump()) if part.dowels else None,
    )


def _panel_of(part: PanelPart) -> Panel:
    return Panel(id=part.id, polygon=Polygon(part.outline, part.openings))
