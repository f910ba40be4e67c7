"""A day against the clock as a picture: rows of bars under the hours, a graph of evaporation."""

import math
from dataclasses import dataclass
from itertools import pairwise

from kerfline.geometry.ring import Point
from kerfline.placement.climate import EvaporationHour
from kerfline.placement.evaporation import ACTION, CAUTION, Risk, threshold_words
from kerfline.sheets.blocks import Block, draw_heading, heading_height
from kerfline.sheets.lettering import LINE_PITCH, text_width, wrap
from kerfline.sheets.marks import Anchor, Board, Fill, Layer
from kerfline.units import HOURS_PER_DAY, Display, format_clock

ROW = 5.5
"""Height of a row, mm."""

GAP = 1.6
"""Room between rows, mm."""

GRAPH = 24.0
"""Height of the graph of evaporation, mm."""

AXIS = 7.0
"""Room for the hours, mm."""

NIGHT = 1.1
"""Height of the bar of the dark, mm."""

BLACK = 0.0
DARK, MIDDLE, LIGHT, WHITE = 0.35, 0.72, 0.9, 1.0
"""Greys of what is done, sure, likely and possible, told apart in black and white."""

KEY = (
    "placing dark, bleeding white, finishing light, finished grey; cutting: white possible, light likely, grey every "
    "line open; make a trial cut first"
)
"""What the greys mean."""

LEAST_WIDTH = 150.0
TICK = 6.0
"""Least distance of two hours on the axis that both have their name, in capital heights."""


@dataclass(frozen=True, kw_only=True)
class Bar:
    """A stretch of time in a row; clock hours and a grey."""

    start: float
    end: float
    tone: float
    words: str = ""


@dataclass(frozen=True, kw_only=True)
class Row:
    """A named row of bars, drawn in order; words in every bar that has room, or in all or none of them."""

    name: str
    bars: tuple[Bar, ...]
    each: bool = False


