"""A ruled table whose rows flow down columns and on to further sheets."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from kerfline.geometry.ring import Point
from kerfline.sheets.blocks import draw_heading, heading_height, title
from kerfline.sheets.lettering import LINE_PITCH, text_width, unbroken, wrap
from kerfline.sheets.marks import Anchor, Board, Layer

CELL_PAD = 1.2
"""Room left and right in a table's cells, mm."""

ROW_PITCH = 1.9
"""Height of a table's row, in capital heights."""

MANY = 2000
"""Rows of a table whose words are measured one by one to make it narrower."""

FEWEST_ROWS = 3
"""A table starts in a column only where this many of its rows find room."""


@dataclass(frozen=True)
class Column:
    """A column of a table.

    Attributes:
        title: What stands in its head; a line break is written as ``|``.
        right: Whether its cells are numbers, set to the right.
        widest: Greatest width in mm that its cells may take; longer ones are wrapped. 0 for no bound.
        least: Least width in mm, for cells that are written in.
    """

    title: str
    right: bool = False
    widest: float = 0.0
    least: float = 0.0


@dataclass(frozen=True)
class Table:
    """A ruled table whose rows flow.

    Attributes:
        heading: Its heading.
        columns: Its columns.
        rows: Cells as text.
        text: Capital height in mm.
        tall: Height of each row in mm where more than the text needs, to be written in; 0 for none.
        parts: Whether it begins where it stands and goes on elsewhere, rather than stay in one piece.
    """

    heading: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    text: float
    tall: float = 0.0
    parts: bool = False
    continued: bool = False
    _widths: tuple[float, ...] = field(default=())
    _cut: tuple[tuple[tuple[str, ...], ...], ...] = field(default=())

    @cached_property
    def widths(self) -> tuple[float, ...]:
        """Width of each column in mm, the same on every sheet that the table flows to."""
        if self._widths:
            return self._widths
        return tuple(self._column_width(i) for i in range(len(self.columns)))

    def _column_width(self, index: int) -> float:
        column = self.columns[index]
        titles = column.title.split("|")
        head = max(text_width(t, self.text) for t in titles)
        body = max((text_width(row[index], self.text) for row in self.rows), default=0.0)
        if column.widest:
            body = min(body, column.widest)
        return max(head, body, column.least) + 2 * CELL_PAD

    @property
    def width(self) -> float:
        """Width in mm."""
        return sum(self.widths)

    def within(self, width: float) -> "Table":
        """The same table no wider than ``width`` mm: cells of sentences wrap first, then all cells of words.

        Where even words must break, they do; letters are never made smaller.
        """
        widths, words = list(self.widths), self._words
        sentences = [bool(c.widest) for c in self.columns]
        texts = [not c.right and not c.least for c in self.columns]
        least = (
            [w if yes else full for w, full, yes in zip(words, widths, sentences, strict=True)],
            [w if yes else full for w, full, yes in zip(words, widths, texts, strict=True)],
            words,
            [0.0] * len(widths),
        )
        for floor in least:
            over = sum(widths) - width
            slack = [max(0.0, w - f) for w, f in zip(widths, floor, strict=True)]
            if over > 0 and sum(slack) > 0:
                share = min(1.0, over / sum(slack))
                widths = [w - share * s for w, s in zip(widths, slack, strict=True)]
        return self if sum(widths) >= self.width else replace(self, _widths=tuple(widths))

    @property
    def least_width(self) -> float:
        """Width in mm under which words break."""
        return sum(self._words)

    @cached_property
    def _words(self) -> list[float]:
        return [self._widest_word(i) for i in range(len(self.columns))]

    def _widest_word(self, index: int) -> float:
        """Width of a column in mm that holds its longest word and its title."""
        titles = self.columns[index].title.split("|")
        cells = [row[index] for row in self.rows] if len(self.rows) <= MANY else []
        found = [*titles, *(word for cell in cells for word in unbroken(cell).split(" "))]
        return max(text_width(word, self.text) for word in found) + 2 * CELL_PAD

    @property
    def whole(self) -> bool:
        """A table reads better in one piece, but for a list that is worked off row by row."""
        return not self.parts

    @property
    def _head_lines(self) -> int:
        return max(c.title.count("|") + 1 for c in self.columns)

    @property
    def _head(self) -> float:
        lines = self._head_lines
        return heading_height(self.text) + (lines * LINE_PITCH + 0.9) * self.text

    @cached_property
    def _cells(self) -> tuple[tuple[tuple[str, ...], ...], ...]:
        """The lines of every cell, row by row, wrapped or cut to the width of their column."""
        return self._cut or tuple(self._lines_of(row) for row in self.rows)

    def _lines_of(self, row: Sequence[str]) -> tuple[tuple[str, ...], ...]:
        out: list[tuple[str, ...]] = []
        for cell, width in zip(row, self.widths, strict=True):
            room = width - 2 * CELL_PAD + 1e-6
            short = text_width(cell, self.text) <= room
            out.append((cell,) if short else tuple(wrap(cell, self.text, room)))
        return tuple(out)

    @cached_property
    def _row_heights(self) -> tuple[float, ...]:
        return tuple(
            max((ROW_PITCH + (max(map(len, row)) - 1) * LINE_PITCH) * self.text, self.tall)
            for row in self._cells
        )

    @cached_property
    def _body(self) -> float:
        return sum(self._row_heights)

    def height(self, width: float) -> float:
        """Height in mm; a table does not stretch."""
        del width
        return self._head + self._body

    def split(self, width: float, room: float) -> "tuple[Table | None, Table | None]":
        """Splits between rows and repeats the head."""
        del width
        used, count = self._head, 0
        for height in self._row_heights:
            used += height
            if used > room:
                break
            count += 1
        if count == len(self.rows) and used <= room:
            return self, None
        if count < FEWEST_ROWS:
            return None, self
        cells = self._cells
        rest = replace(
            self,
            rows=self.rows[count:],
            continued=True,
            _widths=self.widths,
            _cut=cells[count:],
        )
        done = replace(self, rows=self.rows[:count], _widths=self.widths, _cut=cells[:count])
        return done, rest

    def draw(self, board: Board, at: Point, width: float) -> None:
        """Draws with the upper left corner at a point."""
        del width
        x, top = at
        full = self.width
        heading = title(self.heading, continued=self.continued)
        y = draw_heading(board, at, full, heading, self.text)
        head_foot = top - self._head
        self._draw_head(board, x, y, head_foot)
        board.line(Layer.TABLE, (x, head_foot), (x + full, head_foot), width=0.35)
        y = head_foot
        for row, height in zip(self._cells, self._row_heights, strict=True):
            below = y - height
            self._draw_row(board, x, y, row)
            board.line(Layer.TABLE, (x, below), (x + full, below), width=0.13)
            y = below
        if self.tall:
            self._draw_verticals(board, x, head_foot, y)

    def _draw_head(self, board: Board, x: float, top: float, foot: float) -> None:
        left = x
        for column, width in zip(self.columns, self.widths, strict=True):
            lines = column.title.split("|")
            for i, line in enumerate(reversed(lines)):
                baseline = foot + (0.55 + i * LINE_PITCH) * self.text
                _cell(board, left, width, baseline, line, self.text, right=column.right)
            left += width
        del top

    def _draw_row(self, board: Board, x: float, top: float, row: Sequence[Sequence[str]]) -> None:
        left = x
        for cell, column, width in zip(row, self.columns, self.widths, strict=True):
            for i, line in enumerate(cell):
                baseline = top - (1.42 + i * LINE_PITCH) * self.text
                _cell(board, left, width, baseline, line, self.text, right=column.right)
            left += width

    def _draw_verticals(self, board: Board, x: float, top: float, foot: float) -> None:
        left = x
        for width in (*self.widths, 0.0):
            board.line(Layer.TABLE, (left, top), (left, foot), width=0.13)
            left += width


def _cell(
    board: Board,
    left: float,
    width: float,
    baseline: float,
    text: str,
    height: float,
    *,
    right: bool,
) -> None:
    if right:
        at = (left + width - CELL_PAD, baseline)
        board.text(Layer.TABLE, at, text, height, anchor=Anchor.END)
    else:
        board.text(Layer.TABLE, (left + CELL_PAD, baseline), text, height)
