"""Details in section: a joint of each kind, a turned-down edge and a thickened strip, on the ground that the job tells of."""

from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Dowels
from kerfline.model.slab import Edge, Wall
from kerfline.quantities.dowels import Dowel, dowel_table
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.detail_marks import (
    SECTION_ROOM,
    SECTION_SCALE,
    SIDE,
    Detail,
    draw_dowel,
    draw_fixed,
    draw_measure,
    draw_slab,
    scale_for,
    trade_size,
)
from kerfline.sheets.marks import Board, Fill, Layer
from kerfline.sheets.under_slab import Under
from kerfline.units import MM_PER_INCH, Display, format_depth

KERF = MM_PER_INCH / 8
"""Width of a saw cut, 1/8 in (common practice)."""

FILLER = MM_PER_INCH / 2
"""Thickness of filler at fixed objects, 1/2 in (a trade page on parking areas; see the take-off)."""

DOWELS = "floor-eighth"
"""Table of the dowel that is drawn where the job chooses none."""

FIXED = 12.0
"""Width of what stands beside an isolation joint, mm of paper."""


def control_detail(job: Job, rules: SlabRules) -> Detail:
    """A saw cut, with its filler and the dowel baskets where the job has them."""
    thickness = job.slab.thickness
    depth = rules.cut_depth(thickness)
    scale = SECTION_SCALE[job.display]
    under = Under(job)
    dowel = dowel_table(job.steel.dowels or DOWELS).dowel(thickness) if job.order.baskets else None

    def draw(board: Board, at: Point) -> None:
        x, top = at
        foot, bottom = top - depth / scale, top - thickness / scale
        half = max(KERF / 2 / scale, 0.25)
        draw_slab(board, (x - SIDE, bottom, x + SIDE, top))
        cut = ((x - half, top), (x - half, foot), (x + half, foot), (x + half, top))
        board.add(Fill(layer=Layer.DETAIL, rings=(cut,)))
        step = (foot - bottom) / 4
        crack = [(x + (0.5 if i % 2 else -0.4), foot - i * step) for i in range(1, 4)]
        board.line(Layer.DETAIL, (x, foot), *crack, (x, bottom), width=0.18)
        if dowel:
            draw_dowel(board, (x, (top + bottom) / 2), dowel, scale)
        under.steel(board, (x - SIDE, x + SIDE), top, scale)
        under.ground(board, (x - SIDE, x + SIDE), bottom, scale)
        draw_measure(board, x + 4.0, foot, top)
        draw_measure(board, x - SIDE - 3.0, bottom, top)

    cut = (
        f"Saw cut {format_depth(depth, job.display)} deep in a {format_depth(thickness, job.display)} "
        "slab; the crack forms below it."
    )
    basket = f"Dowels in baskets: {_dowel_words(dowel, job.display)}" if dowel else ""
    words = _said(cut, _filled(job), basket, under.words)
    return Detail(
        "Control joint (CTLJ)", words, scale, thickness / scale + under.depth(scale) + 2.0, draw
    )


def _filled(job: Job) -> str:
    """What goes into the cut, where the job says it."""
    width, depth = job.steel.filler_width, job.steel.filler_depth
    if not width or not depth:
        return ""
    say = f"{format_depth(width, job.display)} wide, {format_depth(depth, job.display)} deep"
    return f"Filled {say}{' over a backer rod' if job.order.backer_rod else ''}."


def construction_detail(job: Job, asked: Dowels | None) -> Detail:
    """A bulkhead with its dowels."""
    thickness = job.slab.thickness
    scale = SECTION_SCALE[job.display]
    dowel = asked or dowel_table(DOWELS).dowel(thickness)
    under = Under(job)

    def draw(board: Board, at: Point) -> None:
        x, top = at
        bottom = top - thickness / scale
        draw_slab(board, (x - SIDE, bottom, x + SIDE, top))
        board.line(Layer.CONSTRUCTION, (x, bottom), (x, top), width=0.7)
        if dowel:
            draw_dowel(board, (x, (top + bottom) / 2), dowel, scale)
        under.steel(board, (x - SIDE, x), top, scale)
        under.steel(board, (x, x + SIDE), top, scale)
        under.ground(board, (x - SIDE, x + SIDE), bottom, scale)
        draw_measure(board, x - SIDE - 3.0, bottom, top)

    words = "Vertical bulkhead, no bond between the placements."
    if dowel:
        lead = "Dowels" if asked else "Where dowels are asked:"
        words = (
            f"Bulkhead, no bond between the placements. {lead} {_dowel_words(dowel, job.display)}"
        )
    tall = thickness / scale + under.depth(scale) + 2.0
    return Detail("Construction joint (CNTJ)", _said(words, under.words), scale, tall, draw)


