"""Blocks of content that flow down columns and on to further sheets: headings, paragraphs, tables."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Protocol

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import LINE_PITCH, fitted, text_width, wrap
from kerfline.sheets.marks import Anchor, Board, Layer

HEADING = 1.3
"""Height of a heading over that of the text."""

CELL_PAD = 1.2
"""Room left and right in a table's cells, mm."""

ROW_PITCH = 1.9
"""Height of a table's row, in capital heights."""

PARAGRAPH_GAP = 0.7
"""Extra room between paragraphs, in capital heights."""


MANY = 2000
"""Rows of a table whose words are measured one by one to make it narrower."""

FEWEST_ROWS = 3
"""A table starts in a column only where this many of its rows find room."""


class Block(Protocol):
    """Something that fills part of a column.

    A block can be split where a column ends; ``draw`` needs what ``height`` said it would.
    """

    @property
    def width(self) -> float:
        """Least width in mm."""

    @property
    def whole(self) -> bool:
        """Whether it should stay in one piece where a fresh column holds it."""

    def height(self, width: float) -> float:
        """Height in mm at a width."""

    def split(self, width: float, room: float) -> "tuple[Block | None, Block | None]":
        """What fits in the room, and the rest; either may be None."""

    def draw(self, board: Board, at: Point, width: float) -> None:
        """Draws with the upper left corner at a point."""


LONG_PARAGRAPH = 12
"""A paragraph of more lines than this may be divided, where this many fit."""


@dataclass(frozen=True)
class Prose:
    """A heading and numbered or plain paragraphs.

    Attributes:
        heading: Its heading.
        paragraphs: Its paragraphs.
        text: Capital height in mm.
        least: Least width in mm.
        first: Number of the first paragraph; 0 for no numbers.
    """

    heading: str
    paragraphs: tuple[str, ...]
    text: float
    least: float
    first: int = 1
    continued: bool = False

    @property
    def width(self) -> float:
        """Least width in mm."""
        return self.least

    @property
    def whole(self) -> bool:
        """Prose may be split anywhere."""
        return False

    @property
    def _indent(self) -> float:
        return text_width("00. ", self.text) if self.first else 0.0

    def _lines(self, width: float) -> list[list[str]]:
        return [wrap(p, self.text, width - self._indent) for p in self.paragraphs]

    @property
    def _head(self) -> float:
        return heading_height(self.text)

    def _paragraph_height(self, lines: Sequence[str]) -> float:
        return (len(lines) * LINE_PITCH + PARAGRAPH_GAP) * self.text

    def height(self, width: float) -> float:
        """Height in mm at a width."""
        return self._head + sum(self._paragraph_height(p) for p in self._lines(width))

    def split(self, width: float, room: float) -> "tuple[Prose | None, Prose | None]":
        """Splits between paragraphs, and one of many lines within."""
        used, count = self._head, 0
        for lines in self._lines(width):
            height = self._paragraph_height(lines)
            if used + height > room:
                fitting = int((room - used) / self.text / LINE_PITCH)
                if len(lines) > LONG_PARAGRAPH <= fitting:
                    return self._within_paragraph(count, lines, min(fitting, len(lines)) - 1)
                used += height
                break
            used += height
            count += 1
        if count == len(self.paragraphs) and used <= room:
            return self, None
        if count == 0:
            return None, self
        rest = replace(
            self,
            paragraphs=self.paragraphs[count:],
            first=self.first + count if self.first else 0,
            continued=True,
        )
        return replace(self, paragraphs=self.paragraphs[:count]), rest

    def _within_paragraph(
        self, index: int, lines: Sequence[str], count: int
    ) -> "tuple[Prose, Prose]":
        """Splits after some lines of a paragraph; the number of the paragraph is said again."""
        start, rest = " ".join(lines[:count]), " ".join(lines[count:])
        return (
            replace(self, paragraphs=(*self.paragraphs[:index], start)),
            replace(
                self,
                paragraphs=(rest, *self.paragraphs[index + 1 :]),
                first=self.first + index if self.first else 0,
                continued=True,
            ),
        )

    def draw(self, board: Board, at: Point, width: float) -> None:
        """Draws with the upper left corner at a point."""
        x, y = at
        y = draw_heading(board, (x, y), width, _continued(self.heading, self.continued), self.text)
        for number, lines in enumerate(self._lines(width), self.first):
            y -= PARAGRAPH_GAP * self.text
            for i, line in enumerate(lines):
                baseline = y - (i + 1) * LINE_PITCH * self.text + (LINE_PITCH - 1) * self.text
                if i == 0 and self.first:
                    board.text(Layer.NOTE, (x, baseline), f"{number}.", self.text)
                board.text(Layer.NOTE, (x + self._indent, baseline), line, self.text)
            y -= len(lines) * LINE_PITCH * self.text


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
    """

    heading: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    text: float
    tall: float = 0.0
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
        found = [*titles, *(word for cell in cells for word in cell.split(" "))]
        return max(text_width(word, self.text) for word in found) + 2 * CELL_PAD

    @property
    def whole(self) -> bool:
        """A table reads better in one piece."""
        return True

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
        title = _continued(self.heading, self.continued)
        y = draw_heading(board, at, full, title, self.text)
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


def heading_height(text: float) -> float:
    """Height in mm that a block's heading takes."""
    return (HEADING + 1.1) * text


def draw_heading(board: Board, at: Point, width: float, heading: str, text: float) -> float:
    """Draws a block's heading with a rule under it; returns the height where the content starts."""
    x, y = at
    shown = fitted(heading, HEADING * text, width)
    board.text(Layer.TABLE, (x, y - HEADING * text), shown, HEADING * text)
    rule = y - (HEADING + 0.6) * text
    board.line(Layer.TABLE, (x, rule), (x + width, rule), width=0.35)
    return y - heading_height(text)


def _continued(heading: str, continued: bool) -> str:  # noqa: FBT001 - one flag, one caller
    return f"{heading} (continued)" if continued else heading


@dataclass(frozen=True)
class Figure:
    """A block of fixed size drawn by a function.

    Attributes:
        width: Width in mm.
        tall: Height in mm.
        painter: Draws it on a board with the upper left corner at a point.
    """

    width: float
    tall: float
    painter: "Painter"

    @property
    def whole(self) -> bool:
        """A figure is never split."""
        return True

    def height(self, width: float) -> float:
        """Height in mm."""
        del width
        return self.tall

    def split(self, width: float, room: float) -> "tuple[Block | None, Block | None]":
        """A figure is never split."""
        del width
        return (self, None) if self.tall <= room else (None, self)

    def draw(self, board: Board, at: Point, width: float) -> None:
        """Draws with the upper left corner at a point."""
        self.painter(board, at, max(width, self.width))


class Painter(Protocol):
    """Draws a figure."""

    def __call__(self, board: Board, at: Point, width: float) -> None:
        """Draws with the upper left corner at a point."""
