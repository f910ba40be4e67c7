"""The frame, title block and column that every sheet of a set has."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from kerfline.model.job import Job
from kerfline.sheets.blocks import Block
from kerfline.sheets.flow import Region, fill
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Board, Layer, Sheet
from kerfline.sheets.paper import PaperSize, scale_words
from kerfline.sheets.table import Table
from kerfline.sheets.title_block import draw_title_block, title_height
from kerfline.sheets.view import View

FRAME_WIDTH = 0.7
INSET = 3.0
"""Room between the frame and what stands inside it, mm."""

MOST_COLUMNS = 8
"""Blocks taller than so many columns together are filled in order: trying another way would not save a sheet."""

MOST_SHEETS = 400
"""A set longer than this is a mistake of the program, not of the user."""


@dataclass
class SheetSet:
    """The sheets of one set while they are drawn.

    Attributes:
        job: Whose title block they carry.
        paper: Their paper.
        name: Short name for files.
        title: Title of the first sheet.
    """

    job: Job
    paper: PaperSize
    name: str
    title: str
    _boards: list[tuple[Board, tuple[View, ...], str, bool]] = field(default_factory=list)

    def new(self, views: Sequence[View] = (), title: str = "", *, column: bool = True) -> Board:
        """Starts a sheet; its frame and title block are drawn when the set is finished."""
        board = Board()
        self._boards.append((board, tuple(views), title or self.title, column))
        return board

    def finished(self) -> tuple[Sheet, ...]:
        """The sheets, numbered, with frames and title blocks."""
        count = len(self._boards)
        return tuple(
            Sheet(
                name=self.name,
                title=title,
                number=number,
                count=count,
                paper=self.paper,
                marks=(*self._frame(number, count, views, title, column=column), *board),
                views=views,
                measures=tuple(board.measures),
            )
            for number, (board, views, title, column) in enumerate(self._boards, 1)
        )

    def _frame(
        self, number: int, count: int, views: Sequence[View], title: str, *, column: bool
    ) -> Board:
        board = Board()
        left, bottom, right, top = self.paper.frame
        board.box(Layer.TITLE, (left, bottom, right, top), width=FRAME_WIDTH)
        scale = scale_words(views[0].scale, self.job.display) if views else ""
        values = {
            **self.job.sheet.fields,
            "project": self.job.sheet.fields.get("project", "") or self.job.name,
            "title": self.job.sheet.fields.get("title", "") or title,
            "type": self.job.sheet.fields.get("type", "") or self.name.replace("-", " "),
            "scale": scale,
            "size": self.paper.trade,
            "mark": self.job.sheet.mark,
            "sheet": f"{number} of {count}",
        }
        draw_title_block(board, (right, bottom), self.paper.column, self.paper.small, values)
        if column:
            left = right - self.paper.column
            board.line(Layer.TITLE, (left, bottom), (left, top))
        return board


def column_region(size: PaperSize) -> Region:
    """The column above the title block."""
    _, bottom, right, top = size.frame
    return Region(
        right - size.column + INSET,
        bottom + title_height(size.small) + INSET,
        right - INSET,
        top - INSET,
    )


def column_width(size: PaperSize) -> float:
    """Width in mm that blocks in the column have."""
    return size.column - 2 * INSET


def text_sheets(drawn: SheetSet, blocks: list[Block]) -> None:
    """Further sheets for the blocks that found no room beside the plan."""
    size = drawn.paper
    left, bottom, right, top = size.frame
    main = Region(left + INSET, bottom + INSET, right - size.column - INSET, top - INSET)
    head = bottom + title_height(size.small) + INSET
    whole = Region(left + INSET, head, right - INSET, top - INSET)
    foot = Region(left + INSET, bottom + INSET, main.right, head - INSET)
    blocks = [_narrowed(block, whole.right - whole.left) for block in blocks]
    for _ in range(MOST_SHEETS):
        if not blocks:
            return
        broad = _is_broad(main, column_region(size), whole, foot, blocks)
        board = drawn.new(title=_tables_title(drawn.title, size), column=not broad)
        parts = (whole, foot) if broad else (main, column_region(size))
        blocks = _fill_both(board, *parts, blocks)
    raise AssertionError(f"{drawn.title}: tables that fill no sheet")


def _is_broad(
    main: Region, column: Region, whole: Region, foot: Region, blocks: list[Block]
) -> bool:
    """Whether blocks go across the sheet, over the column too: where one is so wide, or more of them then fits."""
    if max(block.width for block in blocks) > main.right - main.left:
        return True
    apart, across = (
        _height(_fill_both(Board(), *parts, blocks)) for parts in ((main, column), (whole, foot))
    )
    return across < apart


def _height(blocks: list[Block]) -> float:
    return sum(block.height(block.width) for block in blocks)


def _tables_title(title: str, size: PaperSize) -> str:
    """The title of a sheet of tables; without the word where the title block has no room for it."""
    told = f"{title}: tables"
    return told if text_width(told, size.small) <= column_width(size) else title


def _narrowed(block: Block, width: float) -> Block:
    """A block that fits a width; only tables can be wider."""
    return block.within(width) if isinstance(block, Table) else block


def _fill_both(board: Board, main: Region, column: Region, blocks: list[Block]) -> list[Block]:
    """Fills a sheet in the way of the two that leaves less for the next one."""
    if _height(blocks) > MOST_COLUMNS * (main.top - main.bottom):
        return _in_order(board, main, column, blocks)
    ways = (_in_order, _wide_apart)
    left = [len(way(Board(), main, column, blocks)) for way in ways]
    return ways[left.index(min(left))](board, main, column, blocks)


def _in_order(board: Board, main: Region, column: Region, blocks: list[Block]) -> list[Block]:
    """The main part first, then the column."""
    return fill(board, column, fill(board, main, blocks))


def _wide_apart(board: Board, main: Region, column: Region, blocks: list[Block]) -> list[Block]:
    """What the column can hold there, all else in the main part."""
    wide = [block for block in blocks if block.width > column.right - column.left]
    narrow = [block for block in blocks if block not in wide]
    return fill(board, main, [*wide, *fill(board, column, narrow)])
