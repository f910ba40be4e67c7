"""The joint plan: everything a designer issues and a crew reads, on as many sheets as it takes."""

from collections.abc import Sequence

from kerfline.geometry.tolerance import TOUCH
from kerfline.model.bars import bars
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.abreast import abreast
from kerfline.sheets.baselines import Baselines, Way, baselines, way_of
from kerfline.sheets.blocks import Block
from kerfline.sheets.curves import curve_table
from kerfline.sheets.details import detail_numbers, details
from kerfline.sheets.legend import legend
from kerfline.sheets.marks import Board, Sheet
from kerfline.sheets.notes import CAUTIONS, plan_notes
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import LeftOut
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.plan_tables import (
    added_table,
    findings_block,
    joint_table,
    panel_table,
    revision_table,
    severity_counts,
    totals_block,
)
from kerfline.sheets.plan_view import PlanView, draw_plan
from kerfline.sheets.prose import Prose
from kerfline.sheets.redrawn import Redrawn
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.ties import Ties, ties
from kerfline.sheets.wings import wings


def joint_plan(
    job: Job, layout: Layout, findings: Sequence[Finding], rules: SlabRules
) -> tuple[Sheet, ...]:
    """Draws the joint plan.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints and panels.
        findings: What the checks found, in the order in which they are numbered; drawn for a review alone.
        rules: The rules that the layout was made by.

    Returns:
        The sheets: the plan (in parts with match lines where one sheet does not hold it at a readable
        scale), then the tables that found no room beside it.
    """
    review = job.sheet.review
    laid = bars(job.slab, layout, job.steel)
    numbers = detail_numbers(job, layout, laid)
    turned = wings(job.slab, layout, baselines(job.slab))
    tied = _ties(job, layout, turned)
    of_wings = {wing.corner: _ties_of(job, layout, wing) for wing in turned}

    def draw(board: Board, plan: PlanView) -> LeftOut:
        return draw_plan(board, plan, of_wings.get(plan.corner, tied), laid, numbers)

    def blocks(size: PaperSize, base: Baselines) -> list[Block]:
        text, width = size.small, column_width(size)
        return [
            *([added_table(job, layout, text).within(width)] if layout.added else []),
            legend(job, layout, text, width, bars=laid, details=True),
            Prose("Cautions", CAUTIONS, text, width),
            Prose("Notes", plan_notes(job, layout, rules, base, tied), text, width),
            totals_block(job, layout, text, width),
            *([severity_counts(findings, text, width)] if review else []),
            revision_table(job, text),
            joint_table(job, layout, text),
            curve_table(job.slab, base, [(j.id, j.path) for j in layout.joints], job.display, text),
            panel_table(job, layout, findings if review else None, rules, text),
            *abreast(details(job, layout, rules, text), width),
            *([findings_block(findings, text, width)] if review and findings else []),
        ]

    title = "Joint plan" if layout.added is None else "Amended joint plan"
    kind = Kind(name="joint-plan", title=title, again=turned)
    return plan_sheets(job, layout, findings, kind, draw=draw, write=blocks)


def _ties(job: Job, layout: Layout, turned: Sequence[Redrawn]) -> Ties:
    """Ties of the slanting lines; those that a wing's own sheet holds square stand there."""
    held = [(wing.region.buffer(TOUCH), baselines(job.slab, wing.region)) for wing in turned]
    lines = [
        (joint.id, joint.line)
        for joint in layout.joints
        if not any(
            region.covers(joint.line) and way_of(base.line(joint.path)) is not Way.SLANTING
            for region, base in held
        )
    ]
    return ties(job.slab.concrete, lines, baselines(job.slab), [j.line for j in layout.joints])


def _ties_of(job: Job, layout: Layout, wing: Redrawn) -> Ties:
    """Ties of the lines of a wing that slant on its own sheet too."""
    lines = [(joint.id, joint.line) for joint in wing.layout(layout).joints]
    return ties(wing.region, lines, baselines(job.slab, wing.region), corner=wing.corner)
