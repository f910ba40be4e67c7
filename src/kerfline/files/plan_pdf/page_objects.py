"""The paths and texts of a page, on paper, each path with the pen that it is drawn with."""

import ctypes
import math
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from shapely import LineString, box

from kerfline.files.plan_pdf.bezier import pieces_of
from kerfline.files.plan_pdf.hatches import hatch_strokes
from kerfline.files.plan_pdf.pdf_file import POINT, Page, Raw
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point
from kerfline.sheets.marks import LAYER_MARK

MOST_PATHS = 400_000
"""Paths and texts of a page that are read; of a plan full of hatches most are their strokes."""

MOST_POINTS = 4_000_000
MOST_NESTED = 15
"""Forms within forms that are opened."""

MOST_TEXT = 500
"""Letters of one text that are kept."""

SAME = 1e-3
"""Points of a path closer than this (mm of paper) are one."""

NAMING = ("OC", LAYER_MARK)
"""Marks that name a layer: of optional content (ISO 32000-1, 8.11), and those of our own sheets."""

WIDE = 1.1
"""A pen of this width (mm of paper) or more draws a wall in its thickness; the widest line of a plan has 1 mm
(common practice)."""

BLACK = 0x30
"""A pen whose red, green and blue are all darker than this is called black."""

Matrix = tuple[float, float, float, float, float, float]
PLAIN: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class TooMuch(Exception):
    """The page draws more than can be read."""


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A path as it is drawn.

    Attributes:
        layer: The layer that it is marked with, else its pen: width, colour, whether dashed.
        path: The path, mm of paper.
        filled: Whether it is a filled area without an edge.
        width: Width of its pen, mm of paper; 0 where it is thin enough to be a line.
    """

    layer: str
    path: Path
    filled: bool = False
    width: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Written:
    """A text as it is written.

    Attributes:
        text: What it says.
        at: Its middle, mm of paper.
        turn: Direction of its line, degrees.
        height: Height of the box around it across its line, mm.
    """

    text: str
    at: Point
    turn: float
    height: float


@dataclass
class Content:
    """What a page holds.

    Attributes:
        paths: Its paths, those outside its visible part left out.
        texts: Its texts.
        pictures: Share of the page that pictures cover.
        hatched: How many strokes of hatches were left out.
        outside: How many paths lie outside the visible part.
        passed: What is neither path nor text nor picture, by kind.
    """

    paths: list[Drawn] = field(default_factory=list)
    texts: list[Written] = field(default_factory=list)
    pictures: float = 0.0
    hatched: int = 0
    outside: int = 0
    passed: Counter[str] = field(default_factory=Counter)


def content_of(page: Page) -> Content:
    """Reads what a page holds.

    Raises:
        TooMuch: It draws more than can be read.
    """
    import pypdfium2.raw as pdfium

    reader = _Reader(pdfium, page)
    reader.texts = pdfium.FPDFText_LoadPage(page.raw.raw)
    try:
        count = pdfium.FPDFPage_CountObjects(page.raw.raw)
        if count > MOST_PATHS:
            raise TooMuch
        for index in range(count):
            reader.read(pdfium.FPDFPage_GetObject(page.raw.raw, index), PLAIN, 0)
    finally:
        pdfium.FPDFText_ClosePage(reader.texts)
    return _without_hatches(reader.content)


def _without_hatches(content: Content) -> Content:
    """The content with the strokes of its hatches left out and counted."""
    numbers = [n for n, drawn in enumerate(content.paths) if not drawn.filled]
    told = [(content.paths[n].layer, content.paths[n].path) for n in numbers]
    strokes = {numbers[n] for n in hatch_strokes(told)}
    kept = [drawn for n, drawn in enumerate(content.paths) if n not in strokes]
    return replace(content, paths=kept, hatched=len(strokes))


class _Reader:
    """Walks through the objects of a page, forms taken apart."""

    def __init__(self, pdfium: Any, page: Page) -> None:  # noqa: ANN401 -- the library's raw calls
        self.pdfium = pdfium
        self.page = page
        self.content = Content()
        self.points = 0
        self.seen = 0
        self.texts: Raw = None
        self.window = box(0.0, 0.0, *page.size)

    def read(self, thing: Raw, matrix: Matrix, depth: int) -> None:
        pdfium = self.pdfium
        self.seen += 1
        if self.seen > MOST_PATHS:
            raise TooMuch
        own = times(self._matrix(thing), matrix)
        kind = pdfium.FPDFPageObj_GetType(thing)
        if kind == pdfium.FPDF_PAGEOBJ_PATH:
            self._path(thing, own)
        elif kind == pdfium.FPDF_PAGEOBJ_TEXT:
            self._text(thing, own)
        elif kind == pdfium.FPDF_PAGEOBJ_IMAGE:
            # A picture is a unit square under its matrix.
            width, height = self.page.size
            area = abs(own[0] * own[3] - own[1] * own[2]) * POINT * POINT
            self.content.pictures += area / (width * height)
        elif kind == pdfium.FPDF_PAGEOBJ_FORM and depth < MOST_NESTED:
            for index in range(pdfium.FPDFFormObj_CountObjects(thing)):
                self.read(pdfium.FPDFFormObj_GetObject(thing, index), own, depth + 1)
        else:
            self.content.passed["shading" if depth < MOST_NESTED else "nested form"] += 1

    def _matrix(self, thing: Raw) -> Matrix:
        values = self.pdfium.FS_MATRIX()
        if not self.pdfium.FPDFPageObj_GetMatrix(thing, values):
            return PLAIN
        return (values.a, values.b, values.c, values.d, values.e, values.f)

    def _path(self, thing: Raw, matrix: Matrix) -> None:
        pdfium = self.pdfium
        fill, stroke = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(thing, fill, stroke)
        if not fill.value and not stroke.value:
            return  # a clip, or nothing
        layer = self._layer(thing, matrix, stroked=bool(stroke.value))
        pen = self._pen_width(thing, matrix) if stroke.value else 0.0
        width = pen if pen >= WIDE else 0.0
        for path in self._subpaths(thing, matrix):
            if not self.window.intersects(LineString(path.coordinates)):
                self.content.outside += 1
                continue
            self.content.paths.append(
                Drawn(layer=layer, path=path, filled=not stroke.value, width=width)
            )

    def _subpaths(self, thing: Raw, matrix: Matrix) -> Iterator[Path]:
        pdfium = self.pdfium
        count = pdfium.FPDFPath_CountSegments(thing)
        self.points += max(count, 0)
        if self.points > MOST_POINTS:
            raise TooMuch
        trace = _Trace()
        curve: list[Point] = []
        for index in range(count):
            segment = pdfium.FPDFPath_GetPathSegment(thing, index)
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            at = self.page.seen(*moved(matrix, x.value, y.value))
            kind = pdfium.FPDFPathSegment_GetType(segment)
            if kind == pdfium.FPDF_SEGMENT_MOVETO:
                yield from trace.finished()
                trace = _Trace(at)
            elif kind == pdfium.FPDF_SEGMENT_LINETO:
                trace.line(at)
            else:
                curve.append(at)
                if len(curve) == 3:  # noqa: PLR2004 -- two control points and the end
                    trace.curve(*curve)
                    curve = []
            if pdfium.FPDFPathSegment_GetClose(segment):
                trace.closed = True
        yield from trace.finished()

    def _layer(self, thing: Raw, matrix: Matrix, *, stroked: bool) -> str:
        return self._marked(thing) or self._pen(thing, matrix, stroked=stroked)

    def _marked(self, thing: Raw) -> str:
        """The layer (optional content group) that an object is marked with; empty where none."""
        pdfium = self.pdfium
        for index in range(pdfium.FPDFPageObj_CountMarks(thing)):
            mark = pdfium.FPDFPageObj_GetMark(thing, index)
            if self._of_mark(pdfium.FPDFPageObjMark_GetName, mark) in NAMING:
                return self._of_mark(pdfium.FPDFPageObjMark_GetParamStringValue, mark, b"Name")
        return ""

    @staticmethod
    def _of_mark(call: Callable[..., int], *of: Any) -> str:  # noqa: ANN401 -- the library's raw calls
        length = ctypes.c_ulong()

        def ask(buffer: Any, size: int) -> int:  # noqa: ANN401
            call(*of, buffer, size, length)
            return length.value

        return _utf16(ask)

    def _pen(self, thing: Raw, matrix: Matrix, *, stroked: bool) -> str:
        pdfium = self.pdfium
        parts = [ctypes.c_uint() for _ in range(4)]
        get = pdfium.FPDFPageObj_GetStrokeColor if stroked else pdfium.FPDFPageObj_GetFillColor
        get(thing, *parts)
        colour = _colour(*(part.value for part in parts[:3]))
        if not stroked:
            return f"filled {colour}"
        dashed = " dashed" if pdfium.FPDFPageObj_GetDashCount(thing) > 0 else ""
        return f"{self._pen_width(thing, matrix):.2f} mm {colour}{dashed}"

    def _pen_width(self, thing: Raw, matrix: Matrix) -> float:
        """Width of the pen that an object is drawn with, mm of paper."""
        width = ctypes.c_float()
        self.pdfium.FPDFPageObj_GetStrokeWidth(thing, width)
        scale = math.sqrt(abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]))
        return float(width.value * scale * POINT)

    def _text(self, thing: Raw, matrix: Matrix) -> None:
        pdfium = self.pdfium
        get = pdfium.FPDFTextObj_GetText
        text = _utf16(lambda buffer, size: int(get(thing, self.texts, buffer, size))).strip()
        if not text:
            return
        bounds = [ctypes.c_float() for _ in range(4)]
        pdfium.FPDFPageObj_GetBounds(thing, *bounds)
        x0, y0, x1, y1 = (b.value for b in bounds)
        one, other = self.page.seen(x0, y0), self.page.seen(x1, y1)
        # The way of the baseline, turned with the page.
        start, end = self.page.seen(0.0, 0.0), self.page.seen(matrix[0], matrix[1])
        size = ctypes.c_float()
        pdfium.FPDFTextObj_GetFontSize(thing, size)
        self.content.texts.append(
            Written(
                text=text[:MOST_TEXT],
                at=((one[0] + other[0]) / 2, (one[1] + other[1]) / 2),
                turn=math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])),
                height=size.value * math.hypot(matrix[2], matrix[3]) * POINT,
            )
        )


class _Trace:
    """A subpath as it grows."""

    def __init__(self, start: Point | None = None) -> None:
        self.points: list[Point] = [start] if start else []
        self.bulges: list[float] = []
        self.closed = False

    def line(self, to: Point) -> None:
        self._add(to, 0.0)

    def curve(self, first: Point, second: Point, to: Point) -> None:
        if self.points:
            for end, bulge in pieces_of(self.points[-1], (first, second), to):
                self._add(end, bulge)

    def _add(self, to: Point, bulge: float) -> None:
        if self.points and math.dist(self.points[-1], to) > SAME:
            self.points.append(to)
            self.bulges.append(bulge)

    def finished(self) -> Iterator[Path]:
        """The path, if there is one."""
        points, bulges = self.points, self.bulges
        returns = len(points) > 2 and math.dist(points[0], points[-1]) <= SAME  # noqa: PLR2004
        if returns:
            points = points[:-1]
        else:
            bulges = [*bulges, 0.0]
        if len(points) > 1:
            closed = (returns or self.closed) and (len(points) > 2 or any(bulges))  # noqa: PLR2004
            yield Path(tuple(points), tuple(bulges) if any(bulges) else (), closed=closed)


def _colour(red: int, green: int, blue: int) -> str:
    if max(red, green, blue) < BLACK:
        return "black"
    return f"#{red:02x}{green:02x}{blue:02x}"


def _utf16(ask: Callable[[Any, int], int]) -> str:
    """A text that the library writes into a buffer when it is asked again with one that is large enough.

    Args:
        ask: Asks with a buffer and its size in bytes; returns the size that is needed.
    """
    size = ask(None, 0)
    if size <= 0:
        return ""
    buffer = (ctypes.c_ushort * (size // 2 + 1))()
    ask(buffer, size)
    return bytes(buffer).decode("utf-16-le", "replace").split("\x00", 1)[0]


def times(first: Matrix, second: Matrix) -> Matrix:
    """The matrix that does the first, then the second (ISO 32000-1, 8.3.4)."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = second
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def moved(matrix: Matrix, x: float, y: float) -> Point:
    """A point under a matrix."""
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e, b * x + d * y + f)
