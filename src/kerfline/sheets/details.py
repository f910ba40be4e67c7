"""Typical details to scale: what a joint of each kind looks like in section, a boxout and bars in plan."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

import shapely

from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Dowels, Layout
from kerfline.model.slab import Boxout, Column, EdgeKind, JointKind, Slab
from kerfline.quantities.dowels import Dowel, dowel_table
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.lettering import wrap
from kerfline.sheets.marks import Board, Fill, Layer, Path
from kerfline.sheets.paper import scale_words
from kerfline.sheets.plan_marks import (
    BAR_COUNT,
    BAR_FIRST,
    BAR_LENGTH,
    BAR_PITCH,
    POST_SHARE,
    unjointed_corners,
)
from kerfline.units import MM_PER_INCH, Display, format_depth, format_length

SECTION_SCALE = {Display.FEET_INCHES: 8.0, Display.METRIC: 10.0}
PLAN_SCALE = {Display.FEET_INCHES: 24.0, Display.METRIC: 25.0}
BAR_SCALE = {Display.FEET_INCHES: 32.0, Display.METRIC: 50.0}

WIDTH = 64.0
"""Width of a detail, mm."""

KERF = MM_PER_INCH / 8
"""Width of a saw cut, 1/8 in (common practice)."""

FILLER = MM_PER_INCH / 2
"""Thickness of filler at fixed objects, 1/2 in (a trade page on parking areas; see the take-off)."""

DOWELS = "floor-eighth"
"""Table of the dowel that is drawn; the take-off counts by the table that the job chooses."""

NOTE_ROOM = 2.0
SIDE = 22.0
"""Half width of slab that a section shows, mm of paper."""


@dataclass(frozen=True)
class Detail:
    """A typical detail.

    Attributes:
        title: Its title.
        words: What it says, under the drawing.
        scale: Scale denominator.
        tall: Height of its drawing, mm.
        draw: Draws it around a point at half its width and the top of its drawing.
    """

    title: str
    words: str
    scale: float
    tall: float
    draw: Callable[[Board, Point], None]


class Shown(StrEnum):
    """What a detail shows."""

    CONTROL = "control"
    CONSTRUCTION = "construction"
    ISOLATION = "isolation"
    COLUMN = "column"
    BARS = "bars"


def detail_numbers(slab: Slab, layout: Layout) -> dict[Shown, int]:
    """The number of each detail that the layout asks for, from 1."""
    kinds = {j.kind for j in layout.joints}
    edges = {e.kind for e in slab.edges}
    boxed = any(c.boxout is not Boxout.NONE for c in slab.columns)
    wanted = {
        Shown.CONTROL: JointKind.CONTROL in kinds,
        Shown.CONSTRUCTION: JointKind.CONSTRUCTION in kinds or EdgeKind.CONSTRUCTION in edges,
        Shown.ISOLATION: JointKind.ISOLATION in kinds or EdgeKind.ISOLATED in edges or boxed,
        Shown.COLUMN: boxed,
        Shown.BARS: bool(unjointed_corners(slab, layout)),
    }
    return {shown: n for n, shown in enumerate((s for s, yes in wanted.items() if yes), 1)}


def details(job: Job, layout: Layout, rules: SlabRules, text: float) -> list[Figure]:
    """The details of what the layout holds, numbered, each to scale."""
    boxed = [c for c in job.slab.columns if c.boxout is not Boxout.NONE]
    dowels = next((j.dowels for j in layout.joints if j.dowels), None)
    drawn: dict[Shown, Callable[[], Detail]] = {
        Shown.CONTROL: lambda: _control(job, rules),
        Shown.CONSTRUCTION: lambda: _construction(job, dowels),
        Shown.ISOLATION: lambda: _isolation(job),
        Shown.COLUMN: lambda: _boxout(job, boxed[0]),
        Shown.BARS: lambda: _corner(job),
    }
    numbers = detail_numbers(job.slab, layout)
    return [_figure(drawn[shown](), number, job.display, text) for shown, number in numbers.items()]


def _figure(detail: Detail, number: int, display: Display, text: float) -> Figure:
    words = f"{detail.words} Scale {scale_words(detail.scale, display)}."
    lines = wrap(words, text, WIDTH)
    tall = heading_height(text) + NOTE_ROOM + detail.tall + (len(lines) * 1.75 + 1.0) * text

    def paint(board: Board, at: Point, width: float) -> None:
        del width
        x, _ = at
        y = draw_heading(board, at, WIDTH, f"{number}  {detail.title}", text) - NOTE_ROOM
        detail.draw(board, (x + WIDTH / 2, y))
        y -= detail.tall
        for line in lines:
            y -= 1.75 * text
            board.text(Layer.NOTE, (x, y), line, text)

    return Figure(width=WIDTH, tall=tall, painter=paint)


def _control(job: Job, rules: SlabRules) -> Detail:
    thickness = job.slab.thickness
    depth = rules.cut_depth(thickness)
    scale = SECTION_SCALE[job.display]

    def draw(board: Board, at: Point) -> None:
        x, top = at
        foot, bottom = top - depth / scale, top - thickness / scale
        half = max(KERF / 2 / scale, 0.25)
        _slab(board, (x - SIDE, bottom, x + SIDE, top))
        cut = ((x - half, top), (x - half, foot), (x + half, foot), (x + half, top))
        board.add(Fill(layer=Layer.DETAIL, rings=(cut,)))
        step = (foot - bottom) / 4
        crack = [(x + (0.5 if i % 2 else -0.4), foot - i * step) for i in range(1, 4)]
        board.line(Layer.DETAIL, (x, foot), *crack, (x, bottom), width=0.18)
        _measure(board, x + 4.0, foot, top)
        _measure(board, x - SIDE - 3.0, bottom, top)

    words = (
        f"Saw cut {format_depth(depth, job.display)} deep in a {format_depth(thickness, job.display)} "
        "slab; the crack forms below it."
    )
    return Detail("Control joint (CTLJ)", words, scale, thickness / scale + 2.0, draw)


def _construction(job: Job, asked: Dowels | None) -> Detail:
    thickness = job.slab.thickness
    scale = SECTION_SCALE[job.display]
    dowel = asked or dowel_table(DOWELS).dowel(thickness)

    def draw(board: Board, at: Point) -> None:
        x, top = at
        bottom = top - thickness / scale
        _slab(board, (x - SIDE, bottom, x + SIDE, top))
        board.line(Layer.CONSTRUCTION, (x, bottom), (x, top), width=0.7)
        if dowel:
            _dowel(board, (x, (top + bottom) / 2), dowel, scale)
        _measure(board, x - SIDE - 3.0, bottom, top)

    words = "Vertical bulkhead, no bond between the placements."
    if dowel:
        lead = "Dowels" if asked else "Where dowels are asked:"
        words = (
            f"Bulkhead, no bond between the placements. {lead} {_dowel_words(dowel, job.display)}"
        )
    return Detail("Construction joint (CNTJ)", words, scale, thickness / scale + 2.0, draw)


METRIC_SIZES = (6, 8, 10, 12, 16, 20, 25, 32, 40)
"""Bars and fillers as they are sold in metric countries, mm (common practice)."""

LARGE = 40.0


def trade_size(mm: float, display: Display) -> str:
    """A length of a detail as it is bought or set out: in mm a size that is sold, or a round one."""
    if display is Display.FEET_INCHES:
        return format_depth(mm, display)
    if mm <= LARGE:
        return f"{min(METRIC_SIZES, key=lambda size: abs(size - mm))} mm"
    unit = 5 if mm < 4 * LARGE else 50
    return f"{round(mm / unit) * unit} mm"


def _dowel_words(dowel: Dowel | Dowels, display: Display) -> str:
    size = (
        f"{trade_size(dowel.diameter, display)} round, {trade_size(dowel.length, display)} long, "
        f"{trade_size(dowel.spacing, display)} apart"
    )
    return f"{size}, at mid-depth, level and square to the joint, one half free to slide (common practice)."


def _dowel(board: Board, at: Point, dowel: Dowel | Dowels, scale: float) -> None:
    x, y = at
    half = min(dowel.length / 2 / scale, SIDE - 1.0)
    rise = dowel.diameter / 2 / scale
    ring = ((x - half, y - rise), (x + half, y - rise), (x + half, y + rise), (x - half, y + rise))
    board.add(Fill(layer=Layer.DETAIL, rings=(ring,), tone=0.45))
    board.add(Path(layer=Layer.DETAIL, points=ring, closed=True, width=0.25))


def _isolation(job: Job) -> Detail:
    thickness = job.slab.thickness
    scale = SECTION_SCALE[job.display]

    def draw(board: Board, at: Point) -> None:
        x, top = at
        bottom = top - thickness / scale
        gap = FILLER / scale
        _slab(board, (x - SIDE, bottom, x, top))
        filler = ((x, bottom), (x + gap, bottom), (x + gap, top), (x, top))
        board.add(Fill(layer=Layer.ISOLATION, rings=(filler,)))
        fixed = (x + gap, bottom - 4.0, x + gap + 12.0, top + 0.0)
        board.box(Layer.DETAIL, fixed)
        for line in hatch_lines(shapely.box(*fixed), 2.2, 135.0):
            (ax, ay), (bx, by) = line.coords[0], line.coords[-1]
            board.line(Layer.DETAIL, (ax, ay), (bx, by), width=0.13)
        _measure(board, x - SIDE - 3.0, bottom, top)

    words = (
        f"Filler {trade_size(FILLER, job.display)} through the full depth between slab and wall, footing or "
        "column; formed before placing, never sawn."
    )
    return Detail("Isolation joint (ISOL)", words, scale, thickness / scale + 6.0, draw)


def _boxout(job: Job, column: Column) -> Detail:
    scale = PLAN_SCALE[job.display]
    outline = column.outline
    reach = column.size * 0.75 / scale
    arm = reach + 8.0

    def draw(board: Board, at: Point) -> None:
        x, top = at
        y = top - arm
        if outline is None:
            return
        cx, cy = column.at
        points = tuple((x + (px - cx) / scale, y + (py - cy) / scale) for px, py in outline.points)
        board.add(Path(layer=Layer.ISOLATION, points=points, bulges=outline.bulges, closed=True))
        half = column.size * POST_SHARE / 2 / scale
        post = (
            (x - half, y - half),
            (x + half, y - half),
            (x + half, y + half),
            (x - half, y + half),
        )
        board.add(Fill(layer=Layer.COLUMN, rings=(post,), tone=0.35))
        start = _reach(column) / scale
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            board.line(
                Layer.CONTROL, (x + dx * start, y + dy * start), (x + dx * arm, y + dy * arm)
            )

    shape = column.boxout.value
    words = (
        f"{shape.capitalize()} boxout {format_length(column.size, job.display)} "
        f"{'across' if column.boxout is Boxout.CIRCLE else 'a side'}; joints meet its points, its edge is an "
        "isolation joint. Fill it after the column is loaded."
    )
    return Detail("Column boxout (plan)", words, scale, 2 * arm, draw)


def _reach(column: Column) -> float:
    """From the column's centre to where a joint along its axes meets the boxout, mm."""
    half = column.size / 2
    return half * 2**0.5 if column.boxout is Boxout.DIAMOND else half


