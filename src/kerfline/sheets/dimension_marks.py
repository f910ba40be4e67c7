"""Draws dimension strings: running ones from corner A below and left, chains above and right."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import ASCENT, DESCENT, below, text_width
from kerfline.sheets.marks import DIMENSION_TEXT, Anchor, Board, Fill, Layer, Measure, Text
from kerfline.sheets.placer import CLEAR, spread
from kerfline.sheets.running import dimension_text
from kerfline.sheets.runs import NEAR, Side
from kerfline.sheets.stations import Span, Station, thinned
from kerfline.sheets.strings import DimensionString
from kerfline.units import Display, in_steps, step

FIRST_ROW = 9.0
"""Distance of a dimension line from the slab, mm."""

NEXT_ROW = 3.0
"""Distance of the row of the overall dimension from the chain's, in capital heights."""

GAP = 1.5
"""Gap between the slab and an extension line, mm."""

JOG = 3.5
"""Length over which a running dimension's leader steps aside to its text, mm."""

TICK = 1.1
"""Half length of the oblique tick on a dimension line, mm."""

RIM = 2.0
"""Room in mm beyond the strings."""

PITCH = 1.5
"""Least distance of neighbouring texts, in capital heights."""

OFF_LINE = 0.9
"""Gap in mm between a dimension line and its text; one that reaches below its line keeps ``CLEAR`` of it."""

OVERHANG = 10.0
"""How far the texts of a string may spread beyond its ends where no concrete stands there, mm."""

OFF_WALL = 0.9
"""How far a text keeps off concrete beside its string, in capital heights."""

ALIKE = 3
"""So many equal bays on end are told as one dimension."""


def margins(
    stations_x: Sequence[Station],
    stations_y: Sequence[Station],
    display: Display,
    height: float,
    scale: float,
    *,
    overall: bool = True,
) -> tuple[float, float, float, float]:
    """Room in mm that the strings take left, below, right and above the plan at a scale, with or without overall ones."""
    return (
        _running_room(stations_y, display, height),
        _running_room(stations_x, display, height),
        _chain_room(stations_y, display, height, scale, overall=overall),
        _chain_room(stations_x, display, height, scale, overall=overall),
    )


def _running_room(found: Sequence[Station], display: Display, height: float) -> float:
    texts = [dimension_text(s.offset, display) for s in found]
    longest = max((text_width(t, height) for t in texts), default=0.0)
    return FIRST_ROW + JOG + 2 * GAP + longest + RIM


def _chain_room(
    found: Sequence[Station], display: Display, height: float, scale: float, *, overall: bool
) -> float:
    """Room for a chain and the overall dimension: more where some of its values must stand upright."""
    rounded = sorted({in_steps(s.offset, display) for s in found if not s.here})
    links = [(b - a) * step(display) for a, b in pairwise(rounded)]
    widths = [(text_width(dimension_text(link, display), height), link / scale) for link in links]
    turned = [width for width, room in widths if width + 2 * TICK > room]
    along = FIRST_ROW + ASCENT * height + RIM
    if not overall:  # equal bays that are told as one stand over their ticks
        along += TICK + OFF_LINE + DESCENT * height
    chain = max(along, _turned_start(height) + max(turned) + RIM) if turned else along
    return chain + (NEXT_ROW * height if overall and len(links) > 1 else 0.0)


def _turned_start(height: float) -> float:
    """Where turned values of a chain begin: beyond those that run along the line."""
    return FIRST_ROW + 2 * height + 1.0


@dataclass(frozen=True)
class Axis:
    """How offsets from the baselines lie on the paper along one string.

    Attributes:
        origin: Paper place of offset 0 along the side.
        scale: Scale denominator.
        low: First place on the paper that texts may take.
        high: Last such place.
    """

    origin: float
    scale: float
    low: float
    high: float

    def along(self, offset: float) -> float:
        """Paper place of an offset along the side."""
        return self.origin + offset / self.scale

    def room(self, pitch: float) -> int:
        """How many texts find room."""
        return max(2, int((self.high - self.low) / pitch) + 1)


def axis_of(
    string: DimensionString, origin: Point, scale: float, limits: tuple[float, float], height: float
) -> Axis:
    """The axis of a string, its texts within limits on the paper and off the concrete beside it."""
    stretch = string.stretch
    low = stretch.low + (OFF_WALL * height if stretch.walled[0] else -OVERHANG)
    high = stretch.high - (OFF_WALL * height if stretch.walled[1] else -OVERHANG)
    place = origin[1 if string.side.upright else 0]
    return Axis(place, scale, max(limits[0], low), min(limits[1], high))


