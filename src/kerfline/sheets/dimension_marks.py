"""Dimension strings around the plan: running ones from corner A below and left, chains above and right."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString, Polygon

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import ASCENT, text_width
from kerfline.sheets.marks import Anchor, Board, Bounds, Fill, Layer
from kerfline.sheets.placer import spread
from kerfline.sheets.running import Running, dimension_text, step
from kerfline.sheets.stations import Station, thinned
from kerfline.units import Display

FIRST_ROW = 9.0
"""Distance of a dimension line from the slab, mm."""

GAP = 1.5
"""Gap between the slab and an extension line, mm."""

JOG = 3.5
"""Length over which a running dimension's leader steps aside to its text, mm."""

TICK = 1.1
"""Half length of the oblique tick on a dimension line, mm."""

FAR = 5000.0
"""Longer than any sheet, mm."""

HAIR = 0.05
"""Slack with which an extension line finds the slab, mm of paper."""

RIM = 2.0
"""Room in mm beyond the strings."""

PITCH = 1.5
"""Least distance of neighbouring texts, in capital heights."""


@dataclass(frozen=True)
class Side:
    """A side of the plan in its own coordinates: ``along`` the side and ``out`` from it.

    Attributes:
        level: Place of the side across its direction, mm of paper.
        upright: True for the left and right sides.
        sign: +1 where outward is up or right, -1 where it is down or left.
    """

    level: float
    upright: bool
    sign: int

    def at(self, along: float, out: float) -> Point:
        """A point on the paper."""
        across = self.level + self.sign * out
        return (across, along) if self.upright else (along, across)


def margins(
    stations_x: Sequence[Station],
    stations_y: Sequence[Station],
    display: Display,
    height: float,
    scale: float,
) -> tuple[float, float, float, float]:
    """Room in mm that the strings take left, below, right and above the plan at a scale."""
    return (
        _running_room(stations_y, display, height),
        _running_room(stations_x, display, height),
        _chain_room(stations_y, display, height, scale),
        _chain_room(stations_x, display, height, scale),
    )


def _running_room(found: Sequence[Station], display: Display, height: float) -> float:
    texts = [dimension_text(s.offset, display) for s in found]
    longest = max((text_width(t, height) for t in texts), default=0.0)
    return FIRST_ROW + JOG + 2 * GAP + longest + RIM


def _chain_room(found: Sequence[Station], display: Display, height: float, scale: float) -> float:
    """Room for a chain: more where some of its values must stand upright."""
    rounded = sorted({round(s.offset / step(display)) for s in found if not s.here})
    links = [(b - a) * step(display) for a, b in pairwise(rounded)]
    widths = [(text_width(dimension_text(link, display), height), link / scale) for link in links]
    turned = [width for width, room in widths if width + 2 * TICK > room]
    along = FIRST_ROW + ASCENT * height + RIM
    return max(along, _turned_start(height) + max(turned) + RIM) if turned else along


def _turned_start(height: float) -> float:
    """Where turned values of a chain begin: beyond those that run along the line."""
    return FIRST_ROW + 2 * height + 1.0


def draw_running(
    board: Board,
    side: Side,
    found: Sequence[Station],
    to_paper: "Axis",
    display: Display,
    height: float,
) -> None:
    """A string of running dimensions; each station has an extension line, a tick and its text."""
    kept = thinned(list(found), step(display), to_paper.room(height * PITCH))
    places = [to_paper.along(s.offset) for s in kept]
    texts = [dimension_text(round(s.offset / step(display)) * step(display), display) for s in kept]
    seats = _seats(places, height * PITCH, to_paper.low, to_paper.high)
    row = FIRST_ROW
    if places:
        board.line(Layer.DIMENSION, side.at(places[0], row), side.at(places[-1], row))
    for s, place, seat, text in zip(kept, places, seats, texts, strict=True):
        board.line(
            Layer.DIMENSION,
            side.at(place, GAP - to_paper.depth(s.offset, side)),
            side.at(place, row + GAP),
            side.at(seat, row + JOG),
            side.at(seat, row + JOG + GAP),
        )
        _dot(board, side.at(place, row))
        _write(board, side, seat, row + JOG + 2 * GAP, text, height)


