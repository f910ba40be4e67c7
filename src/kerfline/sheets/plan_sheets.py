"""What every set of sheets with a plan has in common: paper and scale, parts, blocks that flow on."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import MultiPolygon, Polygon

from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.choose import choose, next_scale
from kerfline.sheets.flow import Region, fill_around
from kerfline.sheets.key_plan import key_plan
from kerfline.sheets.marks import Board, Sheet
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.parts import Choice
from kerfline.sheets.plan_footer import add_footer
from kerfline.sheets.plan_labels import LeftOut
from kerfline.sheets.plan_marks import elsewhere
from kerfline.sheets.plan_view import PlanView
from kerfline.sheets.prose import Prose
from kerfline.sheets.redrawn import Redrawn, drawn_larger
from kerfline.sheets.redrawn_plans import redrawn_plans
from kerfline.sheets.sheet_frame import SheetSet, column_region, column_width, text_sheets
from kerfline.sheets.sheet_list import listed_sheets, sheet_list
from kerfline.sheets.stations import OPENING, Station, stations
from kerfline.sheets.table import Table
from kerfline.sheets.view import View

A_LITTLE_WIDER = 1.15
"""A table this many times as wide as the column is narrowed to it."""

FINER = 2
"""How many finer scales are tried where ties find no room."""

FEW_TIES = 2
"""So many ties may stand beside the plan rather than on it."""

A_TAG = 30
"""A tag without room weighs as much as so many ties: the plan is drawn larger for a single one."""

MOST_FOR_TAGS = 12
"""Most sheets that a plan is parted into so that nothing is left without its tag."""

A_PART = 3
"""One more sheet is worth it where so many more ties find room."""

MOST_FOR_TIES = 4
"""Most sheets that a plan is parted into so that its ties find room."""

LISTED = 2
"""How often the list of sheets is set anew: it moves what stands after it."""

LARGER = 3
"""How many larger scales are tried for the panels whose numbers find no room."""

HANDFUL = 4
"""A sheet that is carried about goes on larger paper rather than in more parts than this."""

Drawer = Callable[[Board, PlanView], LeftOut]
"""Draws one plan and returns what found no room."""

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
        again: Parts that are drawn again: turned so that their direction is the paper's, or larger.
    """

    name: str
    title: str
    rank: int = OPENING
    handy: bool = False
    region: Polygon | MultiPolygon | None = None
    corner: str = "A"
    again: tuple[Redrawn, ...] = ()


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
    best: tuple[int, _Drawn] | None = None
    finer: float | None = None
    tags_left = 0
    for _ in range(1 + FINER):
        handy = kind.handy
        choice = choose(
            job, layout, base, along, across, handy=handy, region=kind.region, finer=finer
        )
        if handy and len(choice.sheets) > HANDFUL:
            choice = choose(job, layout, base, along, across, region=kind.region, finer=finer)
        if best and len(choice.sheets) > (MOST_FOR_TAGS if tags_left else MOST_FOR_TIES):
            break
        drawing = _Drawing(job, layout, findings, kind, base, along, across, choice)
        drawn = drawing.drawn(draw, write)
        tags_left = len(drawn.places)
        price = drawn.ties_left + A_TAG * tags_left + A_PART * len(choice.sheets)
        if best is None or price < best[0]:
            best = (price, drawn)
        finer = next_scale(job, choice.scale)
        if (drawn.ties_left <= FEW_TIES and not tags_left) or finer is None:
            break
    assert best is not None
    return _with_larger(best[1], draw, write)


def _with_larger(drawn: "_Drawn", draw: Drawer, write: Writer) -> tuple[Sheet, ...]:
    """The sheets; where numbers still find no room, with the panels around them drawn larger on further ones."""
    plain, places = drawn.drawing, drawn.places
    free = replace(plain.job, sheet=replace(plain.job.sheet, scale=0.0))
    scale: float | None = plain.choice.scale
    for _ in range(LARGER):
        scale = next_scale(free, scale) if scale else None
        if not drawn.places or scale is None:
            break
        larger = drawn_larger(plain.job.slab, plain.layout, plain.base, places, scale)
        kind = replace(plain.kind, again=(*plain.kind.again, *larger))
        drawn = replace(plain, kind=kind).drawn(draw, write)
    return drawn.sheets


