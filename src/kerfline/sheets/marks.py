"""Marks on paper: a sheet is drawn once as lines, fills and texts in millimetres and rendered by the writers.

The origin is the lower left corner of the paper, y up. Every mark lies on a layer; the layer's pen says
how it looks, so that a writer decides nothing.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum

from kerfline.geometry.ring import Point
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.view import View

LAYER_MARK = "Layer"
"""Tag by which a PDF names the layer of the slab's own lines."""


class Layer(StrEnum):
    """Layers, named after the pattern of the National CAD Standard (discipline-major-minor-status).

    The status letters N (new work) and E (existing to remain) tell the joints of an amended plan apart.
    """

    EDGE = "S-SLAB-EDGE"
    OPENING = "S-SLAB-OPNG"
    PENETRATION = "S-SLAB-PENE"
    ZONE = "S-SLAB-ZONE"
    KEEP_OUT = "S-SLAB-PATT"
    PANEL = "S-SLAB-IDEN"
    HATCH = "S-SLAB-HTCH"
    BARS = "S-SLAB-RBAR"
    CONTROL = "S-JNTS-CTLJ"
    CONSTRUCTION = "S-JNTS-CNTJ"
    ISOLATION = "S-JNTS-ISOL"
    CONTROL_NEW = "S-JNTS-CTLJ-N"
    CONTROL_EXISTING = "S-JNTS-CTLJ-E"
    CONSTRUCTION_NEW = "S-JNTS-CNTJ-N"
    CONSTRUCTION_EXISTING = "S-JNTS-CNTJ-E"
    ISOLATION_NEW = "S-JNTS-ISOL-N"
    ISOLATION_EXISTING = "S-JNTS-ISOL-E"
    WALL = "S-WALL"
    COLUMN = "S-COLS"
    GRID = "S-GRID"
    GRID_NAME = "S-GRID-IDEN"
    DETAIL = "S-DETL"
    TAG = "S-ANNO-TEXT"
    NOTE = "S-ANNO-NOTE"
    SYMBOL = "S-ANNO-SYMB"
    FINDING = "S-ANNO-KEYN"
    DIMENSION = "S-ANNO-DIMS"
    MATCH = "S-ANNO-MTCH"
    TABLE = "S-ANNO-LEGN"
    TITLE = "G-ANNO-TTLB"
    VIEWPORT = "G-ANNO-NPLT"


@dataclass(frozen=True, slots=True)
class Pen:
    """How a layer looks.

    Attributes:
        width: Line width in mm, from the series 0.13 0.18 0.25 0.35 0.5 0.7 1.0.
        colour: Red, green and blue, 0 to 255; dark enough to print black.
        dash: Lengths of dash and gap in mm by turns; empty for a continuous line.
    """

    width: float
    colour: tuple[int, int, int] = (0, 0, 0)
    dash: tuple[float, ...] = ()


BLACK = (0, 0, 0)
INK = (20, 20, 20)
SLATE = (70, 78, 88)
GREY = (120, 126, 132)
PALE = (150, 156, 162)
RUST = (158, 62, 10)

