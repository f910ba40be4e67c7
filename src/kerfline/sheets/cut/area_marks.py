"""How an area is told from the rest of the slab: a key plan, and a tone over what belongs to other sheets."""

import math
from collections.abc import Iterator
from itertools import chain

from shapely import Polygon, affinity

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Joint
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.cut.areas import CutArea
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Board, Fill, Layer, Path
from kerfline.sheets.plan_labels import CODES, Labeller
from kerfline.sheets.plan_marks import rings_of
from kerfline.sheets.spots import Room, around, beside, heart, inside, longest_line, middle_of
from kerfline.sheets.view import Shape, View

KEY_TALL = 36.0
"""Greatest height of the key plan in mm."""

HERE = 0.72
"""Tone of the area that the sheet shows, on the key plan."""

ELSEWHERE = 0.93
"""Tone over what other sheets show, on the plan."""


def area_key(slab: Slab, base: Baselines, area: CutArea, text: float, width: float) -> Figure:
    """The slab as a small plan, this sheet's area toned, every placement with its number.

    Args:
        slab: The slab.
        base: Whose directions lie along the paper.
        area: What the sheet shows.
        text: Capital height in mm.
        width: Width in mm.
    """
    outline = affinity.rotate(slab.outline.polygon, -base.turn, origin=(0, 0))
    x0, y0, x1, y1 = outline.bounds
    factor = min(width / (x1 - x0), KEY_TALL / (y1 - y0))
    tall = heading_height(text) + (y1 - y0) * factor + 2.0

    def paint(board: Board, at: Point, width: float) -> None:
        y = draw_heading(board, at, width, "Key plan", text)
        foot = y - (y1 - y0) * factor - 1.0

        def small(shape: Shape) -> Shape:
            turned = affinity.rotate(shape, -base.turn, origin=(0, 0))
            moved = affinity.translate(turned, -x0, -y0)
            scaled = affinity.scale(moved, factor, factor, origin=(0, 0))
            return affinity.translate(scaled, at[0], foot)

        for part in polygons_of(small(area.region)):
            board.add(Fill(layer=Layer.SYMBOL, rings=rings_of(part)[:1], tone=HERE))
        for piece in area.pieces:
            solid = [Polygon(part.exterior) for part in polygons_of(small(piece.region))]
            for part in solid:
                _outlined(board, part, width=0.25)
            x, y = heart(max(solid, key=lambda p: p.area))
            board.text(Layer.SYMBOL, (x, y - text / 2), piece.id, text, anchor=Anchor.MIDDLE)
        _outlined(board, small(slab.outline.polygon), width=0.5)

    return Figure(width=width, tall=math.ceil(tall), painter=paint)


def _outlined(board: Board, shape: Polygon, *, width: float) -> None:
    ring = rings_of(shape)[0]
    board.add(Path(layer=Layer.SYMBOL, points=ring, closed=True, width=width))


def elsewhere(slab: Slab, area: CutArea, view: View) -> Iterator[Fill]:
    """A light tone over the concrete that other sheets show."""
    others = view.shape(slab.concrete.difference(area.region.buffer(TOUCH)))
    for part in polygons_of(others.intersection(view.window_box)):
        yield Fill(layer=Layer.HATCH, rings=rings_of(part), tone=ELSEWHERE, in_view=True)


def name_others(maker: Labeller, area: CutArea) -> None:
    """Names the placements beside the shown one where there is room for it."""
    for piece in area.pieces:
        if piece.id == area.id:
            continue
        shown = polygons_of(maker.view.shape(piece.region).intersection(maker.view.window_box))
        largest = max(shown, key=lambda p: p.area, default=None)
        words = f"placement {piece.id}: not on this sheet"
        if largest is None or largest.area < text_width(words, maker.height) * maker.height:
            continue
        text = maker.text(Layer.TAG, words, words)
        spot = maker.placer.place(inside(Room(largest), text))
        if spot:
            maker.write(spot)


def _formed_name(joint: Joint) -> str:
    code = CODES[joint.kind]
    return joint.id if joint.id.startswith(code) else f"{joint.id} {code}"


def name_formed(maker: Labeller, area: CutArea) -> None:
    """Names the construction joints along the area's edge."""
    for joint in area.formed:
        line = longest_line(maker.view.clipped(joint.line))
        if line is None:
            continue
        text = maker.text(Layer.TAG, _formed_name(joint), joint.id)
        maker.put(joint.id, chain(beside(line, text), around(middle_of(line), text)))
