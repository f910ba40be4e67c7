"""The day sheet: map, time line, order and cautions on one sheet, tables on those that follow."""

import shapely
from shapely import affinity

from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.choose import slab_extent
from kerfline.sheets.day.day_plan import DayPlan
from kerfline.sheets.day.pour_map import draw_map
from kerfline.sheets.day.tables import (
    assumption_table,
    choice_table,
    cut_table,
    cutting_notes,
    finishing_notes,
    hold_notes,
    mind_today,
    order_blocks,
    prose_blocks,
    standing,
    take_off_table,
    truck_tables,
    weather_notes,
    yield_table,
)
from kerfline.sheets.day.time_line import TimeLine
from kerfline.sheets.day.time_rows import time_lines
from kerfline.sheets.flow import Region, fill
from kerfline.sheets.lettering import LINE_PITCH, wrap
from kerfline.sheets.marks import Board, Layer, Sheet
from kerfline.sheets.paper import AUTOMATIC, SCALES, PaperSize, paper, scale_words
from kerfline.sheets.sheet_frame import (
    INSET,
    SheetSet,
    column_region,
    column_width,
    text_sheets,
)
from kerfline.sheets.view import View

MAP_TITLE = 14.0
"""Room under the map for its title, mm."""

TITLE_TEXT = 2.4
"""Capital height of that title, mm."""

MOST_NAMED = 6
"""Lines left out of the map that are named one by one."""

RIM = 4.0
"""Room around the map, mm."""

MOST_FOR_CLOCK = 0.5
"""Share of the sheet's height that the first day's time line may take; a longer one follows."""


def day_sheets(job: Job, layout: Layout, plan: DayPlan) -> tuple[Sheet, ...]:
    """Draws the placement day.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints and panels.
        plan: The day, worked out.

    Returns:
        The sheets: the map over the first day's time line with the order beside them, then what
        found no room.
    """
    size = paper(job.sheet.size or AUTOMATIC[job.display][0])
    drawn = SheetSet(job=job, paper=size, name="day-sheet", title="Placement day")
    lines: list[TimeLine] = time_lines(plan.placement, size.small, job.display)
    left, bottom, right, top = size.frame
    main = Region(left + INSET, bottom + INSET, right - size.column - INSET, top - INSET)
    width = main.right - main.left
    own = lines[0].height(width) if lines else 0.0
    beside = bool(lines) and own <= MOST_FOR_CLOCK * (main.top - main.bottom)
    floor = main.bottom + (own + INSET if beside else 0.0)
    view = map_view(job, (main.left + RIM, floor + MAP_TITLE, main.right - RIM, main.top - RIM))
    board = drawn.new([view])
    left_out = draw_map(board, job, layout, plan.placement, view, size.small)
    _map_title(board, job, view, (main.left, floor + 2.0), width, left_out)
    if beside:
        lines[0].draw(board, (main.left, main.bottom + own), width)
    waiting: list[Block] = [*lines[1 if beside else 0 :], *_tables(plan, job, size)]
    rest = fill(board, column_region(size), _beside(plan, job, size))
    text_sheets(drawn, [*rest, *waiting])
    return drawn.finished()


def _beside(plan: DayPlan, job: Job, size: PaperSize) -> list[Block]:
    """What stands in the column of the first sheet."""
    width, text, display = column_width(size), size.small, job.display
    first, *later = [t.within(width) for t in truck_tables(plan, display, text)]
    order, *placements = order_blocks(plan, display, text, width)
    return [
        order,
        mind_today(plan, text, width),
        first,
        *placements,
        finishing_notes(plan, text, width),
        hold_notes(plan, display, text, width),
        cutting_notes(plan, text, width),
        *later,
        weather_notes(plan, display, text, width),
        standing(plan, text, width),
        *prose_blocks(plan, text, width),
    ]


def _tables(plan: DayPlan, job: Job, size: PaperSize) -> list[Block]:
    tables = (
        cut_table(plan, job.display, size.small),
        yield_table(plan, job.display, size.small),
        choice_table(plan, job.display, size.small),
        take_off_table(plan, size.small),
        assumption_table(plan, size.small),
    )
    return [table for table in tables if table.rows]


def _map_title(
    board: Board, job: Job, view: View, corner: Point, width: float, left_out: list[str]
) -> None:
    """What the map shows, under it; the foot of the last line at the corner."""
    words = (
        "Placements in order, arrows the way the concrete goes; boxed numbers: order of cutting; "
        f"scale {scale_words(view.scale, job.display)}"
    )
    if len(left_out) > MOST_NAMED:
        words += f"; no room for the numbers of {len(left_out)} lines, see the table"
    elif left_out:
        words += f"; no room for the numbers of {', '.join(left_out)}"
    lines = wrap(words, TITLE_TEXT, width)
    for number, line in enumerate(lines, 1):
        at = (corner[0], corner[1] + (len(lines) - number) * LINE_PITCH * TITLE_TEXT)
        board.text(Layer.NOTE, at, line, TITLE_TEXT)


def map_view(job: Job, region: tuple[float, float, float, float]) -> View:
    """The largest scale at which the slab fits a part of the paper, in its middle."""
    base: Baselines = baselines(job.slab)
    x0, y0, x1, y1 = slab_extent(job, base)
    left, bottom, right, top = region
    scales = SCALES[job.display]
    scale = next(
        (s for s in scales if (x1 - x0) / s <= right - left and (y1 - y0) / s <= top - bottom),
        scales[-1],
    )
    width, height = (x1 - x0) / scale, (y1 - y0) / scale
    at = ((left + right - width) / 2, (bottom + top - height) / 2)
    corner = affinity.rotate(shapely.Point(x0, y0), base.turn, origin=(0, 0))
    window = (at[0] - RIM, at[1] - RIM, at[0] + width + RIM, at[1] + height + RIM)
    return View(
        scale=scale,
        turn=-base.turn,
        world=(base.origin[0] + float(corner.x), base.origin[1] + float(corner.y)),
        at=at,
        window=window,
        own=window,
        room=region,
    )
