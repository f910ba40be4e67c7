"""Ties on the plan: letters at corners, and beside each end and knee what the tape reads there."""

import math
from collections.abc import Iterator, Sequence
from itertools import chain

import shapely

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import LINE_PITCH
from kerfline.sheets.marks import Anchor, Layer, Text
from kerfline.sheets.numbered import circle_radius, ring_mark, ringed
from kerfline.sheets.pegs import Peg
from kerfline.sheets.placer import Spot
from kerfline.sheets.plan_labels import Labeller
from kerfline.sheets.running import dimension_text
from kerfline.sheets.spots import around, readable
from kerfline.sheets.ties import Tie, Ties
from kerfline.units import Display

OFF_EDGE = 2.2
"""Gap in mm between an edge and a text that stands square to it: beyond the mark of a cut's end."""

BESIDE = 1.1
"""Gap in mm between an edge and a text along it."""

PAST_END = 2.2
"""How far along the edge a text keeps off the line's end, mm."""

LETTER_RADIUS = 1.15
"""Least radius of the circle around a letter, in capital heights: as at corner A."""

LETTER_REACH = (0.8, 2.5, 4.5)
"""Gaps in mm between a corner and the circle of its letter."""

EIGHTHS = tuple(math.radians(45 * k) for k in range(8))

READING = (
    "A letter and a length beside the end of a slanting line: tape it straight from the lettered corner to the edge "
    "or the line that the end lies on. Two of them: where both tapes meet."
)
"""How ties are read."""


def tie_words(tie: Tie, display: Display) -> tuple[str, ...]:
    """What each tape reads: ``B 12'-3"``."""
    return tuple(f"{peg.letter} {dimension_text(mm, display)}" for peg, mm in tie.tapes)


def label_ties(maker: Labeller, found: Ties, display: Display) -> None:
    """Letters the corners and writes the ties that lie in the view."""
    shown = maker.view.window_box
    for peg in found.pegs:
        at = maker.view.to_paper(peg.at)
        if shown.covers(shapely.Point(at)):
            _letter(maker, peg, at)
    for tie in found.points:
        at = maker.view.to_paper(tie.at)
        if shown.covers(shapely.Point(at)):
            texts = [
                maker.text(Layer.DIMENSION, words, f"tie {tie.line}")
                for words in tie_words(tie, display)
            ]
            spot = maker.placer.place(_tie_spots(maker, tie, at, texts))
            if spot:
                maker.write(spot)
            else:
                tapes = " and ".join(text.text for text in texts)
                maker.left_out.ties.append(f"{tapes} at {tie.line}")


def _tie_spots(maker: Labeller, tie: Tie, at: Point, texts: Sequence[Text]) -> Iterator[Spot]:
    """Places for a tie: by the edge, by the line, with a leader; two tapes stand one under the other."""
    first, *more = texts
    if more:
        yield from (_over(spot, more[0]) for spot in around(at, first))
        return
    if tie.along:
        yield from edge_spots(at, _turned(maker, tie.at, tie.along), first)
    yield from _by_line(at, _turned(maker, tie.at, tie.inward), first)
    yield from around(at, first)


def _over(spot: Spot, text: Text) -> Spot:
    """The same place with a second line under the first."""
    x, y = spot.text.at
    below = text.moved((x, y - LINE_PITCH * text.height), anchor=spot.text.anchor)
    return Spot(spot.text, spot.leader, more=(below,))


def _turned(maker: Labeller, at: Point, way: Point) -> Point:
    """A direction of the slab as a unit vector on the paper."""
    (x0, y0), (x1, y1) = (maker.view.to_paper(p) for p in (at, (at[0] + way[0], at[1] + way[1])))
    return direction((x0, y0), (x1, y1))


def _letter(maker: Labeller, peg: Peg, at: Point) -> None:
    """A corner's letter in a circle beside it, as near as there is room."""
    text = maker.text(Layer.SYMBOL, peg.letter, f"corner {peg.letter}")
    radius = max(LETTER_RADIUS * text.height, circle_radius(text))
    near = (_ring_at(at, radius, gap, turn, text) for gap in LETTER_REACH for turn in EIGHTHS)
    led = (ringed(spot, radius) for spot in around(at, text))
    spot = maker.placer.place(chain(near, led))
    if spot is None:
        maker.left_out.ties.append(f"the letter {peg.letter}")
        return
    maker.write(spot)
    maker.board.add(ring_mark(spot))


def _ring_at(at: Point, radius: float, gap: float, turn: float, text: Text) -> Spot:
    reach = radius + gap
    centre = (at[0] + reach * math.cos(turn), at[1] + reach * math.sin(turn))
    placed = text.moved((centre[0], centre[1] - text.height / 2), anchor=Anchor.MIDDLE)
    return Spot(placed, radius=radius)


def edge_spots(at: Point, along: Point, text: Text) -> Iterator[Spot]:
    """Places off an edge: square to it outside, then along it outside and inside."""
    outward = (along[1], -along[0])
    yield _square(at, outward, text)
    for way in (outward, (-outward[0], -outward[1])):
        for side in (along, (-along[0], -along[1])):
            yield _alongside(at, way, side, text)


def _by_line(at: Point, inward: Point, text: Text) -> Iterator[Spot]:
    """Places along the line itself, on both sides of it."""
    for out in ((-inward[1], inward[0]), (inward[1], -inward[0])):
        yield _alongside(at, out, inward, text)


def _square(at: Point, out: Point, text: Text) -> Spot:
    """A text that reads away from an edge or toward it, from below or from the right."""
    turn, flipped = readable(out)
    foot = (at[0] + OFF_EDGE * out[0], at[1] + OFF_EDGE * out[1])
    up = (-math.sin(math.radians(turn)), math.cos(math.radians(turn)))
    seat = (foot[0] - up[0] * text.height / 2, foot[1] - up[1] * text.height / 2)
    return Spot(text.moved(seat, turn=turn, anchor=Anchor.END if flipped else Anchor.START))


def _alongside(at: Point, out: Point, side: Point, text: Text) -> Spot:
    """A text along an edge that begins or ends beside a point."""
    turn, flipped = readable(side)
    up = (-math.sin(math.radians(turn)), math.cos(math.radians(turn)))
    above = up[0] * out[0] + up[1] * out[1] > 0
    off = BESIDE if above else BESIDE + text.height
    seat = (
        at[0] + PAST_END * side[0] + off * out[0],
        at[1] + PAST_END * side[1] + off * out[1],
    )
    return Spot(text.moved(seat, turn=turn, anchor=Anchor.END if flipped else Anchor.START))
