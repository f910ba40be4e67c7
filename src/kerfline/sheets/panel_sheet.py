"""The panel sheet: the panels alone with their sizes inside, for finishers and for the record."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

from kerfline.geometry.faces import polygons_of
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
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import Labeller, LeftOut, belongs
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.plan_tables import panel_table, totals_block
from kerfline.sheets.plan_view import PlanView, add_dimensions, label_redrawn, labeller
from kerfline.sheets.running import dimension_text
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.spots import Room, around, inside
from kerfline.units import Display, format_area


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
            panel_table(job, layout, findings if job.sheet.review else None, rules, text),
            legend(job, layout, text, width, flags=False),
        ]

    kind = Kind(name="panel-sheet", title="Panel sheet")
    return plan_sheets(job, layout, findings, kind, draw=_draw, write=blocks)


def _draw(board: Board, plan: PlanView) -> LeftOut:
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view))
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    for panel, shown in plan.view.among(plan.layout.panels, lambda p: p.polygon):
        parts = polygons_of(shown)
        if parts and belongs(plan.view, panel.polygon):
            _label(maker, panel, Room(max(parts, key=lambda p: p.area)), plan.job.display)
    label_redrawn(maker, plan)
    board.take(strings)
    return maker.left_out


def _label(maker: Labeller, panel: Panel, room: Room, display: Display) -> None:
    number = maker.text(Layer.PANEL, panel.id, panel.id, height=PANEL_TEXT * maker.height)
    long, wide = (dimension_text(side, display) for side in (panel.length, panel.width))
    size = maker.text(Layer.PANEL, f"{long} x {wide}", panel.id)
    broken = [maker.text(Layer.PANEL, words, panel.id) for words in (f"{long} x", wide)]
    extent = maker.text(Layer.PANEL, format_area(panel.area, display), panel.id)
    short = replace(number, height=maker.height)
    maker.put(
        panel.id,
        chain(
            stacked(room, (number, size, extent)),
            stacked(room, (number, size)),
            stacked(room, (number, size, extent), upright=True),
            stacked(room, (number, size), upright=True),
            stacked(room, (short, *broken)),
            stacked(room, (short, *broken), upright=True),
            inside(room, short),
            around(room.heart, short),
        ),
    )


PANEL_TEXT = 1.35
"""Height of a panel's number over that of its size."""

STEP = 1 / 6

SHIFTS = (
    (0.0, 0.0), (0.0, STEP), (0.0, -STEP), (STEP, 0.0), (-STEP, 0.0),
    (STEP, STEP), (-STEP, STEP), (STEP, -STEP), (-STEP, -STEP),
)  # fmt: skip
"""Where a stack of lines may stand: shares of the panel's sides from its heart."""


def stacked(room: Room, lines: Sequence[Text], *, upright: bool = False) -> Iterator[Spot]:
    """Places inside an area for lines of text one under the other."""
    stack = _stack(lines, upright=upright)
    left, low, right, high = stack.box.bounds
    if right - left > room.sides[0] or high - low > room.sides[1]:
        return
    for shift in SHIFTS:
        x, y = room.at(*shift)
        if room.holds((x + left, y + low, x + right, y + high)):
            yield stack.moved((x, y))


def _stack(lines: Sequence[Text], *, upright: bool) -> Spot:
    """Lines one under the other with their middle at the origin."""
    tall = sum(line.height for line in lines) + (LINE_PITCH - 1) * sum(
        line.height for line in lines[1:]
    )
    placed, down = [], tall / 2
    for i, line in enumerate(lines):
        down -= line.height if i == 0 else LINE_PITCH * line.height
        foot = (-down, 0.0) if upright else (0.0, down)
        placed.append(line.moved(foot, turn=90.0 if upright else 0.0))
    return Spot(placed[0], more=tuple(placed[1:]))
