"""The check sheet: every finding numbered at its place, the panels concerned hatched, all of them listed."""

from collections.abc import Iterator, Sequence

import shapely

from kerfline.geometry.faces import polygons_of
from kerfline.model.finding import Finding, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Block, Column, Table
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.legend import legend
from kerfline.sheets.marks import Board, Layer, Mark, Path, Sheet
from kerfline.sheets.numbered import number_spots, ring_mark
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.plan_labels import Labeller, label_joints, label_panels
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.plan_tables import SEVERITIES, panel_table, severity_counts
from kerfline.sheets.plan_view import PlanView, add_dimensions, add_footer, labeller
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.stations import CORNER
from kerfline.sheets.view import View

PITCHES = {Severity.ERROR: 1.6, Severity.WARNING: 3.6}
"""Distance of hatch lines by severity, mm of paper: closer is worse; advice is not hatched."""

MESSAGE = 64.0
SOURCE = 44.0
"""Greatest widths in mm of the list's columns of words."""


def check_sheet(
    job: Job, layout: Layout, findings: Sequence[Finding], rules: SlabRules
) -> tuple[Sheet, ...]:
    """Draws what the checks found.

    Args:
        job: The slab and what the sheets should say.
        layout: The layout that was checked.
        findings: In the order in which they are numbered.
        rules: The rules that it was held against.
    """

    def blocks(size: PaperSize, base: Baselines) -> list[Block]:
        del base
        text, width = size.small, column_width(size)
        return [
            severity_counts(findings, text, width),
            legend(job.slab, layout, text, width),
            finding_table(findings, text),
            panel_table(job, layout, findings, rules, text),
        ]

    return plan_sheets(
        job, layout, findings, name="check-sheet", title="Check sheet", draw=_draw, write=blocks,
        rank=CORNER,
    )  # fmt: skip


def finding_table(findings: Sequence[Finding], text: float) -> Table:
    """The findings as a list: number, rule, severity, subject, message, remedy and source."""
    return Table(
        heading="Findings",
        columns=(
            Column("No."),
            Column("severity"),
            Column("rule"),
            Column("at"),
            Column("found", widest=MESSAGE),
            Column("remedy", widest=SOURCE),
            Column("source", widest=SOURCE),
        ),
        rows=tuple(
            (f"{i}", SEVERITIES[f.severity], f.rule.value, f.subject, f.message, f.remedy, f.source)
            for i, f in enumerate(findings, 1)
        ),
        text=text,
    )


def _draw(board: Board, plan: PlanView) -> list[str]:
    board.add(*_hatching(plan.layout, plan.findings, plan.view))
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view))
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    _numbers(maker, plan)
    label_panels(maker, plan.layout)
    label_joints(maker, plan.layout.joints)
    board.add(*strings)
    add_footer(board, plan)
    return maker.left_out


def _hatching(layout: Layout, findings: Sequence[Finding], view: View) -> Iterator[Mark]:
    worst: dict[str, float] = {}
    for finding in findings:
        pitch = PITCHES.get(finding.severity)
        if pitch is not None:
            worst[finding.subject] = min(pitch, worst.get(finding.subject, pitch))
    for panel in layout.panels:
        if panel.id not in worst or not view.sees(panel.polygon):
            continue
        for part in polygons_of(view.shape(panel.polygon).intersection(view.window_box)):
            for line in hatch_lines(part, worst[panel.id]):
                (ax, ay), (bx, by) = line.coords[0], line.coords[-1]
                ends = ((ax, ay), (bx, by))
                yield Path(layer=Layer.HATCH, points=ends, ref=panel.id, in_plan=True)


def _numbers(maker: Labeller, plan: PlanView) -> None:
    """The findings' numbers in circles at their places."""
    for number, finding in enumerate(plan.findings, 1):
        at = plan.view.to_paper(finding.at)
        if not plan.view.window_box.covers(shapely.Point(at)):
            continue
        text = maker.text(Layer.FINDING, f"{number}", finding.subject, height=1.15 * maker.height)
        spot = maker.placer.place(number_spots(at, text))
        if spot is None:
            maker.left_out.append(f"finding {number}")
            continue
        maker.write(spot)
        maker.board.add(ring_mark(spot))