def isolation_detail(job: Job) -> Detail:
    """Filler between the slab and what stands fixed."""
    thickness = job.slab.thickness
    scale = SECTION_SCALE[job.display]
    filler = job.steel.isolation or FILLER
    under = Under(job)

    def draw(board: Board, at: Point) -> None:
        x, top = at
        bottom, gap = top - thickness / scale, filler / scale
        draw_slab(board, (x - SIDE, bottom, x, top))
        strip = ((x, bottom), (x + gap, bottom), (x + gap, top), (x, top))
        board.add(Fill(layer=Layer.ISOLATION, rings=(strip,)))
        under.steel(board, (x - SIDE, x), top, scale)
        under.ground(board, (x - SIDE, x), bottom, scale)
        foot = bottom - max(4.0, under.depth(scale))
        draw_fixed(board, (x + gap, foot, x + gap + FIXED, top))
        draw_measure(board, x - SIDE - 3.0, bottom, top)

    words = (
        f"Filler {trade_size(filler, job.display)} through the full depth between slab and wall, footing or "
        "column; formed before placing, never sawn."
    )
    tall = thickness / scale + max(4.0, under.depth(scale)) + 2.0
    return Detail("Isolation joint (ISOL)", _said(words, under.words), scale, tall, draw)


def _scale_of(job: Job, half: float, deep: float) -> float:
    """The scale at which concrete of half a width and a depth (mm) fits a section with some slab beside it."""
    usual = SECTION_SCALE[job.display] * 2
    return max(scale_for(half, SIDE - 2.0, usual), scale_for(deep, SECTION_ROOM, usual))


def edge_detail(job: Job, edge: Edge) -> Detail:
    """A turned-down edge."""
    thickness, scale = job.slab.thickness, _scale_of(job, edge.width / 2, edge.depth)
    wide, deep = edge.width / scale, edge.depth / scale
    under = Under(job)

    def draw(board: Board, at: Point) -> None:
        x, top = at
        left, right = x - SIDE, x + SIDE
        bottom, foot = top - thickness / scale, top - deep
        inner = min(left + wide + edge.slope * (bottom - foot), right)
        ring = (
            (right, top), (left, top), (left, foot), (left + wide, foot), (inner, bottom),
            (right, bottom),
        )  # fmt: skip
        board.line(Layer.DETAIL, *ring, width=0.5)
        under.ground(board, (inner, right), bottom, scale)
        draw_measure(board, left - 3.0, foot, top)
        draw_measure(board, right + 3.0, bottom, top)

    words = (
        f"Turned-down edge {format_depth(edge.width, job.display)} wide at its foot, "
        f"{format_depth(edge.depth, job.display)} deep in all, placed with the slab."
    )
    tall = max(deep, thickness / scale + under.depth(scale)) + 2.0
    return Detail("Turned-down edge", _said(words, under.words), scale, tall, draw)


def strip_detail(job: Job, wall: Wall) -> Detail:
    """A thickened strip under a bearing wall."""
    thickness, scale = job.slab.thickness, _scale_of(job, wall.strip_width / 2, wall.strip_depth)
    half, deep = wall.strip_width / 2 / scale, wall.strip_depth / scale
    over = 4.0
    under = Under(job)

    def draw(board: Board, at: Point) -> None:
        x, top = at
        top -= over
        bottom, foot = top - thickness / scale, top - deep
        lean = wall.strip_slope * (bottom - foot)
        left, right = x - SIDE, x + SIDE
        board.line(Layer.DETAIL, (left, top), (right, top), width=0.5)
        lower = (
            (left, bottom), (max(x - half - lean, left), bottom), (x - half, foot), (x + half, foot),
            (min(x + half + lean, right), bottom), (right, bottom),
        )  # fmt: skip
        board.line(Layer.DETAIL, *lower, width=0.5)
        side = wall.thickness / 2 / scale
        draw_fixed(board, (x - side, top, x + side, top + over))
        under.ground(board, (left, max(x - half - lean, left)), bottom, scale)
        under.ground(board, (min(x + half + lean, right), right), bottom, scale)
        draw_measure(board, left - 3.0, bottom, top)
        draw_measure(board, right + 3.0, foot, top)

    words = (
        f"Strip {format_depth(wall.strip_width, job.display)} wide, "
        f"{format_depth(wall.strip_depth, job.display)} deep in all, under a bearing wall; no plain sawn joint "
        "over it."
    )
    tall = over + max(deep, thickness / scale + under.depth(scale)) + 2.0
    return Detail("Thickened strip under a wall", _said(words, under.words), scale, tall, draw)


def _said(*sentences: str) -> str:
    return " ".join(s for s in sentences if s)


def _dowel_words(dowel: Dowel | Dowels, display: Display) -> str:
    size = (
        f"{trade_size(dowel.diameter, display)} round, {trade_size(dowel.length, display)} long, "
        f"{trade_size(dowel.spacing, display)} apart"
    )
    return f"{size}, at mid-depth, level and square to the joint, one half free to slide (common practice)."
