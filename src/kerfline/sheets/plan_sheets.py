"""What every set of sheets with a plan has in common: paper and scale, parts, blocks that flow on."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from shapely import MultiPolygon, Polygon

from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.choose import Choice, choose
from kerfline.sheets.flow import Region, fill_around
from kerfline.sheets.key_plan import key_plan
from kerfline.sheets.marks import Board, Sheet
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.plan_view import PlanView
from kerfline.sheets.prose import Prose
from kerfline.sheets.sheet_frame import SheetSet, column_region, column_width, text_sheets
from kerfline.sheets.stations import OPENING, stations
from kerfline.sheets.table import Table

A_LITTLE_WIDER = 1.15
"""A table this many times as wide as the column is narrowed to it."""

Drawer = Callable[[Board, PlanView], list[str]]
"""Draws one plan and returns the names of what found no room for its tag."""

Writer = Callable[[PaperSize, Baselines], Sequence[Block | None]]
"""Makes the blocks that stand beside the plan or follow it, in order, for a paper."""


@dataclass(frozen=True, kw_only=True)
class Kind:
    """What kind of set is drawn.

    Attributes:
        name: Short name of the set, for files.
        title: Title of the set.
        rank: Last rank of stations that are dimensioned.
        handy: Whether the sheets are carried about and so stay on the small paper.
        region: The part of the slab that is shown; None for all of it.
        corner: Name of the corner that dimensions start from.
    """

    name: str
    title: str
    rank: int = OPENING
    handy: bool = False
    region: Polygon | MultiPolygon | None = None
    corner: str = "A"


def plan_sheets(
    job: Job,
    layout: Layout,
    findings: Sequence[Finding],
    kind: Kind,
    *,
    draw: Drawer,
    write: Writer,
) -> tuple[Sheet, ...]:
    """Draws a set of sheets: the plan, in parts where it must be, then the tables.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints and panels.
        findings: What the checks found.
        kind: What kind of set it is.
        draw: Draws one plan.
        write: Makes the blocks.
    """
    base = baselines(job.slab, kind.region)
    along, across = (
        [s for s in found if s.rank <= kind.rank]
        for found in stations(job.slab, layout, base, kind.region)
    )
    choice = choose(job, layout, base, along, across, handy=kind.handy, region=kind.region)
    size = choice.paper
    drawn = SheetSet(job=job, paper=size, name=kind.name, title=kind.title)
    blocks: list[Block] = [
        _for_column(b, size) for b in write(size, base) if b is not None and not _is_empty(b)
    ]
    choice, aside = _with_aside(choice, base, blocks)
    for index, view in enumerate(choice.views):
        board = drawn.new(view)
        plan = PlanView(
            job=job, layout=layout, findings=findings, base=base, view=view, paper=size,
            along=along, across=across, part=index, choice=choice, title=kind.title,
            region=kind.region, corner=kind.corner,
        )  # fmt: skip
        left_out = draw(board, plan)
        ahead: list[Block] = [key_plan(choice, index)] if len(choice.parts) > 1 else []
        if left_out:
            ahead.append(_left_out(left_out, size))
        regions = [column_region(size), *([aside] if aside else [])]
        blocks = fill_around(board, regions, [*ahead, *blocks])
    text_sheets(drawn, blocks)
    return drawn.finished()


def _for_column(block: Block, size: PaperSize) -> Block:
    """A table that is a little too wide for the column, its sentences wrapped more where it then fits."""
    column, width = column_region(size), column_width(size)
    if not isinstance(block, Table) or not width < block.width <= A_LITTLE_WIDER * width:
        return block
    narrow = block.within(width)
    fits = block.least_width <= width and narrow.height(width) <= column.top - column.bottom
    return narrow if fits else block


def _with_aside(
    choice: Choice, base: Baselines, blocks: Sequence[Block]
) -> tuple[Choice, Region | None]:
    """The plan pushed to the side where most of what the column does not hold then fits beside it."""
    if len(choice.parts) > 1:
        return choice, None
    column = column_region(choice.paper)
    fewest, best = len(fill_around(Board(), [column], blocks)), None
    for region, left in ((choice.beside(), True), (choice.above(), False)):
        waiting = len(fill_around(Board(), [column, region], blocks))
        if waiting < fewest:
            fewest, best = waiting, (region, left)
    if best is None:
        return choice, None
    region, left = best
    return choice.pushed(base, left=left, down=not left), region


def _is_empty(block: Block) -> bool:
    return isinstance(block, Table) and not block.rows


def _left_out(names: Sequence[str], size: PaperSize) -> Prose:
    words = f"For want of room the plan leaves out the tags of {', '.join(names)}: see the tables."
    return Prose("Not tagged", (words,), size.small, column_width(size), first=0)
