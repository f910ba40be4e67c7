"""Match lines: where the slab goes on in another part, on this sheet or another one, and what that part is called."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from shapely import LineString, Polygon, affinity, box

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import text_corners, text_width
from kerfline.sheets.marks import Anchor, Board, Bounds, Layer, Text
from kerfline.sheets.parts import MATCH_ROOM, Choice, part_name
from kerfline.sheets.string_places import Ink, meetings
from kerfline.sheets.strings import Shown

UPPER_ROW = 1.5
"""How far over the first row of names the second one stands, in heights of their text."""

TRIES = (0.0, 3.0, 6.0, 9.0, 12.0)
"""How much further out the names may stand than usual, mm, to be clear of dimensions."""

NAMES_APART = 3.0
"""Room in mm between names in one row."""

EDGE_HAIR = 0.05
"""Slack in mm of paper with which a match line finds the slab."""

SLACK = 1.0
"""A station this near (mm) outside a part still belongs to it, and a shorter border is none."""


@dataclass(frozen=True)
class _MatchLine:
    """A match line on the paper: its two ends within the slab, and what it says."""

    start: Point
    end: Point
    words: str

    @property
    def upright(self) -> bool:
        """Whether it runs up the sheet."""
        return abs(self.start[0] - self.end[0]) < abs(self.start[1] - self.end[1])


def draw_match_lines(
    board: Board, shown: Shown, choice: Choice, part: int, room: Bounds, height: float
) -> None:
    """Draws the match lines of one part, each with the sheet or the part that goes on there.

    Args:
        board: Where they go.
        shown: What the part shows of the slab.
        choice: Paper, scale and parts.
        part: Which part.
        room: The part of the paper that it has.
        height: Capital height in mm.
    """
    lines = list(_lines(shown, choice, part))
    own = f"PART {part_name(part)}" if choice.is_stacked else ""
    for upright in (True, False):
        beside = [line for line in lines if line.upright == upright]
        reach = choice.rims[3 if upright else 2] - MATCH_ROOM
        tries, drawn = [], [Ink.of(board)]
        for out, back in product(
            TRIES, (False, True) if len(beside) == 1 and not own else (False,)
        ):
            one = Board()
            _draw_side(one, shown, beside, reach + out, own if upright else "", height, back=back)
            if _is_inside(one, room) or (out == 0 and not back):
                tries.append((meetings(Ink.of(one), drawn, shown.slab), out, back, one))
        board.take(min(tries, key=lambda tried: tried[:3])[3])


def _is_inside(board: Board, room: Bounds) -> bool:
    """Whether all texts on a board stand in a part of the paper."""
    texts = (mark for mark in board if isinstance(mark, Text))
    return all(box(*room).covers(Polygon(text_corners(text))) for text in texts)


def _lines(shown: Shown, choice: Choice, part: int) -> Iterator[_MatchLine]:
    x0, y0, *_ = choice.parts[part]
    left, foot, *_ = shown.bounds
    slab = shown.slab.buffer(EDGE_HAIR)
    for other, cell in enumerate(choice.cells):
        shared = box(*choice.cells[part]).intersection(box(*cell))
        if other == part or shared.length <= SLACK or shared.area > 0:
            continue
        a, b, c, d = shared.bounds
        share = 1 / shown.scale
        placed = [share, 0, 0, share, left - x0 * share, foot - y0 * share]
        on = affinity.affine_transform(LineString([(a, b), (c, d)]), placed).intersection(slab)
        if on.length > SLACK:
            a, b, c, d = on.bounds
            yield _MatchLine((a, b), (c, d), _goes_on(choice, part, other))


def _goes_on(choice: Choice, here: int, other: int) -> str:
    """The sheet where the slab goes on, and on one of several parts which of them."""
    sheet = f"SHEET {choice.seats[other] + 1}"
    if not choice.is_stacked:
        return f"MATCH LINE, {sheet}"
    name = f"MATCH LINE, PART {part_name(other)}"
    return name if choice.seats[other] == choice.seats[here] else f"{name}, {sheet}"


def _draw_side(
    board: Board,
    shown: Shown,
    lines: list[_MatchLine],
    reach: float,
    own: str,
    height: float,
    *,
    back: bool,
) -> None:
    """Match lines of one way, drawn on beyond the dimensions to their names, and the name of the part between them.

    Names that do not stand side by side stand one over the other. ``back`` sets a name away from the middle.
    """
    x0, y0, x1, y1 = shown.bounds
    upright = bool(own) or any(line.upright for line in lines)
    side = x1 - x0 if upright else y1 - y0
    half = max((text_width(line.words, height) + NAMES_APART for line in lines), default=0.0)
    crowded = 2 * half + text_width(own, height) > side
    for line in lines:
        x, y = line.end
        far = x > (x0 + x1) / 2 if upright else y > (y0 + y1) / 2
        tip = (x, y1 + reach) if upright else (x1 + reach, y)
        off = 1.0 + (UPPER_ROW * height if far and crowded else 0.0)
        at = (tip[0], tip[1] + off) if upright else (tip[0] + off + height, tip[1])
        anchor = Anchor.END if far != back else Anchor.START  # toward the middle, clear of a corner
        board.line(Layer.MATCH, line.start, tip)
        turn = 0.0 if upright else 90.0
        board.text(Layer.MATCH, at, line.words, height, anchor=anchor, turn=turn)
    level = y1 + reach + 1.0
    if crowded:
        board.text(Layer.MATCH, (x0, level + UPPER_ROW * height), own, height)
    else:
        board.text(Layer.MATCH, ((x0 + x1) / 2, level), own, height, anchor=Anchor.MIDDLE)