def _corner(job: Job) -> Detail:
    scale = BAR_SCALE[job.display]
    arm = BAR_LENGTH * 0.45 / scale

    def draw(board: Board, at: Point) -> None:
        x, top = at
        y = top - arm
        board.line(Layer.EDGE, (x, y + arm), (x, y), (x + arm, y))
        lean = 0.5**0.5
        half = BAR_LENGTH / 2 / scale * lean
        for i in range(BAR_COUNT):
            off = (BAR_FIRST + i * BAR_PITCH) / scale * lean
            cx, cy = x - off, y - off
            board.line(Layer.BARS, (cx - half, cy + half), (cx + half, cy - half))

    feet = job.display is Display.FEET_INCHES
    bar = "No. 4" if feet else "12 mm"
    words = (
        f"{BAR_COUNT} {bar} bars {trade_size(BAR_LENGTH, job.display)} long across a re-entrant corner that "
        f"no joint leaves, first {trade_size(BAR_FIRST, job.display)} off the corner, "
        f"{trade_size(BAR_PITCH, job.display)} apart, in the upper half (common practice; the designer decides)."
    )
    return Detail("Bars at a corner (plan)", words, scale, 2 * arm + 1.0, draw)


def _slab(board: Board, bounds: tuple[float, float, float, float]) -> None:
    """A piece of slab in section, its ends left open."""
    x0, y0, x1, y1 = bounds
    board.line(Layer.DETAIL, (x0, y1), (x1, y1), width=0.5)
    board.line(Layer.DETAIL, (x0, y0), (x1, y0), width=0.5)
    for i, (dx, dy) in enumerate(STONES):
        x, y = x0 + dx * (x1 - x0), y0 + dy * (y1 - y0)
        size = 0.5 + 0.15 * (i % 3)
        board.add(
            Path(
                layer=Layer.DETAIL,
                points=((x - size, y - size / 2), (x + size, y - size / 3), (x, y + size)),
                closed=True,
                width=0.13,
            )
        )


STONES = (
    (0.05, 0.3), (0.12, 0.75), (0.2, 0.2), (0.27, 0.6), (0.34, 0.35), (0.41, 0.8),
    (0.6, 0.25), (0.66, 0.7), (0.74, 0.4), (0.81, 0.78), (0.88, 0.22), (0.95, 0.58),
)  # fmt: skip
"""Where the stones that mark concrete in section stand, as shares of the piece."""


def _measure(board: Board, x: float, low: float, high: float) -> None:
    """A small dimension line between two levels; its value stands in the words below."""
    board.line(Layer.DIMENSION, (x, low), (x, high))
    for y in (low, high):
        board.line(Layer.DIMENSION, (x - 0.8, y), (x + 0.8, y))
        board.line(Layer.DIMENSION, (x - 0.5, y - 0.5), (x + 0.5, y + 0.5), width=0.35)
