"""The key plan: which part of the slab a sheet shows."""

import math

from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.choose import Choice
from kerfline.sheets.marks import Anchor, Board, Fill, Layer, Path

TALL = 34.0
"""Greatest height of the key plan in mm."""

TONE = 0.8

LEAST_ROW = 1.6
"""Least height of the key plan of a narrow slab, in capital heights."""


def part_name(index: int) -> str:
    """Name of a part: 1, 2, 3 in reading order."""
    return f"{index + 1}"


def key_plan(slab: Slab, base: Baselines, choice: Choice, here: int) -> Figure:
    """The slab's outline as a small plan with its match lines, this sheet's part shaded."""
    text = choice.paper.small
    width = choice.paper.column - 6.0
    x0 = min(p[0] for p in choice.parts)
    y0 = min(p[1] for p in choice.parts)
    x1 = max(p[2] for p in choice.parts)
    y1 = max(p[3] for p in choice.parts)
    factor = min(width / (x1 - x0), TALL / (y1 - y0))
    least = LEAST_ROW * text
    tall = heading_height(text) + max((y1 - y0) * factor, least) + 2.0

    def paint(board: Board, at: Point, width: float) -> None:
        left, _ = at
        y = draw_heading(board, at, width, "Key plan", text)
        foot = y - max((y1 - y0) * factor, least) - 1.0

        def small(point: Point) -> Point:
            return (left + (point[0] - x0) * factor, foot + (point[1] - y0) * factor)

        for i, (a, b, c, d) in enumerate(choice.parts):
            (west, south), (east, north) = small((a, b)), small((c, d))
            if i == here:
                _shade(board, (west, south, east, north))
            board.box(Layer.SYMBOL, (west, south, east, north), width=0.13)
            middle = ((west + east) / 2, (south + north) / 2 - text / 2)
            board.text(Layer.SYMBOL, middle, part_name(i), text, anchor=Anchor.MIDDLE)
        ring = tuple(small(base.local(p)) for p in slab.outline.points)
        board.add(
            Path(
                layer=Layer.SYMBOL, points=ring, bulges=slab.outline.bulges, closed=True, width=0.5
            )
        )

    return Figure(width=width, tall=math.ceil(tall), painter=paint)


def _shade(board: Board, box: tuple[float, float, float, float]) -> None:
    x0, y0, x1, y1 = box
    board.add(
        Fill(layer=Layer.SYMBOL, rings=(((x0, y0), (x1, y0), (x1, y1), (x0, y1)),), tone=TONE)
    )