def draw_string(
    board: Board, string: DimensionString, axis: Axis, display: Display, height: float
) -> None:
    """Draws a string; the texts of a chain that find no room along it stand square to it."""
    if string.running:
        _draw_running(board, string, axis, display, height)
    else:
        _draw_chain(board, string, axis, display, height)


def _draw_running(
    board: Board, string: DimensionString, axis: Axis, display: Display, height: float
) -> None:
    """A string of running dimensions; each station has an extension line, a dot and its text."""
    side = string.side
    kept = thinned(list(string.stations), display, axis.room(height * PITCH))
    places = [axis.along(s.offset) for s in kept]
    texts = [dimension_text(s.offset, display) for s in kept]
    pitch = height * PITCH
    seats = _seats([p + string.lean * pitch for p in places], pitch, axis.low, axis.high)
    row = FIRST_ROW + string.out
    board.line(Layer.DIMENSION, side.at(places[0], row), side.at(places[-1], row))
    for place, seat, text in zip(places, seats, texts, strict=True):
        start = _start(string, place, row)
        board.line(
            Layer.DIMENSION,
            side.at(place, start),
            side.at(place, row + GAP),
            side.at(seat, row + JOG),
            side.at(seat, row + JOG + GAP),
        )
        _dot(board, side.at(place, row))
        _write(board, side, seat, row + JOG + 2 * GAP, text, height)
        _measured(board, side, (axis.origin, place), row, running=True)


def _start(string: DimensionString, place: float, row: float) -> float:
    """Where an extension line begins: a gap off the edge; at the row where the edge itself leads out to it."""
    stretch = string.stretch
    ends = ((stretch.walled[0], stretch.low), (stretch.walled[1], stretch.high))
    if any(walled and abs(place - end) <= NEAR for walled, end in ends):
        return row
    depths = stretch.depths_at(place)
    return GAP - (min(depths) - stretch.depth) if depths else GAP


def _draw_chain(
    board: Board, string: DimensionString, axis: Axis, display: Display, height: float
) -> None:
    """A chain of dimensions, each the difference of two rounded running ones, and the overall one beyond it."""
    side = string.side
    kept = thinned(list(string.stations), display, axis.room(height * PITCH))
    places = [axis.along(s.offset) for s in kept]
    rounded = [in_steps(s.offset, display) for s in kept]
    row = FIRST_ROW + string.out
    board.line(Layer.DIMENSION, side.at(places[0], row), side.at(places[-1], row))
    links = list(zip(pairwise(places), (b - a for a, b in pairwise(rounded)), strict=True))
    inner = _inner_places(links)
    for place in places:
        past = 0.0 if place in inner else 2 * TICK
        _tick(board, side, place, _start(string, place, row), row, past)
    narrow: list[tuple[float, float, str]] = []
    for size, run in groupby(links, key=lambda link: link[1]):
        bays = [places for places, _ in run]
        told = [(a, b, _bay_words(size, 1, display)) for a, b in bays]
        if len(bays) >= ALIKE:
            told = [(bays[0][0], bays[-1][1], _bay_words(size, len(bays), display))]
        for a, b, text in told:
            room = b - a - 2 * TICK - text_width(text, height)
            if room >= 0 and not string.square:
                off = TICK + below(text, height) if len(bays) >= ALIKE else 0.0
                middle = (a + b + string.lean * room) / 2
                _along(board, side, middle, row + off, text, height)
                _measured(board, side, (a, b), row)
            else:
                narrow.append((a, b, text))
    one_kind = len(links) >= ALIKE and len({size for _, size in links}) == 1
    overall = len(links) > 1 and string.whole and not one_kind  # equal bays tell their sum
    if overall:  # its extension lines pass the ends of the chain
        rim = OFF_WALL * height
        low, high = max(axis.low, places[0] + rim), min(axis.high, places[-1] - rim)
        axis = replace(axis, low=low, high=high)
    lean = string.lean if string.square else 0.0
    out = _stand(board, side, row, narrow, axis, height, lean)
    if overall:
        total = dimension_text((rounded[-1] - rounded[0]) * step(display), display)
        ends = (places[0], places[-1])
        _overall(board, side, ends, (row, out + NEXT_ROW * height), total, height)


def _inner_places(links: Sequence[tuple[Span, int]]) -> set[float]:
    """Places between equal bays that are told as one: the text stands over them."""
    inner: set[float] = set()
    for _, run in groupby(links, key=lambda link: link[1]):
        bays = [places for places, _ in run]
        if len(bays) >= ALIKE:
            inner.update(a for a, _ in bays[1:])
    return inner


