"""What the panel table and the joint table say, as numbers; CSV, workbook and drawn tables write it out."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.units import in_words


class PanelStatus(StrEnum):
    """The worst that was found about a panel; advice is no fault."""

    OK = "ok"
    WARNING = "warning"
    ERROR = "error"


@dataclass(frozen=True, kw_only=True)
class PanelRow:
    """One row of the panel table, lengths in mm.

    Attributes:
        id: Name of the panel.
        length: Long side.
        width: Short side.
        area: Area of concrete, mm2.
        aspect: Length over width.
        span_used: Longest straight run as a share of the span that the layout works to where the panel lies.
        status: The worst that was found about it.
    """

    id: str
    length: float
    width: float
    area: float
    aspect: float
    span_used: float
    status: PanelStatus


@dataclass(frozen=True, kw_only=True)
class JointRow:
    """One row of the joint table, lengths in mm.

    Attributes:
        id: Name of the joint.
        kind: What it is.
        length: Length of the cut.
        hidden: Length of it under walls.
        depth: Depth of the cut; 0 where the joint is not sawn.
        start: Offsets of one end along the first and the second baseline.
        end: Offsets of the other end.
        reason: Why it is there, one word.
        note: The reason in words.
    """

    id: str
    kind: JointKind
    length: float
    hidden: float
    depth: float
    start: Point
    end: Point
    reason: str
    note: str


def panel_rows(
    job: Job, layout: Layout, findings: Iterable[Finding], rules: SlabRules
) -> tuple[PanelRow, ...]:
    """The panel table, in the layout's order."""
    worst = panel_statuses(layout, findings)
    rows = []
    for panel in layout.panels:
        spot = panel.polygon.representative_point()
        allowed = rules.working(job.slab.thickness_at(spot.x, spot.y)).span
        rows.append(
            PanelRow(
                id=panel.id,
                length=panel.length,
                width=panel.width,
                area=panel.area,
                aspect=panel.aspect,
                span_used=panel.span / allowed,
                status=worst[panel.id],
            )
        )
    return tuple(rows)


def panel_statuses(layout: Layout, findings: Iterable[Finding]) -> Mapping[str, PanelStatus]:
    """For each panel the worst finding whose subject it is."""
    statuses = {panel.id: PanelStatus.OK for panel in layout.panels}
    for finding in findings:
        now = statuses.get(finding.subject)
        if now is not None and finding.severity is Severity.ERROR:
            statuses[finding.subject] = PanelStatus.ERROR
        elif now is PanelStatus.OK and finding.severity is Severity.WARNING:
            statuses[finding.subject] = PanelStatus.WARNING
    return statuses


def joint_rows(job: Job, layout: Layout) -> tuple[JointRow, ...]:
    """The joint table, in the layout's order; ends are measured from the sheets' baselines."""
    base = baselines(job.slab)
    return tuple(
        JointRow(
            id=joint.id,
            kind=joint.kind,
            length=joint.length,
            hidden=joint.hidden,
            depth=joint.depth,
            start=base.local(joint.path[0]),
            end=base.local(joint.path[-1]),
            reason=joint.reason.value,
            note=in_words(joint.note, job.display),
        )
        for joint in layout.joints
    )