PENS: dict[Layer, Pen] = {
    Layer.EDGE: Pen(0.5, INK),
    Layer.OPENING: Pen(0.35, INK),
    Layer.PENETRATION: Pen(0.35, INK),
    Layer.ZONE: Pen(0.25, SLATE, (6.0, 1.2, 1.2, 1.2, 1.2, 1.2)),
    Layer.KEEP_OUT: Pen(0.18, SLATE),
    Layer.PANEL: Pen(0.18, SLATE),
    Layer.HATCH: Pen(0.18, RUST),
    Layer.BARS: Pen(0.35, RUST),
    Layer.CONTROL: Pen(0.7, BLACK, (4.5, 1.2)),
    Layer.CONSTRUCTION: Pen(1.0, BLACK),
    Layer.ISOLATION: Pen(0.7, BLACK),
    Layer.CONTROL_NEW: Pen(0.7, BLACK, (4.5, 1.2)),
    Layer.CONTROL_EXISTING: Pen(0.25, GREY, (4.5, 1.2)),
    Layer.CONSTRUCTION_NEW: Pen(1.0, BLACK),
    Layer.CONSTRUCTION_EXISTING: Pen(0.35, GREY),
    Layer.ISOLATION_NEW: Pen(0.7, BLACK),
    Layer.ISOLATION_EXISTING: Pen(0.25, GREY),
    Layer.WALL: Pen(0.18, PALE),
    Layer.COLUMN: Pen(0.35, INK),
    Layer.GRID: Pen(0.25, INK),
    Layer.GRID_NAME: Pen(0.25, INK),
    Layer.DETAIL: Pen(0.35, INK),
    Layer.TAG: Pen(0.18, INK),
    Layer.NOTE: Pen(0.18, INK),
    Layer.SYMBOL: Pen(0.25, INK),
    Layer.FINDING: Pen(0.25, RUST),
    Layer.DIMENSION: Pen(0.18, SLATE),
    Layer.MATCH: Pen(0.5, SLATE, (12.0, 1.5, 2.0, 1.5, 2.0, 1.5)),
    Layer.TABLE: Pen(0.18, INK),
    Layer.TITLE: Pen(0.35, INK),
    Layer.VIEWPORT: Pen(0.18, GREY),
}


class Anchor(StrEnum):
    """Where a text's insertion point lies along its baseline."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, kw_only=True)
class Path:
    """A line, straight or with arcs, open or closed.

    Attributes:
        layer: Its layer.
        points: Corner points in mm of paper.
        bulges: As in ``geometry.ring``; empty means all straight.
        closed: Whether the last point is joined to the first.
        width: Line width in mm where it differs from the layer's.
        ref: Id of the joint, wall or opening that it shows.
        in_view: Whether it shows the slab itself, so that a drawing in real units has it already.
        in_plan: Whether it is a sign at its place on the plan, rather than part of a table or margin.
    """

    layer: Layer
    points: tuple[Point, ...]
    bulges: tuple[float, ...] = ()
    closed: bool = False
    width: float | None = None
    ref: str = ""
    in_view: bool = False
    in_plan: bool = False


@dataclass(frozen=True, kw_only=True)
class Fill:
    """A filled area.

    Attributes:
        layer: Its layer.
        rings: Outer ring and holes, filled by the even-odd rule.
        tone: Grey from 0 (black) to 1 (white); None takes the layer's colour.
        ref: Id of what it shows.
        in_view: As for ``Path``.
    """

    layer: Layer
    rings: tuple[tuple[Point, ...], ...]
    tone: float | None = None
    ref: str = ""
    in_view: bool = False


@dataclass(frozen=True, kw_only=True)
class Text:
    """A line of text.

    Attributes:
        layer: Its layer.
        at: Insertion point on the baseline, mm of paper.
        text: What it says.
        height: Height of a capital letter in mm.
        anchor: Where along the baseline the insertion point lies.
        turn: Direction of the baseline, degrees anticlockwise from x.
        ref: Id of what it names.
        in_plan: As for ``Path``.
    """

    layer: Layer
    at: Point
    text: str
    height: float
    anchor: Anchor = Anchor.START
    turn: float = 0.0
    ref: str = ""
    in_plan: bool = False

    def moved(
        self, at: Point, *, turn: float | None = None, anchor: Anchor | None = None
    ) -> "Text":
        """The same text elsewhere; a label tries dozens of places, so this is made without detours."""
        return Text(
            layer=self.layer,
            at=at,
            text=self.text,
            height=self.height,
            anchor=anchor or self.anchor,
            turn=self.turn if turn is None else turn,
            ref=self.ref,
            in_plan=self.in_plan,
        )


Mark = Path | Fill | Text


DIMENSION_TEXT = "dimension"
"""What a text refers to that tells a measure: a format that knows dimensions writes it as one."""


@dataclass(frozen=True, kw_only=True)
class Measure:
    """A dimension: what its text measures.

    Attributes:
        start: Where it is measured from, mm of paper.
        end: Where it is measured to.
        line: A point that its dimension line runs through.
        text: Its text as it is drawn.
        running: Whether it is measured from the baseline.
        upright: Whether it is measured upward.
    """

    start: Point
    end: Point
    line: Point
    text: Text
    running: bool
    upright: bool


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One sheet of paper.

    Attributes:
        name: Short name for the file, such as ``joint-plan``.
        title: Title in the title block.
        number: Its place in the set, from 1.
        count: How many sheets the set has.
        paper: The paper.
        marks: What is drawn, in drawing order.
        views: The scaled views of the slab on it, all of one scale: one, or parts that stand one under the other.
        measures: What the dimensions among the marks measure.
    """

    name: str
    title: str
    number: int
    count: int
    paper: PaperSize
    marks: tuple[Mark, ...]
    views: tuple[View, ...] = ()
    measures: tuple[Measure, ...] = ()

    @property
    def view(self) -> View | None:
        """The first of its views; None where it has none."""
        return self.views[0] if self.views else None

    def marks_of(self, view: View) -> tuple[Mark, ...]:
        """The marks that stand in the room of one of its views."""
        if len(self.views) == 1:
            return self.marks
        x0, y0, x1, y1 = view.room
        places = ((mark, _place(mark)) for mark in self.marks)
        return tuple(mark for mark, (x, y) in places if x0 <= x < x1 and y0 <= y < y1)

    @property
    def texts(self) -> tuple[Text, ...]:
        """The texts, in drawing order."""
        return tuple(m for m in self.marks if isinstance(m, Text))


