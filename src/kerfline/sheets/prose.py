"""A block of prose: a heading and numbered or plain paragraphs."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kerfline.geometry.ring import Point
from kerfline.sheets.blocks import draw_heading, heading_height, title
from kerfline.sheets.lettering import LINE_PITCH, text_width, wrap
from kerfline.sheets.marks import Board, Layer

PARAGRAPH_GAP = 0.7
"""Extra room between paragraphs, in capital heights."""

PARAGRAPH = "paragraph "
"""What the lines of one paragraph refer to, before its name."""

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
        y = draw_heading(
            board, (x, y), width, title(self.heading, continued=self.continued), self.text
        )
        for number, lines in enumerate(self._lines(width), self.first):
            y -= PARAGRAPH_GAP * self.text
            ref = f"{PARAGRAPH}{self.heading} {number}"
            for i, line in enumerate(lines):
                baseline = y - (i + 1) * LINE_PITCH * self.text + (LINE_PITCH - 1) * self.text
                if i == 0 and self.first:
                    board.text(Layer.NOTE, (x, baseline), f"{number}.", self.text)
                board.text(Layer.NOTE, (x + self._indent, baseline), line, self.text, ref=ref)
            y -= len(lines) * LINE_PITCH * self.text
