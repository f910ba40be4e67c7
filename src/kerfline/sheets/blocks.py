"""Blocks of content that flow down columns and on to further sheets; prose and tables have modules of their own."""

from dataclasses import dataclass
from typing import Protocol

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import fitted, text_width
from kerfline.sheets.marks import Board, Layer

HEADING = 1.3
"""Height of a heading over that of the text."""

HEAD = "heading"
"""What headings are marked with, for the list of sheets."""


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


def heading_height(text: float) -> float:
    """Height in mm that a block's heading takes."""
    return (HEADING + 1.1) * text


def draw_heading(board: Board, at: Point, width: float, heading: str, text: float) -> float:
    """Draws a block's heading with a rule under it; returns the height where the content starts."""
    x, y = at
    size = HEADING * text if text_width(heading, HEADING * text) <= width else text
    board.text(Layer.TABLE, (x, y - HEADING * text), fitted(heading, size, width), size, ref=HEAD)
    rule = y - (HEADING + 0.6) * text
    board.line(Layer.TABLE, (x, rule), (x + width, rule), width=0.35)
    return y - heading_height(text)


def title(heading: str, *, continued: bool) -> str:
    """A block's heading, or that it goes on from the sheet before."""
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