@dataclass(frozen=True, kw_only=True)
class TimeLine:
    """A day as a block that flows on a sheet.

    Attributes:
        heading: Its heading.
        rows: The rows, from the top.
        curve: The rate of evaporation; empty where the weather is not known.
        start: First clock hour shown.
        end: Last clock hour shown.
        text: Capital height, mm.
        display: For the thresholds.
        changes: Sunrises and sunsets in the stretch shown, clock hours with their names.
        dark: Stretches of it that lie in the dark.
    """

    heading: str
    rows: tuple[Row, ...]
    curve: tuple[EvaporationHour, ...]
    start: float
    end: float
    text: float
    display: Display
    changes: tuple[tuple[float, str], ...] = ()
    dark: tuple[tuple[float, float], ...] = ()

    @property
    def width(self) -> float:
        """Least width in mm."""
        return LEAST_WIDTH

    @property
    def whole(self) -> bool:
        """A time line is one picture."""
        return True

    def height(self, width: float) -> float:
        """Height in mm."""
        graph = GRAPH + GAP if self.curve else 0.0
        rows = len(self.rows) * (ROW + GAP)
        return heading_height(self.text) + self._key_height(width) + AXIS + rows + graph + GAP

    def _key_height(self, width: float) -> float:
        return len(wrap(self._key, self.text, width)) * LINE_PITCH * self.text

    @property
    def _key(self) -> str:
        """What the greys mean, and the bar of the dark with sunrise and sunset, if any is in the picture."""
        if not self.dark:
            return KEY
        said = [f"{name} {format_clock(at % HOURS_PER_DAY)}" for at, name in self.changes]
        return f"{KEY}; black under the hours: dark ({', '.join(said) or 'all through'})"

    def split(self, width: float, room: float) -> tuple[Block | None, Block | None]:
        """All or nothing."""
        return (self, None) if self.height(width) <= room else (None, self)

    def draw(self, board: Board, at: Point, width: float) -> None:
        """Draws with the upper left corner at a point."""
        x, y = at
        y = draw_heading(board, (x, y), width, self.heading, self.text)
        for number, line in enumerate(wrap(self._key, self.text, width), 1):
            foot = y - number * LINE_PITCH * self.text
            board.text(Layer.NOTE, (x, foot), line, self.text)
        y -= self._key_height(width) + AXIS
        names = [row.name for row in self.rows] + ["evaporation " * bool(self.curve)]
        label = max(text_width(name, self.text) for name in names) + 3.0
        scale = _Scale(
            left=x + label, right=x + width - 2.0 * self.text, start=self.start, end=self.end
        )
        foot = at[1] - self.height(width) + GAP
        self._hours(board, scale, y, foot)
        for row in self.rows:
            y -= ROW + GAP
            board.text(Layer.NOTE, (x, y + (ROW - self.text) / 2), row.name, self.text)
            named = row.each or all(self._room(bar, scale) for bar in row.bars if bar.words)
            for bar in row.bars:
                self._bar(board, scale, bar, y, named=named)
        if self.curve:
            self._graph(board, scale, x, foot)

    def _hours(self, board: Board, scale: "_Scale", top: float, foot: float) -> None:
        """The clock along the top, a line down for every hour, a heavy one at midnight."""
        step = next(
            s
            for s in (1, 2, 3, 6, 12)
            if s * scale.hour >= TICK * self.text or s == 12  # noqa: PLR2004
        )
        for hour in range(math.ceil(self.start), math.floor(self.end) + 1):
            at = scale.at(hour)
            midnight = hour % HOURS_PER_DAY == 0
            named = hour % step == 0
            if named or midnight:
                board.line(Layer.VIEWPORT, (at, top), (at, foot), width=0.5 if midnight else None)
                words = format_clock(hour % HOURS_PER_DAY)
                board.text(Layer.NOTE, (at, top + 1.2), words, self.text, anchor=Anchor.MIDDLE)
        board.line(Layer.TABLE, (scale.left, top), (scale.right, top))
        for first, last in self.dark:
            bounds = (scale.at(first), top - NIGHT, scale.at(last), top)
            board.add(Fill(layer=Layer.TABLE, rings=(_corners(bounds),), tone=BLACK))
        for clock, _ in self.changes:
            board.line(Layer.SYMBOL, (scale.at(clock), top), (scale.at(clock), foot))

    def _room(self, bar: Bar, scale: "_Scale") -> bool:
        """Whether a bar's words find room in it."""
        return text_width(bar.words, self.text) < scale.at(bar.end) - scale.at(bar.start) - 1.0

    def _bar(self, board: Board, scale: "_Scale", bar: Bar, y: float, *, named: bool) -> None:
        left, right = scale.at(bar.start), scale.at(bar.end)
        if right <= left:
            return
        bounds = (left, y, right, y + ROW)
        board.add(Fill(layer=Layer.TABLE, rings=(_corners(bounds),), tone=bar.tone))
        board.box(Layer.TABLE, bounds)
        if bar.words and named and self._room(bar, scale):
            middle = ((left + right) / 2, y + (ROW - self.text) / 2)
            half = text_width(bar.words, self.text) / 2 + 0.6
            plate = (middle[0] - half, y + 0.7, middle[0] + half, y + ROW - 0.7)
            board.add(Fill(layer=Layer.TABLE, rings=(_corners(plate),), tone=1.0))
            board.text(Layer.NOTE, middle, bar.words, self.text, anchor=Anchor.MIDDLE)

    def _graph(self, board: Board, scale: "_Scale", x: float, foot: float) -> None:
        """The rate with its band over the two thresholds."""
        shown = self.curve
        top = max([ACTION * 1.3, *(h.rate.high for h in shown)])

        def up(rate: float) -> float:
            return foot + GRAPH * rate / top

        board.text(Layer.NOTE, (x, foot + GRAPH / 2 + 0.7), "evaporation", self.text)
        board.text(Layer.NOTE, (x, foot + GRAPH / 2 - 1.3 * self.text), "band 40 %", self.text)
        for before, after in pairwise(shown):
            a, b = scale.at(before.clock), scale.at(after.clock)
            band = (
                (a, up(before.rate.low)),
                (b, up(after.rate.low)),
                (b, up(after.rate.high)),
                (a, up(before.rate.high)),
            )
            board.add(Fill(layer=Layer.TABLE, rings=(band,), tone=LIGHT))
        points = tuple((scale.at(h.clock), up(h.rate.rate)) for h in shown)
        board.line(Layer.EDGE, *points, width=0.5)
        for threshold, risk in ((CAUTION, Risk.CAUTION), (ACTION, Risk.ACTION)):
            board.line(Layer.ZONE, (scale.left, up(threshold)), (scale.right, up(threshold)))
            self._threshold(board, scale, up(threshold), risk)
        board.box(Layer.TABLE, (scale.left, foot, scale.right, foot + GRAPH))

    def _threshold(self, board: Board, scale: "_Scale", height: float, risk: Risk) -> None:
        """A threshold's name on a white plate over its line."""
        small = self.text
        words = f"{risk.value} {threshold_words(risk, self.display)}"
        left, foot = scale.left + 1.0, height + 1.0
        plate = (left - 0.5, foot - 0.3, left + text_width(words, small) + 0.5, foot + small + 0.3)
        board.add(Fill(layer=Layer.TABLE, rings=(_corners(plate),), tone=1.0))
        board.text(Layer.NOTE, (left, foot), words, small)


@dataclass(frozen=True, kw_only=True)
class _Scale:
    """Clock hours to mm of paper."""

    left: float
    right: float
    start: float
    end: float

    @property
    def hour(self) -> float:
        """Length of an hour."""
        return (self.right - self.left) / (self.end - self.start)

    def at(self, clock: float) -> float:
        """Place of a clock hour, inside the axis."""
        return self.left + (min(max(clock, self.start), self.end) - self.start) * self.hour


def _corners(bounds: tuple[float, float, float, float]) -> tuple[Point, ...]:
    x0, y0, x1, y1 = bounds
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