def draw_chain(
    board: Board,
    side: Side,
    found: Sequence[Station],
    to_paper: "Axis",
    display: Display,
    height: float,
) -> None:
    """A chain of dimensions, each the difference of two rounded running ones."""
    through = [s for s in found if not s.here]
    kept = thinned(through, step(display), to_paper.room(height * PITCH))
    places = [to_paper.along(s.offset) for s in kept]
    rounded = [round(s.offset / step(display)) for s in kept]
    if not places:
        return
    row = FIRST_ROW
    board.line(
        Layer.DIMENSION, side.at(places[0] - 2 * TICK, row), side.at(places[-1] + 2 * TICK, row)
    )
    for s, place in zip(kept, places, strict=True):
        start = GAP - to_paper.depth(s.offset, side)
        board.line(Layer.DIMENSION, side.at(place, start), side.at(place, row + 2 * TICK))
        x, y = side.at(place, row)
        board.line(Layer.DIMENSION, (x - TICK, y - TICK), (x + TICK, y + TICK), width=0.35)
    values = [dimension_text((b - a) * step(display), display) for a, b in pairwise(rounded)]
    _chain_texts(board, side, places, values, to_paper, height)


def _chain_texts(
    board: Board,
    side: Side,
    places: Sequence[float],
    values: Sequence[str],
    axis: "Axis",
    height: float,
) -> None:
    narrow: list[tuple[float, str]] = []
    for (a, b), text in zip(pairwise(places), values, strict=True):
        if text_width(text, height) + 2 * TICK <= b - a:
            _along(board, side, (a + b) / 2, text, height)
        else:
            narrow.append(((a + b) / 2, text))
    start = _turned_start(height)
    seats = _seats([place for place, _ in narrow], height * PITCH, axis.low, axis.high)
    for (place, text), seat in zip(narrow, seats, strict=True):
        board.line(
            Layer.DIMENSION,
            side.at(place, FIRST_ROW),
            side.at(place, FIRST_ROW + 0.8),
            side.at(seat, start - 1.8),
            side.at(seat, start - 0.8),
        )
        _write(board, side, seat, start, text, height)


def _along(board: Board, side: Side, place: float, text: str, height: float) -> None:
    """Text above its dimension line, readable from below or from the right."""
    out = FIRST_ROW + 0.9
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
    if side.upright:
        anchor = Anchor.START if side.sign > 0 else Anchor.END
        board.text(Layer.DIMENSION, side.at(seat - middle, out), text, height, anchor=anchor)
    else:
        anchor = Anchor.START if side.sign > 0 else Anchor.END
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


@dataclass(frozen=True)
class Axis:
    """How offsets from the baselines lie on the paper along one side.

    Attributes:
        origin: Paper place of offset 0 along the side.
        scale: Scale denominator.
        low: First place on the paper that texts may take.
        high: Last such place.
        slab: The shown part of the slab on the paper, which extension lines reach to.
    """

    origin: float
    scale: float
    low: float
    high: float
    slab: Polygon

    def along(self, offset: float) -> float:
        """Paper place of an offset along the side."""
        return self.origin + offset / self.scale

    def depth(self, offset: float, side: "Side") -> float:
        """How far inside a side the slab begins at an offset, mm; 0 where it reaches the side."""
        place = self.along(offset)
        ray = LineString([side.at(place, FAR), side.at(place, -FAR)])
        x0, y0, x1, y1 = ray.intersection(self.slab.buffer(HAIR)).bounds
        low, high = (x0, x1) if side.upright else (y0, y1)
        depth = side.level - high if side.sign > 0 else low - side.level
        return depth if depth > 2 * HAIR else 0.0

    def room(self, pitch: float) -> int:
        """How many texts find room."""
        return max(2, int((self.high - self.low) / pitch) + 1)


def running_of(found: Sequence[Station], display: Display, room: int) -> Running:
    """The running dimensions that a string shows, for tables and tests."""
    return Running.of((s.offset for s in thinned(list(found), step(display), room)), display)


__all__ = ["Axis", "Bounds", "Side", "draw_chain", "draw_running", "margins", "running_of"]
