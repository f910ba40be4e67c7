"""Writes marks as DXF entities on a layout of a document."""

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from ezdxf.layouts import BaseLayout

from kerfline.files.dxf_records import RecordWriter, Ring, TagBlock
from kerfline.files.dxf_setup import (
    BLACK,
    COLOURS,
    DETAIL_NUMBER,
    HUNDREDTHS,
    LINE_TYPES,
    RING_BLOCKS,
    STYLE,
    TAG_BLOCKS,
)
from kerfline.files.dxf_shapes import add_curve, add_fill, is_oldest
from kerfline.geometry.ring import Point
from kerfline.sheets.callouts import DETAIL
from kerfline.sheets.marks import PENS, Anchor, Fill, Layer, Mark, Path, Text

PALEST = 150
"""Grey (of 255) above which a fill is a light tone over something."""

ALIGN = {Anchor.START: 0, Anchor.MIDDLE: 1, Anchor.END: 2}

REAL = frozenset(
    layer for layer in Layer if layer.startswith(("S-SLAB", "S-JNTS", "S-WALL", "S-COLS"))
) - {Layer.PANEL, Layer.HATCH}
"""Layers of real things. A sample in a legend or a detail only looks like them: it lies on the layer of
tables, so that nobody who adds up a layer counts it."""

_PLAIN = {
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    "×": "x", "′": "'", "″": '"', "–": "-", "—": "-", "−": "-", "≤": "<=", "≥": ">=", "²": "2",
    "°": "%%d", "⌀": "%%c", "Ø": "%%c", "…": "...", "\u00a0": " ",
}  # fmt: skip


def plain_text(text: str) -> str:
    """Text for old readers: fractions and signs in ASCII, no sign that DXF takes for a command.

    Letters of other alphabets stay, so that no name is lost.
    """
    if text.isascii() and text.isprintable() and "%%" not in text and "^" not in text:
        return text
    escaped = text.replace("%%", "% %").replace("^", "^ ")
    return "".join(_PLAIN.get(c, max(c, " ")) for c in escaped)


class MarkWriter:
    """Writes marks on one layout.

    Attributes:
        space: Model space or a paper-space layout.
        place: Paper millimetres to millimetres of the layout; moves, turns and scales, no more.
        scale: Factor of sizes from the paper to the layout.
        turn: Degrees added to every direction.
        unit: Millimetres in one drawing unit.
        dash: Line type factor of each entity; 1 leaves it to the document.
    """

    def __init__(
        self,
        space: BaseLayout,
        place: Callable[[Point], Point],
        scale: float,
        turn: float,
        unit: float,
        *,
        dash: float = 1.0,
    ) -> None:
        self.space = space
        self._map = _affine(place, unit)
        self.scale = scale
        self.turn = turn
        self.unit = unit
        self.dash = dash
        self._records = RecordWriter(space)

    def write_all(self, marks: Iterable[Mark]) -> None:
        """Writes marks; fills and curves first, so that texts and lines stand over them."""
        written = list(marks)
        rings = {} if is_oldest(self.space.doc) else _rings(written)
        ringed = {centre for mark in written if (centre := _ring_of(mark)) in rings}
        for mark in written:
            if isinstance(mark, Text):
                self._text(mark, rings.get(_ring_of(mark)))
            elif isinstance(mark, Fill):
                self._fill(mark)
            elif _centre(mark) not in ringed:
                self._path(mark)
        self._records.finish()

    def at(self, point: Point) -> Point:
        """A point in drawing units."""
        a, b, c, d, x0, y0 = self._map
        x, y = point
        return (a * x + b * y + x0, c * x + d * y + y0)

    def _text(self, mark: Text, circle: Path | None) -> None:
        block = "" if is_oldest(self.space.doc) else _block(mark, ringed=circle is not None)
        write = self._records.text
        if block:
            tag = TagBlock(block, self._ring(circle) if circle else None)
            write = partial(self._records.tag, tag)
        write(
            mark.layer.value,
            self.at(mark.at),
            plain_text(mark.text),
            mark.height * self.scale / self.unit,
            turn=mark.turn + self.turn,
            align=ALIGN[mark.anchor],
            style=STYLE,
        )

    def _ring(self, circle: Path) -> Ring:
        """The circle of a block in drawing units."""
        (x0, y), (x1, _) = circle.points
        width = PENS[circle.layer].width if circle.width is None else circle.width
        radius = (x1 - x0) / 2 * self.scale / self.unit
        return Ring(self.at(((x0 + x1) / 2, y)), radius, round(width * HUNDREDTHS))

    def _fill(self, mark: Fill) -> None:
        level = None if mark.tone is None else round(255 * mark.tone)
        if level is not None and level > PALEST and is_oldest(self.space.doc):
            return  # a solid has no tone: what is light on paper is left white
        add_fill(
            self.space, [[self.at(p) for p in ring] for ring in mark.rings], _look(mark), level
        )

    def _path(self, mark: Path) -> None:
        attribs = _look(mark)
        if mark.width is not None:
            attribs["lineweight"] = round(mark.width * HUNDREDTHS)
        if PENS[mark.layer].dash and self.dash != 1.0:
            attribs["ltscale"] = self.dash
        if len(mark.points) == 2 and not mark.bulges:  # noqa: PLR2004 - a straight line
            start, end = mark.points
            self._records.line(self.at(start), self.at(end), attribs)
            return
        bulges = mark.bulges or (0.0,) * len(mark.points)
        points = [(*self.at(p), b) for p, b in zip(mark.points, bulges, strict=False)]
        add_curve(self.space, points, attribs, closed=mark.closed)