@dataclass(frozen=True)
class _Drawing:
    """A set of sheets on a chosen paper, at a chosen scale."""

    job: Job
    layout: Layout
    findings: Sequence[Finding]
    kind: Kind
    base: Baselines
    along: list[Station]
    across: list[Station]
    choice: Choice

    def drawn(self, draw: Drawer, write: Writer) -> "_Drawn":
        """The sheets, and what found no room on them."""
        size, kind = self.choice.paper, self.kind
        blocks: list[Block] = [
            _for_column(b, size)
            for b in write(size, self.base)
            if b is not None and not _is_empty(b)
        ]
        choice, aside = _with_aside(self.choice, self.base, blocks)
        again = tuple(
            redrawn_plans(
                self.job, self.layout, self.base, kind.title, kind.again, size, len(choice.sheets)
            )
        )
        plans = [
            PlanView(
                job=self.job, layout=self.layout, findings=self.findings, base=self.base,
                view=view, paper=size, along=self.along, across=self.across, part=index,
                choice=choice, title=kind.title, region=kind.region, corner=kind.corner,
                again=[(plan.part, plan.sheet) for plan in again],
            )
            for index, view in enumerate(choice.views)
        ]  # fmt: skip
        first = [self._main_sheet(plans, choice, parts, aside, draw) for parts in choice.sheets]
        further = [
            _on_one_sheet([plan.plans[part] for part in parts], draw, plan.blocks)
            for plan in again
            for parts in plan.choice.sheets
        ]
        drawn = [*first, *further]
        sheets = self._composed(drawn, blocks, ())
        for _ in range(LISTED):  # the list itself may push something on to another sheet
            lines = listed_sheets(sheets)
            if lines:
                sheets = self._composed(drawn, blocks, lines)
        larger = any(not plan.part.turned for plan in again)
        named = further if larger else drawn  # what had no room on the plan stands on those
        return _Drawn(
            drawing=self,
            sheets=sheets,
            ties_left=sum(len(plan.left_out.ties) for plan in drawn),
            places=tuple(at for plan in named for at in plan.left_out.places),
        )

    def _main_sheet(
        self,
        plans: Sequence[PlanView],
        choice: Choice,
        parts: Sequence[int],
        aside: Region | None,
        draw: Drawer,
    ) -> "_PlanSheet":
        """A sheet of the plan of the whole slab, with a key plan where it has several parts."""
        keys = [key_plan(self.job.slab, self.base, choice, parts)] if len(choice.parts) > 1 else []
        last = parts[-1] == len(choice.parts) - 1
        shown = [plans[part] for part in parts]
        return _on_one_sheet(shown, draw, keys, aside if last else None)

    def _composed(
        self, plans: Sequence["_PlanSheet"], blocks: Sequence[Block], lines: Sequence[str]
    ) -> tuple[Sheet, ...]:
        """The sheets: the plans with what stands around them, the list of sheets on the first, then the tables."""
        size = self.choice.paper
        drawn = SheetSet(job=self.job, paper=size, name=self.kind.name, title=self.kind.title)
        left: list[Block] = list(blocks)
        for index, plan in enumerate(plans):
            board = drawn.new(plan.views, plan.title)
            board.take(plan.board)
            ahead = list(plan.keys)
            if lines and index == 0:
                ahead.append(sheet_list(lines, size.small, column_width(size)))
            regions = [column_region(size), *([plan.aside] if plan.aside else [])]
            left = fill_around(board, regions, [*ahead, *_left_out(plan.left_out, size), *left])
        text_sheets(drawn, left)
        return drawn.finished()


@dataclass(frozen=True, kw_only=True)
class _Drawn:
    """A set of sheets as it was drawn.

    Attributes:
        drawing: What it was drawn from.
        sheets: The sheets.
        ties_left: How many ties found no room.
        places: Where on the slab something has no number, mm.
    """

    drawing: _Drawing
    sheets: tuple[Sheet, ...]
    ties_left: int
    places: tuple[Point, ...]


@dataclass(frozen=True, kw_only=True)
class _PlanSheet:
    """A sheet with one plan or several parts of one.

    Attributes:
        title: What stands in the title block.
        views: Their views.
        board: What is drawn.
        left_out: What found no room.
        keys: Blocks that stand first beside it.
        aside: The part of the plan's area that blocks may fill.
    """

    title: str
    views: tuple[View, ...]
    board: Board
    left_out: LeftOut
    keys: Sequence[Block]
    aside: Region | None


def _on_one_sheet(
    plans: Sequence[PlanView], draw: Drawer, keys: Sequence[Block], aside: Region | None = None
) -> _PlanSheet:
    """The parts of one sheet with what stands under them."""
    board, left = Board(), LeftOut()
    for plan in plans:
        part = Board()
        if plan.region is not None:
            part.add(*elsewhere(plan.job.slab, plan.region, plan.view))
        found = draw(part, plan)
        board.take(part)
        left.tags += found.tags
        left.places += found.places
        left.ties += found.ties
    add_footer(board, plans[0])
    views = tuple(plan.view for plan in plans)
    return _PlanSheet(
        title=plans[0].title, views=views, board=board, left_out=left, keys=keys, aside=aside
    )


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
    if choice.is_stacked:
        return choice, choice.left_over()
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


def _left_out(left: LeftOut, size: PaperSize) -> Iterator[Prose]:
    if left.ties:
        words = f"The plan has no room for {', '.join(left.ties)}."
        yield Prose("Tapes not on the plan", (words,), size.small, column_width(size), first=0)
