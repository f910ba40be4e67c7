"""Writes a sheet as SVG: one user unit is one millimetre of paper."""

import base64
import re
from collections.abc import Iterable
from itertools import groupby
from xml.etree.ElementTree import Element
from xml.sax.saxutils import escape

import svgwrite
from svgwrite.container import Group

from kerfline.files.sheet_fonts import FAMILY, font_bytes
from kerfline.geometry.ring import Point, arc_of
from kerfline.sheets.lettering import EM_PER_CAP, text_width
from kerfline.sheets.marks import PENS, Anchor, Fill, Layer, Mark, Path, Sheet, Text

DIGITS = 3
"""Decimals of coordinates: a thousandth of a millimetre on paper."""

HOLDER = "\ue000marks "
"""Stands for a group's marks until they are put in; a sign of the private area, which no font has."""

_SPECIAL = re.compile('[&<>"]')

HALF_TURN = 180.0


def svg_bytes(sheet: Sheet) -> bytes:
    """The sheet as an SVG document; the same sheet gives the same bytes."""
    return _Writer(sheet).document().encode("utf-8")


class _Elements(Group):  # type: ignore[misc]  # the library ships no types
    """A group whose marks are written by us, in the place of a name that the library writes for them.

    A large floor has tens of thousands of marks; the library makes, checks and turns an object of its
    own for each, which takes most of the time of writing them.
    """

    def __init__(self, name: str, number: int) -> None:
        super().__init__(debug=False, class_=name)
        self.holder = f"{HOLDER}{number};"
        self.made: list[str] = []

    def get_xml(self) -> Element:
        """The group as the library wants it, with the name inside that its marks replace."""
        group: Element = super().get_xml()
        group.text = self.holder
        return group


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
        groups = []
        for number, (layer, marks) in enumerate(groupby(self.sheet.marks, key=lambda m: m.layer)):
            groups.append(self._group(layer, marks, number))
            self.drawing.add(groups[-1])
        frame, *rest = str(self.drawing.tostring()).split(HOLDER)
        filled = (
            "".join([*group.made, after.partition(";")[2]])
            for group, after in zip(groups, rest, strict=True)
        )
        return "".join([frame, *filled])

    def _group(self, layer: Layer, marks: Iterable[Mark], number: int) -> _Elements:
        group = _Elements(_class(layer), number)
        group.attribs["data-layer"] = layer.value
        for mark in marks:
            self._mark(group.made, mark)
        return group

    def _mark(self, group: list[str], mark: Mark) -> None:
        """Adds a mark; attributes stand in the order of their names."""
        if isinstance(mark, Text):
            name, attributes = "text", self._text(mark)
        elif isinstance(mark, Fill):
            name, attributes = "path", self._fill(mark)
        else:
            name, attributes = self._path(mark)
        if mark.ref:
            attributes["data-ref"] = _quoted(mark.ref)
        words = "".join([f' {key}="{value}"' for key, value in sorted(attributes.items())])
        if isinstance(mark, Text):
            group.append(f"<text{words}>{_escaped(mark.text)}</text>")
        else:
            group.append(f"<{name}{words} />")

    def _fill(self, mark: Fill) -> dict[str, str]:
        attributes = {"class": "f", "d": " ".join(self._ring(r) for r in mark.rings)}
        if mark.tone is not None:
            attributes["style"] = f"fill:{_grey(mark.tone)}"
        return attributes

    def _path(self, mark: Path) -> tuple[str, dict[str, str]]:
        if len(mark.points) == 2 and not mark.bulges:  # noqa: PLR2004 - a straight line
            (x1, y1), (x2, y2) = (self._at(p) for p in mark.points)
            name, attributes = "line", {"x1": str(x1), "x2": str(x2), "y1": str(y1), "y2": str(y2)}
        else:
            name, attributes = "path", {"d": self._outline(mark)}
        if mark.width is not None:
            attributes["style"] = f"stroke-width:{mark.width:g}"
        return name, attributes

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

    def _text(self, mark: Text) -> dict[str, str]:
        x, y = self._at(mark.at)
        attributes = {
            "font-size": _n(mark.height * EM_PER_CAP),
            "textLength": _n(text_width(mark.text, mark.height)),
            "x": str(x),
            "y": str(y),
        }
        if mark.anchor is not Anchor.START:
            attributes["text-anchor"] = mark.anchor.value
        if mark.turn:
            attributes["transform"] = f"rotate({_n(-mark.turn)} {_n(x)} {_n(y)})"
        return attributes

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


def _escaped(text: str) -> str:
    """Text of an element."""
    return escape(text) if _SPECIAL.search(text) else text


def _quoted(text: str) -> str:
    """Text of an attribute in double quotes."""
    return escape(text, {'"': "&quot;"}) if _SPECIAL.search(text) else text


def _grey(tone: float) -> str:
    level = round(255 * tone)
    return f"#{level:02x}{level:02x}{level:02x}"


def _n(value: float) -> str:
    """A number without needless digits and never ``-0``."""
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
