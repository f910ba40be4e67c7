"""The joint plan: everything a designer issues and a crew reads, on as many sheets as it takes."""

from collections.abc import Sequence

from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.blocks import Block, Prose
from kerfline.sheets.choose import Choice, choose, slab_extent
from kerfline.sheets.key_plan import key_plan
from kerfline.sheets.legend import legend
from kerfline.sheets.marks import Board, Sheet
from kerfline.sheets.notes import CAUTIONS, plan_notes
from kerfline.sheets.plan_tables import findings_block, joint_table, panel_table, totals_block
from kerfline.sheets.plan_view import PlanView, draw_plan
from kerfline.sheets.sheet_frame import SheetSet, column_region, column_width, text_sheets
from kerfline.sheets.stations import stations


def joint_plan(
    job: Job, layout: Layout, findings: Sequence[Finding], rules: SlabRules
) -> tuple[Sheet, ...]:
    """Draws the joint plan.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints and panels.
        findings: What the checks found, in the order in which they are numbered.
        rules: The rules that the layout was made by.

    Returns:
        The sheets: the plan (in parts with match lines where one sheet does not hold it at a readable
        scale), then the tables that found no room beside it.
    """
    base = baselines(job.slab)
    along, across = stations(job.slab, layout, base)
    choice = choose(job, layout, base, along, across)
    drawn = SheetSet(job=job, paper=choice.paper, name="joint-plan", title="Joint plan")
    blocks = _blocks(job, layout, findings, rules, base, choice)
    for index, view in enumerate(choice.views):
        board = drawn.new(view)
        plan = PlanView(
            job=job, layout=layout, findings=findings, base=base, view=view,
            paper=choice.paper, along=along, across=across, part=index, choice=choice,
        )  # fmt: skip
        left_out = draw_plan(board, plan)
        blocks = _column(board, choice, index, blocks, left_out)
    text_sheets(drawn, blocks)
    return drawn.finished()


def _blocks(
    job: Job,
    layout: Layout,
    findings: Sequence[Finding],
    rules: SlabRules,
    base: Baselines,
    choice: Choice,
) -> list[Block]:
    """What stands beside the plan or follows it, in order."""
    size = choice.paper
    width = column_width(size)
    text = size.small
    return [
        legend(job.slab, layout, text, width),
        Prose("Cautions", CAUTIONS, text, width),
        Prose("Notes", plan_notes(job, layout, rules, base), text, width),
        totals_block(job, layout, text, width),
        findings_block(findings, text, width),
        panel_table(job, layout, findings, rules, text),
        joint_table(job, layout, text),
    ]


def _column(
    board: Board, choice: Choice, index: int, blocks: list[Block], left_out: Sequence[str]
) -> list[Block]:
    """Fills the column beside a plan; returns the blocks that found no room."""
    from kerfline.sheets.flow import fill

    ahead: list[Block] = []
    if len(choice.parts) > 1:
        ahead.append(key_plan(choice, index))
    if left_out:
        words = f"For want of room the plan leaves out the tags of {', '.join(left_out)}: see the tables."
        ahead.append(
            Prose("Not tagged", (words,), choice.paper.small, column_width(choice.paper), first=0)
        )
    return fill(board, column_region(choice.paper), [*ahead, *blocks])


__all__ = ["joint_plan", "slab_extent"]
