"""Writes a sheet as SVG: one user unit is one millimetre of paper."""

import base64
from collections.abc import Iterable
from itertools import groupby

import svgwrite
from svgwrite.base import BaseElement
from svgwrite.container import Group

from kerfline.files.sheet_fonts import FAMILY, font_bytes
from kerfline.geometry.ring import Point, arc_of
from kerfline.sheets.lettering import EM_PER_CAP, text_width
from kerfline.sheets.marks import PENS, Anchor, Fill, Layer, Mark, Path, Sheet, Text

DIGITS = 3
"""Decimals of coordinates: a thousandth of a millimetre on paper."""

HALF_TURN = 180.0


def svg_bytes(sheet: Sheet) -> bytes:
    """The sheet as an SVG document; the same sheet gives the same bytes."""
    return _Writer(sheet).document().encode("utf-8")


class _Writer:
    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.height = sheet.paper.height
        size = (f"{_n(sheet.paper.width)}mm", f"{_n(sheet.paper.height)}mm")
        self.drawing = svgwrite.Drawing(size=size, profile="full", debug=False)
        self.drawing.viewbox(0, 0, round(sheet.paper.width, DIGITS), round(self.height, DIGITS))

    def document(self) -> str:
        """Draws everything."""
        self.drawing.set_desc(title=f"{self.sheet.title}, sheet {self.sheet.number}")
        self.drawing.defs.add(self.drawing.style(_style(self.sheet)))
        self.drawing.add(self.drawing.rect((0, 0), ("100%", "100%"), fill="#ffffff", stroke="none"))
        for layer, marks in groupby(self.sheet.marks, key=lambda m: m.layer):
            self.drawing.add(self._group(layer, marks))
        return str(self.drawing.tostring())

    def _group(self, layer: Layer, marks: Iterable[Mark]) -> Group:
        group = self.drawing.g(class_=_class(layer))
        group.attribs["data-layer"] = layer.value
        for mark in marks:
            group.add(self._mark(mark))
        return group

    def _mark(self, mark: Mark) -> BaseElement:
        if isinstance(mark, Text):
            element = self._text(mark)
        elif isinstance(mark, Fill):
            element = self.drawing.path(d=" ".join(self._ring(r) for r in mark.rings), class_="f")
            if mark.tone is not None:
                element.attribs["style"] = f"fill:{_grey(mark.tone)}"
        else:
            element = self._path(mark)
        if mark.ref:
            element.attribs["data-ref"] = mark.ref
        return element

    def _path(self, mark: Path) -> BaseElement:
        if len(mark.points) == 2 and not mark.bulges:  # noqa: PLR2004 - a straight line
            (x0, y0), (x1, y1) = (self._at(p) for p in mark.points)
            element = self.drawing.line((x0, y0), (x1, y1))
        else:
            element = self.drawing.path(d=self._outline(mark))
        if mark.width is not None:
            element.attribs["style"] = f"stroke-width:{mark.width:g}"
        return element

    def _outline(self, mark: Path) -> str:
        start = self._at(mark.points[0])
        parts = [f"M{_n(start[0])} {_n(start[1])}"]
        ends = [*mark.points[1:], *([mark.points[0]] if mark.closed else [])]
        before = mark.points[0]
        for i, end in enumerate(ends):
            bulge = mark.bulges[i] if mark.bulges else 0.0
            x, y = self._at(end)
            if bulge:
                parts.append(_arc(before, end, bulge, x, y))
            elif not (mark.closed and i == len(ends) - 1):
                parts.append(f"L{_n(x)} {_n(y)}")
            before = end
        return "".join([*parts, "Z" if mark.closed else ""])

    def _ring(self, ring: tuple[Point, ...]) -> str:
        points = [self._at(p) for p in ring]
        return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + "Z"

    def _text(self, mark: Text) -> BaseElement:
        x, y = self._at(mark.at)
        element = self.drawing.text(mark.text, insert=(x, y))
        element.attribs["font-size"] = _n(mark.height * EM_PER_CAP)
        element.attribs["textLength"] = _n(text_width(mark.text, mark.height))
        if mark.anchor is not Anchor.START:
            element.attribs["text-anchor"] = mark.anchor.value
        if mark.turn:
            element.attribs["transform"] = f"rotate({_n(-mark.turn)} {_n(x)} {_n(y)})"
        return element

    def _at(self, point: Point) -> Point:
        """A point in SVG's own direction, y down."""
        return (round(point[0], DIGITS), round(self.height - point[1], DIGITS))


def _arc(start: Point, end: Point, bulge: float, x: float, y: float) -> str:
    arc = arc_of(start, end, bulge)
    radius = _n(arc.radius)
    large = int(abs(arc.sweep) > HALF_TURN)
    return f"A{radius} {radius} 0 {large} {int(arc.sweep < 0)} {_n(x)} {_n(y)}"


def _style(sheet: Sheet) -> str:
    width, height = _n(sheet.paper.width), _n(sheet.paper.height)
    font = base64.b64encode(font_bytes()).decode("ascii")
    used = sorted({m.layer for m in sheet.marks})
    rules = [
        f"@page{{size:{width}mm {height}mm;margin:0}}",
        f'@font-face{{font-family:"{FAMILY}";src:url("data:font/ttf;base64,{font}") format("truetype")}}',
        f'text{{font-family:"{FAMILY}","DejaVu Sans",Arial,sans-serif;font-kerning:none;stroke:none;white-space:pre}}',
        "g{fill:none;stroke-linecap:butt;stroke-linejoin:round}",
        ".f{stroke:none;fill-rule:evenodd}",
        *(_layer_style(layer) for layer in used),
    ]
    return "\n".join(rules)


def _layer_style(layer: Layer) -> str:
    pen = PENS[layer]
    colour = "#" + "".join(f"{c:02x}" for c in pen.colour)
    dash = f";stroke-dasharray:{' '.join(f'{d:g}' for d in pen.dash)}" if pen.dash else ""
    name = _class(layer)
    return (
        f".{name}{{stroke:{colour};stroke-width:{pen.width:g}{dash}}}"
        f".{name} text,.{name} .f{{fill:{colour}}}"
    )


def _class(layer: Layer) -> str:
    return layer.value.lower()


def _grey(tone: float) -> str:
    level = round(255 * tone)
    return f"#{level:02x}{level:02x}{level:02x}"


def _n(value: float) -> str:
    """A number without needless digits and never ``-0``."""
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
