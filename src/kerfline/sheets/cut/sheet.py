"""The cut sheet: the lines to saw, big and numbered in cutting order, and a table to write in."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import chain

from shapely import LineString
from shapely import Point as ShapelyPoint

from kerfline.geometry.faces import points_of
from kerfline.geometry.ring import Point, circle
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.arc_marks import label_curves
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.curves import curve_table, curves
from kerfline.sheets.cut.area_marks import name_formed, name_others
from kerfline.sheets.cut.areas import CutArea, layout_in, slab_in
from kerfline.sheets.cut.lines import CutLine, Saw, cut_lines
from kerfline.sheets.cut.passes import CutPass, passes_along
from kerfline.sheets.cut.words import (
    CREW_CAUTIONS,
    before_walls,
    by_hand,
    corner_name,
    cut_table,
    how_to_read,
    squareness,
    start_name,
    totals,
)
from kerfline.sheets.key_plan import area_key
from kerfline.sheets.legend import legend
from kerfline.sheets.marks import Board, Fill, Layer, Path, Sheet
from kerfline.sheets.numbered import line_spots, ring_mark
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import Labeller, LeftOut, label_areas, label_features
from kerfline.sheets.plan_marks import JOINT_LAYERS, slab_marks
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.plan_view import PlanView, add_dimensions, label_redrawn, labeller
from kerfline.sheets.prose import Prose
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.spots import longest_line
from kerfline.sheets.stations import EXTENT
from kerfline.sheets.tie_marks import label_ties
from kerfline.sheets.ties import Ties, ties
from kerfline.sheets.view import View

NUMBER = 1.5
"""Height of a cut's number over that of other text."""

CUT_WIDTH = 0.7
"""Width of a line to cut, mm: it must be found at night."""

START_DOT = 0.9
"""Radius of the dot at the start of a cut, mm."""

END_TICK = 1.6
"""Half length of the tick at the end of a cut, mm."""


def cut_sheet(
    job: Job,
    layout: Layout,
    rules: SlabRules,
    *,
    passes: Sequence[CutPass] = (),
    saw: Saw | None = None,
    area: CutArea | None = None,
) -> tuple[Sheet, ...]:
    """Draws the sheet for the saw crew.

    Args:
        job: The slab and how it is cut.
        layout: Its joints.
        rules: The rules that the depth comes from.
        passes: The lines in the order of cutting, with their windows; empty is from one end of the slab
            to the other.
        saw: The saw; None takes the usual one of the job's method.
        area: One placement or another part of the slab, with its own lines; None for all of it.

    Returns:
        The plan with the lines alone, then the table with boxes to write in.
    """
    del rules  # the depth stands in the joints; the argument keeps one signature for all sheets
    shown, region, corner = layout, None, corner_name(area)
    whole = baselines(job.slab)
    own = whole
    if area:
        shown, region = layout_in(area, layout), area.region
        own = baselines(job.slab, region)
    ordered = area.passes if area else (passes or passes_along(layout, whole))
    formed = area.formed if area else ()
    with_saw = saw or Saw.usual(job)
    cuts = cut_lines(job, ordered, own, saw=with_saw, formed=formed)
    tied = ties(
        job.slab.concrete if area is None else area.region,
        [(f"cut {cut.number}", cut.line) for cut in cuts],
        own,
        [j.line for j in (*shown.joints, *formed) if j.kind is not JointKind.CONTROL],
        corner,
    )

    ends = [(f"cut {cut.number}", points_of(cut.line)) for cut in cuts]

    def draw(board: Board, plan: PlanView) -> LeftOut:
        return _draw(board, plan, cuts, tied, area)

    def blocks(size: PaperSize, base: Baselines) -> list[Block | None]:
        text, width = size.small, column_width(size)
        return [
            area_key(job.slab, whole, area.region, area.pieces, text, width) if area else None,
            Prose("Cautions", CREW_CAUTIONS, text, width),
            totals(job, cuts, with_saw, text, width),
            squareness(job, shown, base, area, text, width),
            before_walls(job, cuts, text, width),
            by_hand(cuts, text, width),
            how_to_read(job, area, own, tied, text, width),
            curve_table(job.slab, base, ends, job.display, text),
            cut_table(job, cuts, with_saw, text, start_name(area, own)),
            legend(
                replace(job, slab=slab_in(area, job.slab)) if area else job,
                shown,
                text,
                width,
                flags=False,
                tags=False,
            ),
        ]

    title = f"Cut sheet, {area.name}" if area else "Cut sheet"
    kind = Kind(
        name="cut-sheet", title=title, rank=EXTENT, handy=True, region=region, corner=corner
    )
    return plan_sheets(job, shown, (), kind, draw=draw, write=blocks)


