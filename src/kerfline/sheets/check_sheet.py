"""The check sheet: every finding numbered at its place, the panels concerned hatched, all of them listed."""

from collections.abc import Sequence
from itertools import chain

import shapely
from shapely import Polygon

from kerfline.geometry.faces import points_of, polygons_of
from kerfline.model.finding import Finding, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.legend import legend
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Board, Layer, Mark, Path, Sheet, Text
from kerfline.sheets.numbered import number_spots, ring_mark
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import Labeller, LeftOut, by_place, label_joints, label_panels
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.plan_tables import SEVERITIES, panel_table, severity_counts
from kerfline.sheets.plan_view import PlanView, add_dimensions, label_redrawn, labeller
from kerfline.sheets.prose import Prose
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.spots import around, over
from kerfline.sheets.stations import CORNER
from kerfline.sheets.table import Column, Table

PITCHES = {Severity.ERROR: 1.6, Severity.WARNING: 3.6}
"""Distance of hatch lines by severity, mm of paper: closer is worse; advice is not hatched."""

LABEL_RIM = 0.9
"""Room in mm that hatching leaves around a label."""

READING = (
    "Numbers: findings, as in the list. Close hatching: error; wide hatching: warning; none: advice.",
)

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
            Prose("How to read", READING, text, width, first=0),
            legend(job, layout, text, width, flags=False),
            finding_table(findings, text),
            panel_table(job, layout, findings, rules, text),
        ]

    kind = Kind(name="check-sheet", title="Check sheet", rank=CORNER)
    return plan_sheets(job, layout, findings, kind, draw=_draw, write=blocks)


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


def _draw(board: Board, plan: PlanView) -> LeftOut:
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view))
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    _numbers(maker, plan)
    label_redrawn(maker, plan)
    label_panels(maker, plan.layout)
    label_joints(maker, plan.layout.joints)
    board.marks[:0] = _hatching(plan, [m for m in board if isinstance(m, Text)])
    board.take(strings)
    return maker.left_out


def _hatching(plan: PlanView, labels: Sequence[Text]) -> list[Mark]:
    """Hatch lines over the panels that findings are about, broken around the labels."""
    worst: dict[str, float] = {}
    for finding in plan.findings:
        pitch = PITCHES.get(finding.severity)
        if pitch is not None:
            worst[finding.subject] = min(pitch, worst.get(finding.subject, pitch))
    free = shapely.union_all([Polygon(text_corners(t, LABEL_RIM)) for t in labels])
    lines = [
        (panel.id, line)
        for panel in plan.layout.panels
        if panel.id in worst and plan.view.sees(panel.polygon)
        for part in polygons_of(plan.view.shape(panel.polygon).intersection(plan.view.window_box))
        for clear in polygons_of(part.difference(free))
        for line in hatch_lines(clear, worst[panel.id])
    ]
    return [
        Path(layer=Layer.HATCH, points=points_of(line), ref=ref, in_plan=True)
        for ref, line in lines
    ]


def _numbers(maker: Labeller, plan: PlanView) -> None:
    """The findings' numbers at their places, those of one place together."""
    for at, numbers in by_place(plan.findings, plan.view):
        words = ", ".join(str(n) for n in numbers)
        text = maker.text(Layer.FINDING, words, words, height=1.15 * maker.height)
        ringed = len(numbers) == 1
        spots = number_spots(at, text) if ringed else chain(over(at, text), around(at, text))
        spot = maker.found(f"finding {words}", spots)
        if spot is None:
            continue
        maker.write(spot)
        if ringed:
            maker.board.add(ring_mark(spot))
