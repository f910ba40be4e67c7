"""Writes sheets as one PDF: real text in the shipped font, true scale, the same bytes every time."""

import io
import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from itertools import groupby

from reportlab import rl_config
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from kerfline.files.sheet_fonts import font_bytes
from kerfline.geometry.ring import Point, arc_of
from kerfline.sheets.lettering import EM_PER_CAP, text_width
from kerfline.sheets.marks import LAYER_MARK, PENS, Anchor, Fill, Layer, Mark, Path, Sheet, Text

FONT = "KerflineSheet"
FULL = 255.0
RIGHT_ANGLE = 90.0

SHARES = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}
"""Share of a text that stands before its insertion point."""


def pdf_bytes(sheets: Sequence[Sheet]) -> bytes:
    """All sheets as one PDF, one page each, of the sheets' own sizes."""
    _register()
    stream = io.BytesIO()
    with _binary_streams():
        canvas = Canvas(stream, invariant=1, initialFontName=FONT, pageCompression=1)
        if sheets:
            canvas.setTitle(sheets[0].title)
        canvas.setCreator("kerfline")
        for sheet in sheets:
            canvas.setPageSize((sheet.paper.width * mm, sheet.paper.height * mm))
            _Page(canvas).draw(sheet.marks)
            canvas.showPage()
        canvas.save()
    return stream.getvalue()


@contextmanager
def _binary_streams() -> Iterator[None]:
    """Writes pages as bytes, not as letters: a quarter shorter, and quicker.

    The option is one for the whole process; it is put back as it was.
    """
    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before


def _register() -> None:
    """Registers the font anew, so that each document holds the subset of its own letters only."""
    pdfmetrics.registerFont(TTFont(FONT, io.BytesIO(font_bytes())))


class _Page:
    """One page; a layer's pen is set only when the layer changes."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas

    def draw(self, marks: Sequence[Mark]) -> None:
        """Draws the marks in order."""
        self.canvas.setLineCap(0)
        self.canvas.setLineJoin(1)
        for layer, together in groupby(marks, key=lambda m: m.layer):
            self._take_pen(layer)
            self._draw_layer(layer, together)

    def _draw_layer(self, layer: Layer, marks: Iterable[Mark]) -> None:
        for kind, run in groupby(marks, key=type):
            if kind is Text:
                self._texts(mark for mark in run if isinstance(mark, Text))
                continue
            for in_view, shapes in groupby(run, key=_shows_slab):
                if in_view:
                    self._begin_layer(layer)
                for mark in shapes:
                    if isinstance(mark, Fill):
                        self._fill(mark)
                    elif isinstance(mark, Path):
                        self._path(mark)
                if in_view:
                    self.canvas.addLiteral("EMC")

    def _begin_layer(self, layer: Layer) -> None:
        """Marks what follows with its layer (ISO 32000-1, 14.6), so that a reader knows the slab's own lines."""
        self.canvas.addLiteral(f"/{LAYER_MARK} <</Name ({layer.value})>> BDC")

    def _take_pen(self, layer: Layer) -> None:
        pen = PENS[layer]
        colour = [c / FULL for c in pen.colour]
        self.canvas.setStrokeColorRGB(*colour)
        self.canvas.setFillColorRGB(*colour)
        self.canvas.setLineWidth(pen.width * mm)
        self.canvas.setDash([d * mm for d in pen.dash])

    def _texts(self, marks: Iterable[Text]) -> None:
        """Writes texts that follow each other as one text object: a table holds thousands."""
        writing = self.canvas.beginText()
        height = 0.0
        for mark in marks:
            if mark.height != height:
                writing.setFont(FONT, mark.height * EM_PER_CAP * mm)
                height = mark.height
            back = SHARES[mark.anchor] * text_width(mark.text, mark.height)
            if mark.turn:
                cos, sin = math.cos(math.radians(mark.turn)), math.sin(math.radians(mark.turn))
                x, y = mark.at[0] - back * cos, mark.at[1] - back * sin
                writing.setTextTransform(cos, sin, -sin, cos, x * mm, y * mm)
            else:
                writing.setTextOrigin((mark.at[0] - back) * mm, mark.at[1] * mm)
            writing.textLine(mark.text)
        self.canvas.drawText(writing)

    def _fill(self, mark: Fill) -> None:
        path = self.canvas.beginPath()
        for ring in mark.rings:
            _trace(path, ring, (), closed=True)
        if mark.tone is not None:
            self.canvas.setFillGray(mark.tone)
        self.canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
        if mark.tone is not None:
            self.canvas.setFillColorRGB(*(c / FULL for c in PENS[mark.layer].colour))

    def _path(self, mark: Path) -> None:
        path = self.canvas.beginPath()
        _trace(path, mark.points, mark.bulges, closed=mark.closed)
        if mark.width is not None:
            self.canvas.setLineWidth(mark.width * mm)
        self.canvas.drawPath(path, stroke=1, fill=0)
        if mark.width is not None:
            self.canvas.setLineWidth(PENS[mark.layer].width * mm)


def _shows_slab(mark: Mark) -> bool:
    """Whether a mark shows the slab itself, true to scale."""
    return not isinstance(mark, Text) and mark.in_view


def _trace(
    path: PDFPathObject, points: Sequence[Point], bulges: Sequence[float], *, closed: bool
) -> None:
    """Adds a line of straight and arc segments to a path."""
    path.moveTo(points[0][0] * mm, points[0][1] * mm)
    ends = [*points[1:], *([points[0]] if closed else [])]
    before = points[0]
    for i, end in enumerate(ends):
        bulge = bulges[i] if bulges else 0.0
        if bulge:
            _arc(path, before, end, bulge)
        elif not (closed and i == len(ends) - 1):
            path.lineTo(end[0] * mm, end[1] * mm)
        before = end
    if closed:
        path.close()


def _arc(path: PDFPathObject, start: Point, end: Point, bulge: float) -> None:
    """An arc as cubic curves of at most a quarter turn, within 3 parts in 10,000 of the radius."""
    arc = arc_of(start, end, bulge)
    steps = max(1, math.ceil(abs(arc.sweep) / RIGHT_ANGLE))
    sweep = math.radians(arc.sweep) / steps
    handle = 4 / 3 * math.tan(sweep / 4) * arc.radius
    for i in range(steps):
        a = math.radians(arc.start) + i * sweep
        b = a + sweep
        p0, p3 = arc.at(i / steps), arc.at((i + 1) / steps)
        p1 = (p0[0] - handle * math.sin(a), p0[1] + handle * math.cos(a))
        p2 = (p3[0] + handle * math.sin(b), p3[1] - handle * math.cos(b))
        path.curveTo(*(v * mm for v in (*p1, *p2, *p3)))