def _block(mark: Text, *, ringed: bool) -> str:
    """The block that a tag or a text in a circle is a reference to; empty for other texts."""
    if not ringed:
        return TAG_BLOCKS.get(mark.layer, "") if mark.in_plan else ""
    return DETAIL_NUMBER if mark.ref.startswith(DETAIL) else RING_BLOCKS[mark.layer]


Centre = tuple[float, float]


def _rings(marks: Sequence[Mark]) -> dict[Centre | None, Path]:
    """The circles among some marks by their centres."""
    found = ((_centre(mark), mark) for mark in marks if isinstance(mark, Path))
    return {centre: mark for centre, mark in found if centre is not None}


def _centre(mark: Path) -> Centre | None:
    """Centre of a level circle of two half turns, in whole thousandths of a mm; None for other lines."""
    if not (mark.closed and mark.bulges == (1.0, 1.0)) or mark.points[0][1] != mark.points[1][1]:
        return None
    (x0, y), (x1, _) = mark.points
    return (round((x0 + x1) / 2, 3), round(y, 3)) if x1 > x0 else None


def _ring_of(mark: Mark) -> Centre | None:
    """Centre of the circle that a text would stand in the middle of; None for what stands in none."""
    if (
        not isinstance(mark, Text)
        or mark.layer not in RING_BLOCKS
        or mark.anchor is not Anchor.MIDDLE
    ):
        return None
    if not (mark.in_plan or mark.layer is Layer.GRID_NAME) or mark.turn:
        return None
    return (round(mark.at[0], 3), round(mark.at[1] + mark.height / 2, 3))


def _affine(place: Callable[[Point], Point], unit: float) -> tuple[float, ...]:
    """The factors of a map that moves, turns and scales, from what it makes of three points."""
    (x0, y0), (x1, y1), (x2, y2) = (place(p) for p in ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)))
    factors = (x1 - x0, x2 - x0, y1 - y0, y2 - y0, x0, y0)
    return tuple(factor / unit for factor in factors)


def _look(mark: Path | Fill) -> dict[str, object]:
    """Layer of a mark, and the pen of the thing that it is a sample of."""
    if mark.layer not in REAL or mark.in_view:
        return {"layer": mark.layer.value}
    pen = PENS[mark.layer]
    return {
        "layer": Layer.TABLE.value,
        "color": COLOURS.get(mark.layer, BLACK),
        "linetype": LINE_TYPES.get(mark.layer, "Continuous"),
        "lineweight": round(pen.width * HUNDREDTHS),
    }