def _bay_words(size: int, count: int, display: Display) -> str:
    """One bay, or equal ones with their sum: ``24 @ 13'-4" = 320'-0"``."""
    one = dimension_text(size * step(display), display)
    if count == 1:
        return one
    return f"{count} @ {one} = {dimension_text(count * size * step(display), display)}"


def _tick(
    board: Board, side: Side, place: float, start: float, row: float, past: float = 2 * TICK
) -> None:
    """An extension line, a little past the dimension line, and the oblique tick where they meet."""
    board.line(Layer.DIMENSION, side.at(place, start), side.at(place, row + past))
    x, y = side.at(place, row)
    board.line(Layer.DIMENSION, (x - TICK, y - TICK), (x + TICK, y + TICK), width=0.35)


def _stand(
    board: Board,
    side: Side,
    row: float,
    narrow: Sequence[tuple[float, float, str]],
    axis: Axis,
    height: float,
    lean: float = 0.0,
) -> float:
    """Values with no room along the chain, square to it with a leader; how far out they reach, mm."""
    start = row - FIRST_ROW + _turned_start(height)
    middles = [(a + b) / 2 + lean * (b - a) / 3 for a, b, _ in narrow]
    seats = _seats(middles, height * PITCH, axis.low, axis.high)
    for (a, b, text), place, seat in zip(narrow, middles, seats, strict=True):
        board.line(
            Layer.DIMENSION,
            side.at(place, row),
            side.at(place, row + 0.8),
            side.at(seat, start - 1.8),
            side.at(seat, start - 0.8),
        )
        _write(board, side, seat, start, text, height)
        _measured(board, side, (a, b), row)
    if not narrow:
        return row
    return start + max(text_width(text, height) for *_, text in narrow) - 2 * height


def _overall(board: Board, side: Side, ends: Span, rows: Span, text: str, height: float) -> None:
    """The dimension from end to end, beyond the row of the chain."""
    first, row = rows
    board.line(Layer.DIMENSION, side.at(ends[0], row), side.at(ends[1], row))
    for place in ends:
        _tick(board, side, place, first + 2 * TICK, row)
    _along(board, side, sum(ends) / 2, row, text, height)
    _measured(board, side, ends, row)


def _measured(board: Board, side: Side, ends: Span, row: float, *, running: bool = False) -> None:
    """Notes what the text that was written last measures."""
    text = board.marks[-1]
    if not isinstance(text, Text):
        return
    text = replace(text, ref=DIMENSION_TEXT)
    board.marks[-1] = text
    board.measures.append(
        Measure(
            start=side.at(ends[0], 0.0),
            end=side.at(ends[1], 0.0),
            line=side.at(ends[1], row),
            text=text,
            running=running,
            upright=side.upright,
        )
    )


def _along(board: Board, side: Side, place: float, row: float, text: str, height: float) -> None:
    """Text above its dimension line, readable from below or from the right."""
    out = row + OFF_LINE
    if side.upright == (side.sign < 0):  # its lower side is toward the line
        out = row + max(OFF_LINE, below(text, height) + CLEAR)
    if side.upright:
        shift = out if side.sign < 0 else out + height
        board.text(
            Layer.DIMENSION, side.at(place, shift), text, height, anchor=Anchor.MIDDLE, turn=90.0
        )
    else:
        shift = out if side.sign > 0 else out + height
        board.text(Layer.DIMENSION, side.at(place, shift), text, height, anchor=Anchor.MIDDLE)


def _write(board: Board, side: Side, seat: float, out: float, text: str, height: float) -> None:
    """Text square to its dimension line, outward from it."""
    middle = height / 2
    anchor = Anchor.START if side.sign > 0 else Anchor.END
    if side.upright:
        board.text(Layer.DIMENSION, side.at(seat - middle, out), text, height, anchor=anchor)
    else:
        board.text(
            Layer.DIMENSION, side.at(seat + middle, out), text, height, anchor=anchor, turn=90.0
        )


def _dot(board: Board, at: Point) -> None:
    x, y = at
    half = 0.45
    board.add(
        Fill(
            layer=Layer.DIMENSION,
            rings=(((x - half, y), (x, y - half), (x + half, y), (x, y + half)),),
        )
    )


def _seats(places: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Places of the texts: spread, and pushed back inside the side's ends."""
    seats = spread(places, pitch)
    if seats and seats[0] < low:
        seats = [max(s, low + i * pitch) for i, s in enumerate(seats)]
    if seats and seats[-1] > high:
        count = len(seats)
        seats = [min(s, high - (count - 1 - i) * pitch) for i, s in enumerate(seats)]
    return seats
