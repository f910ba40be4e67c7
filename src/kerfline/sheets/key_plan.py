"""The key plan: which part of the slab a sheet shows."""

import math

from kerfline.geometry.ring import Point
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.choose import Choice
from kerfline.sheets.marks import Anchor, Board, Fill, Layer

TALL = 34.0
"""Greatest height of the key plan in mm."""

TONE = 0.8


def part_name(index: int) -> str:
    """Name of a part: 1, 2, 3 in reading order."""
    return f"{index + 1}"


def key_plan(choice: Choice, here: int) -> Figure:
    """All parts as a small grid, this sheet's one shaded."""
    text = choice.paper.small
    width = choice.paper.column - 6.0
    x0 = min(p[0] for p in choice.parts)
    y0 = min(p[1] for p in choice.parts)
    x1 = max(p[2] for p in choice.parts)
    y1 = max(p[3] for p in choice.parts)
    factor = min(width / (x1 - x0), TALL / (y1 - y0))
    tall = heading_height(text) + (y1 - y0) * factor + 2.0

    def paint(board: Board, at: Point, width: float) -> None:
        left, top = at
        y = draw_heading(board, at, width, "Key plan", text)
        foot = y - (y1 - y0) * factor - 1.0
        for i, (a, b, c, d) in enumerate(choice.parts):
            box = (
                left + (a - x0) * factor,
                foot + (b - y0) * factor,
                left + (c - x0) * factor,
                foot + (d - y0) * factor,
            )
            if i == here:
                _shade(board, box)
            board.box(Layer.SYMBOL, box, width=0.25)
            centre = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2 - text / 2)
            size = min(text, 0.6 * (box[3] - box[1]))
            board.text(Layer.SYMBOL, centre, part_name(i), size, anchor=Anchor.MIDDLE)
        del top

    return Figure(width=width, tall=math.ceil(tall), painter=paint)


def _shade(board: Board, box: tuple[float, float, float, float]) -> None:
    x0, y0, x1, y1 = box
    board.add(
        Fill(layer=Layer.SYMBOL, rings=(((x0, y0), (x1, y0), (x1, y1), (x0, y1)),), tone=TONE)
    )
