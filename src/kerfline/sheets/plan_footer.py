"""What stands under the plan on a sheet: its title and scale, the bars to measure by and the north arrow."""

from collections.abc import Sequence

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import fitted, text_width
from kerfline.sheets.marks import Board, Layer
from kerfline.sheets.paper import SMALLEST_TEXT, scale_words
from kerfline.sheets.parts import is_narrow
from kerfline.sheets.plan_view import PlanView
from kerfline.sheets.running import level_text
from kerfline.sheets.symbols import check_bar, check_length, north_arrow, scale_bar
from kerfline.units import format_depth

NORTH_RADIUS = 5.0
UPPER_ROW = 8.0
"""Height in mm of the upper row over the lower one where the bars are stacked."""


NEARLY = 0.99
"""A title is fitted to a little less than its room, so that the last bit of a figure does not cut it off."""

SEPARATOR = ", "
"""Stands between what kind of plan it is, what it shows and which part."""

INSET = 4.0
STACKED_INSET = 1.5
"""Room in mm between the frame and the title of a view; less on small paper, where the check bar follows close."""

TITLE = 1.6
"""Height of the title under a view over that of other text, where there is room for it."""


def add_footer(board: Board, plan: PlanView) -> None:
    """Draws the title of the plan on one sheet, its scale, the bars and the north arrow.

    Args:
        board: Where they go.
        plan: The first part on the sheet.
    """
    left, bottom, right, _ = plan.paper.frame
    height = plan.paper.text
    foot = bottom + 4.0
    stacked = is_narrow(plan.paper)
    title = plan.title
    titles = _titles(title, plan)
    if SEPARATOR in titles[-1]:  # the title block says what kind of sheet it is
        titles.append(titles[-1].split(SEPARATOR, 1)[1])
    rise = UPPER_ROW if stacked else 1.7 * height
    thick = format_depth(plan.job.slab.thickness, plan.job.display)
    words = f"scale {scale_words(plan.view.scale, plan.job.display)}"
    if not stacked:  # on small paper the notes alone say it
        words = f"{words}, slab {thick} thick"
        if plan.job.level is not None:
            words = f"{words}, top of slab {level_text(plan.job.level, plan.job.display)}"
    inset = STACKED_INSET if stacked else INSET
    board.text(Layer.NOTE, (left + inset, foot), words, height)
    arrow = (right - plan.paper.column - 3.0 - NORTH_RADIUS - height, foot + 3.0)
    north_arrow(board, arrow, plan.job.sheet.north + plan.view.turn, NORTH_RADIUS, height)
    end = arrow[0] - NORTH_RADIUS - 2 * height - 4.0
    bars = _bars(board, plan, (end, foot), stacked=stacked)
    _view_title(board, titles, (left + inset, foot + rise), bars - left - 2 * inset, height)


def _titles(title: str, plan: PlanView) -> list[str]:
    """The title with the parts that the sheet shows, the full wording first."""
    count, parts = len(plan.choice.parts), plan.choice.on_sheet_of(plan.part)
    if count == 1:
        return [title]
    first, last = parts[0] + 1, parts[-1] + 1
    if first == last:
        return [f"{title}, part {first} of {count}", f"{title}, {first}/{count}"]
    return [f"{title}, parts {first} to {last} of {count}", f"{title}, {first}-{last}/{count}"]


def _view_title(board: Board, titles: Sequence[str], at: Point, room: float, height: float) -> None:
    """The title of the view, as large as the room before the bars lets it be: the first wording that fits."""
    title = next((t for t in titles if text_width(t, height) <= room), titles[-1])
    share = NEARLY * room / text_width(title, height)
    size = height * max(1.0, min(TITLE, share))
    board.text(Layer.NOTE, at, fitted(title, size, room), size)


def _bars(board: Board, plan: PlanView, end: Point, *, stacked: bool) -> float:
    """The check bar with its right end at a point, the scale bar beside it or over it; where they begin."""
    display, height = plan.job.display, max(0.9 * plan.paper.text, SMALLEST_TEXT)
    x, foot = end
    check = x - check_length(display)
    check_bar(board, (check, foot + 1.0), display, height)
    length = scale_bar(Board(), (0.0, 0.0), plan.view.scale, display, height)
    at = (x - length, foot + UPPER_ROW) if stacked else (check - 12.0 - length, foot + 0.2)
    scale_bar(board, at, plan.view.scale, display, height)
    return at[0] - text_width("0", height)