def _place(mark: Mark) -> Point:
    """A point of a mark: where a text stands, else where a line or an area begins."""
    if isinstance(mark, Text):
        return mark.at
    return mark.points[0] if isinstance(mark, Path) else mark.rings[0][0]


@dataclass
class Board:
    """Marks as they are collected while a sheet is drawn."""

    marks: list[Mark] = field(default_factory=list)
    measures: list[Measure] = field(default_factory=list)

    def __iter__(self) -> Iterator[Mark]:
        return iter(self.marks)

    def add(self, *marks: Mark) -> None:
        """Adds marks on top of those that are there."""
        self.marks.extend(marks)

    def take(self, other: "Board") -> None:
        """Adds what stands on another board, its measures too."""
        self.marks.extend(other.marks)
        self.measures.extend(other.measures)

    def line(self, layer: Layer, *points: Point, width: float | None = None, ref: str = "") -> None:
        """Draws an open line through points."""
        self.marks.append(Path(layer=layer, points=points, width=width, ref=ref))

    def box(self, layer: Layer, bounds: "Bounds", *, width: float | None = None) -> None:
        """Draws a rectangle."""
        x0, y0, x1, y1 = bounds
        corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        self.marks.append(Path(layer=layer, points=corners, closed=True, width=width))

    def text(  # a text has this many properties
        self,
        layer: Layer,
        at: Point,
        text: str,
        height: float,
        *,
        anchor: Anchor = Anchor.START,
        turn: float = 0.0,
        ref: str = "",
    ) -> None:
        """Writes a line of text; nothing where it is empty."""
        if text:
            self.marks.append(
                Text(
                    layer=layer, at=at, text=text, height=height, anchor=anchor, turn=turn, ref=ref
                )
            )

    def circle(self, layer: Layer, centre: Point, radius: float, *, ref: str = "") -> None:
        """Draws a circle."""
        x, y = centre
        self.marks.append(
            Path(
                layer=layer,
                points=((x - radius, y), (x + radius, y)),
                bulges=(1.0, 1.0),
                closed=True,
                ref=ref,
            )
        )


Bounds = tuple[float, float, float, float]
