"""The panel sheet: the panels alone with their sizes inside, for finishers and for the record."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

import shapely
from shapely import Polygon

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout, Panel
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.legend import legend
from kerfline.sheets.lettering import LINE_PITCH
from kerfline.sheets.marks import Board, Layer, Sheet, Text
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.placer import Spot
from kerfline.sheets.plan_labels import PANEL_TEXT, Labeller, belongs
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.plan_sheets import Kind, plan_sheets
from kerfline.sheets.plan_tables import panel_table, totals_block
from kerfline.sheets.plan_view import PlanView, add_dimensions, add_footer, labeller
from kerfline.sheets.running import dimension_text
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.spots import around, heart, inside
from kerfline.units import format_area


def panel_sheet(
    job: Job, layout: Layout, findings: Sequence[Finding], rules: SlabRules
) -> tuple[Sheet, ...]:
    """Draws the panels with number, length x width and area inside each.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints and panels.
        findings: What the checks found, for the table.
        rules: The rules that the layout was made by.
    """

    def blocks(size: PaperSize, base: Baselines) -> list[Block]:
        del base
        text, width = size.small, column_width(size)
        return [
            totals_block(job, layout, text, width),
            panel_table(job, layout, findings, rules, text),
            legend(job.slab, layout, text, width, flags=False, bars=False),
        ]

    kind = Kind(name="panel-sheet", title="Panel sheet")
    return plan_sheets(job, layout, findings, kind, draw=_draw, write=blocks)


def _draw(board: Board, plan: PlanView) -> list[str]:
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view, bars=False))
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    for panel in plan.layout.panels:
        if plan.view.sees(panel.polygon) and belongs(plan.view, panel.polygon):
            _label(maker, panel, plan)
    board.add(*strings)
    add_footer(board, plan)
    return maker.left_out


def _label(maker: Labeller, panel: Panel, plan: PlanView) -> None:
    shown = polygons_of(maker.view.clipped(panel.polygon))
    if not shown:
        return
    area = max(shown, key=lambda p: p.area)
    display = plan.job.display
    number = maker.text(Layer.PANEL, panel.id, panel.id, height=PANEL_TEXT * maker.height)
    sides = f"{dimension_text(panel.length, display)} x {dimension_text(panel.width, display)}"
    size = maker.text(Layer.PANEL, sides, panel.id)
    extent = maker.text(Layer.PANEL, format_area(panel.area, display), panel.id)
    short = replace(number, height=maker.height)
    maker.put(
        panel.id,
        chain(
            stacked(area, (number, size, extent)),
            stacked(area, (number, size)),
            stacked(area, (number, size, extent), upright=True),
            stacked(area, (number, size), upright=True),
            inside(area, short),
            around(heart(area), short),
        ),
    )


SHIFTS = ((0, 0), (0, 1), (0, -1), (1, 0), (-1, 0), (1, 1), (-1, 1), (1, -1), (-1, -1))
"""Where a stack of lines may stand: steps of a sixth of the panel's sides from its heart."""

STEP = 6.0


def stacked(area: Polygon, lines: Sequence[Text], *, upright: bool = False) -> Iterator[Spot]:
    """Places inside an area for lines of text one under the other."""
    x0, y0, x1, y1 = area.bounds
    cx, cy = heart(area)
    shapely.prepare(area)
    for i, j in SHIFTS:
        at = (cx + i * (x1 - x0) / STEP, cy + j * (y1 - y0) / STEP)
        spot = _stack(at, lines, upright=upright)
        if area.covers(spot.box.shape):
            yield spot


def _stack(at: Point, lines: Sequence[Text], *, upright: bool) -> Spot:
    tall = sum(line.height for line in lines) + (LINE_PITCH - 1) * sum(
        line.height for line in lines[1:]
    )
    placed, down = [], tall / 2
    for i, line in enumerate(lines):
        down -= line.height if i == 0 else LINE_PITCH * line.height
        foot = (at[0] - down, at[1]) if upright else (at[0], at[1] + down)
        placed.append(replace(line, at=foot, turn=90.0 if upright else 0.0))
    return Spot(placed[0], more=tuple(placed[1:]))
