"""The key plan: which parts of the slab a sheet shows."""

import math
from collections.abc import Sequence

from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.marks import Anchor, Board, Fill, Layer, Path
from kerfline.sheets.parts import Choice, part_name

TALL = 34.0
"""Greatest height of the key plan in mm."""

TONE = 0.8

LEAST_ROW = 1.6
"""Least height of a part that its number stands in, in capital heights."""

UNDER = 1.5
"""How far under a thinner one its number stands, in capital heights."""


def key_plan(slab: Slab, base: Baselines, choice: Choice, here: Sequence[int]) -> Figure:
    """The slab's outline as a small plan with its match lines, the parts on this sheet shaded."""
    text = choice.paper.small
    width = choice.paper.column - 6.0
    x0 = min(p[0] for p in choice.cells)
    y0 = min(p[1] for p in choice.cells)
    x1 = max(p[2] for p in choice.cells)
    y1 = max(p[3] for p in choice.cells)
    factor = min(width / (x1 - x0), TALL / (y1 - y0))
    least = LEAST_ROW * text
    rise = (y1 - y0) * factor
    under = UNDER * text if rise < least else 0.0
    tall = heading_height(text) + rise + under + 2.0

    def paint(board: Board, at: Point, width: float) -> None:
        left, _ = at
        y = draw_heading(board, at, width, "Key plan", text)
        foot = y - rise - 1.0

        def small(point: Point) -> Point:
            return (left + (point[0] - x0) * factor, foot + (point[1] - y0) * factor)

        for i, (a, b, c, d) in enumerate(choice.cells):
            (west, south), (east, north) = small((a, b)), small((c, d))
            if i in here:
                _shade(board, (west, south, east, north))
            board.box(Layer.SYMBOL, (west, south, east, north), width=0.13)
            level = (south + north - text) / 2
            if north - south < LEAST_ROW * text:  # a strip too thin to write in
                level = south - UNDER * text
            middle = ((west + east) / 2, level)
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
