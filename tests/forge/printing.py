"""Prints the forge's drawings to PDF, as an office does: to a scale, on paper, with or without hatches and frills."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from ezdxf.disassemble import recursive_decompose
from ezdxf.path import from_hatch, make_path
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from shapely import LineString, MultiPoint, Polygon, affinity

from forge.drawn import Drawn

MARGIN = 25.0
"""Paper around the plan, mm."""

TITLE = 40.0
"""Height of the strip for the title, mm."""

HATCH = 1.2
"""How far apart the strokes of a hatch are, mm of paper."""


@dataclass(frozen=True, kw_only=True)
class Print:
    """How a plan is printed.

    Attributes:
        scale: Millimetres of the real thing in one of paper.
        words: What the title says of the scale; empty where it says nothing.
        turn: How the page is turned for reading, degrees clockwise.
        crop: Whether a wide strip around the page is cut off by its crop box, with lines on it.
        hatched: Whether the walls are hatched stroke by stroke.
    """

    scale: float = 100.0
    words: str = "Scale 1:100"
    turn: int = 0
    crop: bool = False
    hatched: bool = False


def printed(drawn: Drawn, path: Path, how: Print) -> Path:
    """Prints a drawing."""
    lines, fills = list(_lines(drawn)), list(_fills(drawn))
    x0, y0, x1, y1 = _bounds(drawn)
    per = drawn.unit / how.scale
    of_mm = (MARGIN - x0 * per, MARGIN + TITLE - y0 * per)
    wide = (x1 - x0) * per + 2 * MARGIN
    high = (y1 - y0) * per + 2 * MARGIN + TITLE
    rim = 30.0 if how.crop else 0.0
    page = Canvas(str(path), pageCompression=0)
    _open(page, how, wide + 2 * rim, high + 2 * rim)
    page.translate(rim * mm, rim * mm)

    def place(point):
        return ((point[0] - x0) * per + MARGIN, (point[1] - y0) * per + MARGIN + TITLE)

    for layer, points, width in lines:
        _stroke(page, width * per or _pen(layer), [place(p) for p in points])
    for rings in fills:
        _fill(page, [[place(p) for p in ring] for ring in rings])
    if how.hatched:
        slab = drawn.slabs[0]
        band = slab.difference(slab.buffer(-250, join_style="mitre"))
        _hatch(page, affinity.affine_transform(band, [1 / how.scale, 0, 0, 1 / how.scale, *of_mm]))
    for words, at, height, turn in _texts(drawn):
        _write(page, words, place(at), max(height * per, 1.0), turn)
    page.setLineWidth(0.5 * mm)
    page.rect(5 * mm, 5 * mm, (wide - 10) * mm, (high - 10) * mm)
    page.rect(5 * mm, 5 * mm, (wide - 10) * mm, (TITLE - 15) * mm)
    _write(page, "GROUND FLOOR", (10, 18), 3.5, 0)
    _write(page, how.words, (10, 9), 3.0, 0)
    if how.crop:
        for i in range(20):
            _stroke(page, 0.3, [(-rim, -rim + i), (wide + rim, -rim + i)])
        # In the page's own measure, which is not turned.
        across, up = (high, wide) if how.turn % 180 else (wide, high)
        page.setCropBox((rim * mm, rim * mm, (rim + across) * mm, (rim + up) * mm))
    page.showPage()
    page.save()
    return path


def where(drawn: Drawn, how: Print, figure: Polygon) -> Polygon:
    """Where a figure of a drawing (mm) lies on the page in real size, from the lower left of what is seen."""
    x0, y0, _, _ = _bounds(drawn)
    by = (MARGIN * how.scale - x0 * drawn.unit, (MARGIN + TITLE) * how.scale - y0 * drawn.unit)
    return affinity.translate(figure, *by)


def _bounds(drawn: Drawn) -> tuple[float, float, float, float]:
    """What all lines and fills of a drawing lie within, in its unit."""
    spots = [p for _, points, _ in _lines(drawn) for p in points]
    spots += [p for rings in _fills(drawn) for ring in rings for p in ring]
    return MultiPoint(spots).bounds


def _open(page: Canvas, how: Print, wide: float, high: float) -> None:
    """A page that is seen upright however it is turned."""
    page.setPageSize((wide * mm, high * mm))
    if not how.turn:
        return
    page.setPageRotation(how.turn)
    own = (high, wide) if how.turn % 180 else (wide, high)
    page.translate(
        *{90: (own[0] * mm, 0), 180: (own[0] * mm, own[1] * mm), 270: (0, own[1] * mm)}[how.turn]
    )
    page.rotate(how.turn)


LINES = {"LINE", "LWPOLYLINE", "POLYLINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE"}


def _lines(drawn: Drawn) -> Iterator[tuple[str, list, float]]:
    """Every line of a drawing with its layer and the width that it is drawn in, in its own unit."""
    for each in recursive_decompose(drawn.document.modelspace()):
        if each.dxftype() in LINES:
            way = make_path(each)
            if len(way):
                width = each.dxf.get("const_width", 0.0) if each.dxftype() == "LWPOLYLINE" else 0.0
                yield each.dxf.layer, [(p.x, p.y) for p in way.flattening(3 / drawn.unit)], width


def _fills(drawn: Drawn) -> Iterator[list[list]]:
    """The rings of every filled area."""
    for each in recursive_decompose(drawn.document.modelspace()):
        if each.dxftype() == "HATCH":
            yield [[(p.x, p.y) for p in way.flattening(3 / drawn.unit)] for way in from_hatch(each)]


def _texts(drawn: Drawn) -> Iterator[tuple[str, tuple, float, float]]:
    for each in recursive_decompose(drawn.document.modelspace()):
        if each.dxftype() == "TEXT":
            yield each.dxf.text, each.dxf.insert, each.dxf.height, each.dxf.get("rotation", 0)
        elif each.dxftype() == "MTEXT":
            turn = each.get_rotation()
            yield each.plain_text(), each.dxf.insert, each.dxf.char_height, turn


def _pen(layer: str) -> float:
    """Width of the pen of a layer, mm: as many as offices have, a layer always the same."""
    return (0.13, 0.18, 0.25, 0.35, 0.5)[sum(map(ord, layer)) % 5]


def _fill(page: Canvas, rings: list[list]) -> None:
    way = page.beginPath()
    for ring in rings:
        way.moveTo(ring[0][0] * mm, ring[0][1] * mm)
        for x, y in ring[1:]:
            way.lineTo(x * mm, y * mm)
        way.close()
    page.drawPath(way, stroke=0, fill=1, fillMode=0)


def _stroke(page: Canvas, width: float, points: list) -> None:
    page.setLineWidth(width * mm)
    way = page.beginPath()
    way.moveTo(points[0][0] * mm, points[0][1] * mm)
    for x, y in points[1:]:
        way.lineTo(x * mm, y * mm)
    page.drawPath(way)


def _hatch(page: Canvas, area: Polygon) -> None:
    """Strokes at 45 degrees across an area on paper."""
    turned = affinity.rotate(area, -45, origin=(0, 0))
    x0, y0, x1, y1 = turned.bounds
    for i in range(math.ceil(y0 / HATCH), math.ceil(y1 / HATCH)):
        cut = turned.intersection(LineString([(x0, i * HATCH), (x1, i * HATCH)]))
        for piece in getattr(cut, "geoms", [cut]):
            if piece.geom_type == "LineString" and not piece.is_empty:
                _stroke(page, 0.1, list(affinity.rotate(piece, 45, origin=(0, 0)).coords))


def _write(page: Canvas, words: str, at, height: float, turn: float) -> None:
    page.saveState()
    page.translate(at[0] * mm, at[1] * mm)
    page.rotate(turn)
    page.setFont("Helvetica", height * mm)
    page.drawString(0, 0, words.encode("latin-1", "replace").decode("latin-1"))
    page.restoreState()
