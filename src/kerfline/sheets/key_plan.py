"""The key plan: which parts of the slab a sheet shows."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, islice

from shapely import MultiPolygon, Polygon, affinity

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Anchor, Board, Bounds, Fill, Layer, Path, Text
from kerfline.sheets.parts import Choice, part_name
from kerfline.sheets.plan_marks import rings_of
from kerfline.sheets.spots import heart
from kerfline.sheets.view import Shape

TALL = 34.0
"""Greatest height of the key plan in mm."""

NUMBERS_APART = 0.3
"""Half of the least gap in mm between numbers of parts; of those that stand nearer the later is left out."""

TONE = 0.8

KEY_TALL = 36.0
"""Greatest height of the key plan of an area in mm."""

HERE = 0.72
"""Tone of the area that the sheet shows, on the key plan."""

Area = Polygon | MultiPolygon

LEAST_ROW = 1.6
"""Least height of a part that its number stands in, in capital heights."""

UNDER = 1.5
"""How far under a thinner one its number stands, in capital heights."""


def _part_mark(box: Bounds, index: int, text: float, *, lying: bool) -> Text:
    """The number of a part in the middle of it; under or beside a strip that is too thin to write in."""
    west, south, east, north = box
    at, anchor = ((west + east) / 2, (south + north - text) / 2), Anchor.MIDDLE
    if lying and north - south < LEAST_ROW * text:
        at = (at[0], south - UNDER * text)
    elif not lying and east - west < LEAST_ROW * text:
        at, anchor = (east + 1.0, at[1]), Anchor.START
    return Text(layer=Layer.SYMBOL, at=at, text=part_name(index), height=text, anchor=anchor)


def _clear_of_each_other(texts: Sequence[Text], apart: float) -> list[Text]:
    """Those texts, the first ones first, that stand clear of those before by twice so much (mm)."""
    kept: list[Text] = []
    boxes: list[Polygon] = []
    for one in texts:
        box = Polygon(text_corners(one, apart))
        if not any(box.intersects(other) for other in boxes):
            kept.append(one)
            boxes.append(box)
    return kept


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A part of the slab as the key plan shows it: its short name and its concrete, mm of the drawing."""

    id: str
    region: Area


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

        names: dict[int, Text] = {}
        for i, (a, b, c, d) in enumerate(choice.cells):
            (west, south), (east, north) = small((a, b)), small((c, d))
            if i in here:
                _shade(board, (west, south, east, north))
            board.box(Layer.SYMBOL, (west, south, east, north), width=0.13)
            names[i] = _part_mark((west, south, east, north), i, text, lying=x1 - x0 > y1 - y0)
        board.add(
            *_clear_of_each_other([*(names.pop(i) for i in here), *names.values()], NUMBERS_APART)
        )
        ring = tuple(small(base.local(p)) for p in slab.outline.points)
        board.add(
            Path(
                layer=Layer.SYMBOL, points=ring, bulges=slab.outline.bulges, closed=True, width=0.5
            )
        )

    return Figure(width=width, tall=math.ceil(tall), painter=paint)


def area_key(
    slab: Slab, base: Baselines, here: Area, pieces: Sequence[Piece], text: float, width: float
) -> Figure:
    """The slab as a small plan, this sheet's area toned, every piece with its name.

    Args:
        slab: The slab.
        base: Whose directions lie along the paper.
        here: What the sheet shows.
        pieces: Areas that sheets of their own show, this one among them.
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

        for part in polygons_of(here):
            board.add(Fill(layer=Layer.SYMBOL, rings=rings_of(small(part))[:1], tone=HERE))
        solids = [[Polygon(part.exterior) for part in polygons_of(p.region)] for p in pieces]
        names: list[tuple[bool, Text]] = []
        shapes: list[list[Polygon]] = []
        drawn = iter(small(MultiPolygon(list(chain.from_iterable(solids)))).geoms)
        for piece, count in zip(pieces, map(len, solids), strict=True):
            solid = list(islice(drawn, count))
            x, y = heart(max(solid, key=lambda p: p.area))
            name = Text(
                layer=Layer.SYMBOL,
                at=(x, y - text / 2),
                text=piece.id,
                height=text,
                anchor=Anchor.MIDDLE,
            )
            names.append((piece.region != here, name))
            shapes.append(solid)
        kept = _clear_of_each_other([name for _, name in sorted(names, key=lambda n: n[0])], 0.0)
        for solid, (_, name) in zip(shapes, names, strict=True):
            for part in solid:
                _outlined(board, part, width=0.25)
            if name in kept:
                board.add(name)
        _outlined(board, small(slab.outline.polygon), width=0.5)

    return Figure(width=width, tall=math.ceil(tall), painter=paint)


def _outlined(board: Board, shape: Polygon, *, width: float) -> None:
    ring = rings_of(shape)[0]
    board.add(Path(layer=Layer.SYMBOL, points=ring, closed=True, width=width))


def _shade(board: Board, box: tuple[float, float, float, float]) -> None:
    x0, y0, x1, y1 = box
    board.add(
        Fill(layer=Layer.SYMBOL, rings=(((x0, y0), (x1, y0), (x1, y1), (x0, y1)),), tone=TONE)
    )
