"""A set of sheets with a plan as it is drawn: the parts of the plan, what is drawn again, what stands around them."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import MultiPolygon, Polygon

from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Block
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
from kerfline.sheets.redrawn import Redrawn
from kerfline.sheets.redrawn_plans import RedrawnPlan, redrawn_plans
from kerfline.sheets.sheet_frame import SheetSet, column_region, column_width, text_sheets
from kerfline.sheets.sheet_list import listed_sheets, sheet_list
from kerfline.sheets.stations import OPENING, Station
from kerfline.sheets.table import Table
from kerfline.sheets.view import View

A_LITTLE_WIDER = 1.15
"""A table this many times as wide as the column is narrowed to it."""

LISTED = 2
"""How often the list of sheets is set anew: it moves what stands after it."""

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


@dataclass(frozen=True)
class Drawing:
    """A set of sheets on a chosen paper, at a chosen scale."""

    job: Job
    layout: Layout
    findings: Sequence[Finding]
    kind: Kind
    base: Baselines
    along: list[Station]
    across: list[Station]
    choice: Choice

    def drawn(self, draw: Drawer, write: Writer) -> "Drawn":
        """The sheets, and what found no room on them."""
        size, kind = self.choice.paper, self.kind
        blocks: list[Block] = [
            _for_column(b, size)
            for b in write(size, self.base)
            if b is not None and not _is_empty(b)
        ]
        choice, aside = _with_aside(self.choice, self.base, blocks)
        again = self.drawn_again(choice, kind.again, draw)
        main = self.main(choice, aside, [one.plan for one in again], draw)
        return Drawn(
            drawing=self, blocks=blocks, choice=choice, aside=aside, main=main, again=again
        )

    def drawn_again(
        self,
        choice: Choice,
        parts: Sequence[Redrawn],
        draw: Drawer,
        before: Sequence["Again"] = (),
    ) -> tuple["Again", ...]:
        """The parts that are drawn again; those that come out as they were before are kept."""
        plans = redrawn_plans(
            self.job, self.layout, self.base, self.kind.title, parts, choice.paper,
            len(choice.sheets),
        )  # fmt: skip
        old = {one.plan.part.id: one for one in before}
        return tuple(
            kept.beside(plan)
            if (kept := old.get(plan.part.id)) and plan.comes_out_as(kept.plan)
            else Again.drawn(plan, draw)
            for plan in plans
        )

    def main(
        self,
        choice: Choice,
        aside: Region | None,
        again: Sequence[RedrawnPlan],
        draw: Drawer,
        before: Sequence["PlanSheet"] = (),
    ) -> tuple["PlanSheet", ...]:
        """The sheets of the whole slab, with a key plan where it has several parts.

        Of those that were drawn before, all that show nothing of what is drawn larger are kept.
        """
        kind = self.kind
        plans = [
            PlanView(
                job=self.job, layout=self.layout, findings=self.findings, base=self.base,
                view=view, paper=choice.paper, along=self.along, across=self.across, part=index,
                choice=choice, title=kind.title, region=kind.region, corner=kind.corner,
                again=[(plan.part, plan.sheet) for plan in again],
            )
            for index, view in enumerate(choice.views)
        ]  # fmt: skip
        out = []
        for index, parts in enumerate(choice.sheets):
            shown = [plans[part] for part in parts]
            if before and not any(plan.shows_larger for plan in shown):
                out.append(before[index])
                continue
            several = len(choice.parts) > 1
            keys = [key_plan(self.job.slab, self.base, choice, parts)] if several else []
            last = parts[-1] == len(choice.parts) - 1
            out.append(_on_one_sheet(shown, draw, keys, aside if last else None))
        return tuple(out)

    def composed(
        self, plans: Sequence["PlanSheet"], blocks: Sequence[Block], lines: Sequence[str]
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
class Drawn:
    """A set of sheets as it was drawn.

    Attributes:
        drawing: What it was drawn from.
        blocks: What stands beside the plans or follows them.
        choice: Paper, scale and parts, pushed to where they make room for the blocks.
        aside: The part of the plan's area that blocks may fill.
        main: The sheets of the whole slab.
        again: The parts that are drawn again.
    """

    drawing: Drawing
    blocks: Sequence[Block]
    choice: Choice
    aside: Region | None
    main: tuple["PlanSheet", ...]
    again: tuple["Again", ...]

    @property
    def _plans(self) -> list["PlanSheet"]:
        return [*self.main, *(sheet for one in self.again for sheet in one.sheets)]

    @property
    def ties_left(self) -> int:
        """How many ties found no room."""
        return sum(len(plan.left_out.ties) for plan in self._plans)

    @property
    def places(self) -> tuple[Point, ...]:
        """Where on the slab something has no number, mm."""
        return tuple(at for plan in self._plans for at in plan.left_out.places)

    def telling(self, names: Sequence[str]) -> "Drawn":
        """The same with a word on what has no number on any sheet."""
        if not names:
            return self
        size = self.choice.paper
        words = f"No sheet has room for the names of {', '.join(dict.fromkeys(names))}."
        told = Prose("Names not on the plan", (words,), size.small, column_width(size), first=0)
        return replace(self, blocks=[told, *self.blocks])

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """The sheets, with a list of them where they are many."""
        sheets = self.drawing.composed(self._plans, self.blocks, ())
        for _ in range(LISTED):  # the list itself may push something on to another sheet
            lines = listed_sheets(sheets)
            if lines:
                sheets = self.drawing.composed(self._plans, self.blocks, lines)
        return sheets


@dataclass(frozen=True, kw_only=True)
class PlanSheet:
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


@dataclass(frozen=True)
class Again:
    """A part that is drawn again, and its sheets."""

    plan: RedrawnPlan
    sheets: tuple[PlanSheet, ...]

    @classmethod
    def drawn(cls, plan: RedrawnPlan, draw: Drawer) -> "Again":
        """Draws a part."""
        shown = ([plan.plans[part] for part in parts] for parts in plan.choice.sheets)
        sheets = zip(shown, plan.blocks, strict=True)
        return cls(plan, tuple(_on_one_sheet(plans, draw, blocks) for plans, blocks in sheets))

    def beside(self, plan: RedrawnPlan) -> "Again":
        """The same drawing with what stands beside it now."""
        sheets = zip(self.sheets, plan.blocks, strict=True)
        return Again(plan, tuple(replace(sheet, keys=blocks) for sheet, blocks in sheets))

    @property
    def places(self) -> list[Point]:
        """Where on the slab something has no number, mm."""
        return [at for sheet in self.sheets for at in sheet.left_out.places]


def _on_one_sheet(
    plans: Sequence[PlanView], draw: Drawer, keys: Sequence[Block], aside: Region | None = None
) -> PlanSheet:
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
    return PlanSheet(
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