def _draw(
    board: Board, plan: PlanView, cuts: Sequence[CutLine], tied: Ties, area: CutArea | None
) -> LeftOut:
    others = Layout(
        joints=tuple(j for j in plan.layout.joints if j.kind is not JointKind.CONTROL),
        panels=(),
        solution=plan.layout.solution,
    )
    # Bars at corners depend on all joints; only the other kinds of joint are drawn here.
    board.add(*slab_marks(plan.job.slab, others, plan.view))
    shown = _shown(cuts, plan.view)
    for cut, line in shown:
        _draw_cut(board, cut, line, plan.view)
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    label_ties(maker, tied, plan.job.display)
    for cut, line in shown:
        _number(maker, cut, line, plan.paper.text * NUMBER)
    if area:
        name_formed(maker, area)
        name_others(maker, area)
    label_redrawn(maker, plan)
    ends = [(cut.joint, points_of(cut.line)) for cut in cuts]
    label_curves(maker, curves(plan.job.slab, plan.base), ends, plan.base)
    label_features(maker, plan.job.slab)
    label_areas(maker, plan.job.slab)
    board.take(strings)
    return maker.left_out


def _shown(cuts: Sequence[CutLine], view: View) -> list[tuple[CutLine, LineString]]:
    """The cuts in the view, each with the longest stretch of it that lies there, on the paper."""
    stretches = ((cut, longest_line(part)) for cut, part in view.among(cuts, lambda c: c.line))
    return [(cut, line) for cut, line in stretches if line is not None]


def _draw_cut(board: Board, cut: CutLine, shown: LineString, view: View) -> None:
    points = tuple((float(x), float(y)) for x, y in shown.coords)
    board.add(
        Path(
            layer=JOINT_LAYERS[JointKind.CONTROL],
            points=points,
            width=CUT_WIDTH,
            ref=cut.joint,
            in_view=True,
        )
    )
    start, end = view.to_paper(cut.start_point), view.to_paper(cut.end_point)
    if view.window_box.covers(ShapelyPoint(start)):
        _dot(board, start)
    if view.window_box.covers(ShapelyPoint(end)):
        _tick(board, end, points[-2])


def _dot(board: Board, at: Point) -> None:
    ring = circle(at, START_DOT).coordinates
    board.add(Fill(layer=Layer.SYMBOL, rings=(ring,)))


def _tick(board: Board, at: Point, before: Point) -> None:
    dx, dy = at[0] - before[0], at[1] - before[1]
    size = math.hypot(dx, dy) or 1.0
    nx, ny = -dy / size * END_TICK, dx / size * END_TICK
    tips = ((at[0] - nx, at[1] - ny), (at[0] + nx, at[1] + ny))
    board.add(Path(layer=Layer.SYMBOL, points=tips, width=0.5, in_plan=True))


def _number(maker: Labeller, cut: CutLine, line: LineString, height: float) -> None:
    """The cut's number in a circle beside its line, smaller where there is little room."""
    texts = (
        maker.text(Layer.TAG, f"{cut.number}", cut.joint, height=tall)
        for tall in (height, maker.height)
    )
    spots = chain.from_iterable(line_spots(line, text) for text in texts)
    spot = maker.found(f"cut {cut.number}", spots)
    if spot is None:
        return
    maker.write(spot)
    maker.board.add(ring_mark(spot))
