"""One plan on one sheet: the slab, its dimension strings, its tags and what stands under it."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point, circle
from kerfline.model.bars import Bars
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.arc_marks import label_arcs
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.callouts import call_out
from kerfline.sheets.choose import MATCH_ROOM, Choice, is_narrow, plan_area
from kerfline.sheets.grid_marks import draw_grid
from kerfline.sheets.lettering import fitted, text_width
from kerfline.sheets.marks import Anchor, Board, Bounds, Layer, Path, Text
from kerfline.sheets.paper import SMALLEST_TEXT, PaperSize, scale_words
from kerfline.sheets.placer import Placer
from kerfline.sheets.plan_labels import Labeller, LeftOut, hard_lines, label_bars, label_plan
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.stations import Station
from kerfline.sheets.string_places import draw_strings
from kerfline.sheets.strings import Shown, dimension_strings
from kerfline.sheets.symbols import check_bar, check_length, letter_mark, north_arrow, scale_bar
from kerfline.sheets.tie_marks import label_ties
from kerfline.sheets.ties import Ties
from kerfline.sheets.view import View
from kerfline.units import format_depth

NORTH_RADIUS = 5.0
UPPER_ROW = 8.0
"""Height in mm of the upper row over the lower one where the bars are stacked."""

ROW_OF_MATCH = 1.5
"""Distance of the names of match lines that stand one beyond the other, in heights of their text."""

NEARLY = 0.99
"""A title is fitted to a little less than its room, so that the last bit of a figure does not cut it off."""

SEPARATOR = ", "
"""Stands between what kind of plan it is, what it shows and which part."""

INSET = 4.0
STACKED_INSET = 1.5
"""Room in mm between the frame and the title of a view; less on small paper, where the check bar follows close."""

CORNER_RADIUS = 1.6
TITLE = 1.6
"""Height of the title under a view over that of other text, where there is room for it."""

EDGE_HAIR = 0.05
"""Slack in mm of paper with which a match line finds the slab."""

SLACK = 1.0
"""A station this near (mm) outside a part still belongs to it."""


@dataclass(frozen=True, kw_only=True)
class PlanView:
    """What one plan on one sheet is drawn from.

    Attributes:
        job: The slab.
        layout: Its joints and panels.
        findings: What the checks found.
        base: What offsets are measured from.
        view: Slab to paper.
        paper: The paper.
        along: Stations along the first baseline.
        across: Stations along the second baseline.
        part: Which part of the choice this is.
        choice: Paper, scale and parts.
        title: What stands under the view.
        region: The part of the slab that is shown; None for all of it.
        corner: Name of the corner that dimensions start from.
    """

    job: Job
    layout: Layout
    findings: Sequence[Finding]
    base: Baselines
    view: View
    paper: PaperSize
    along: Sequence[Station]
    across: Sequence[Station]
    part: int
    choice: Choice
    title: str = "Joint plan"
    region: shapely.Polygon | shapely.MultiPolygon | None = None
    corner: str = "A"

    @property
    def bounds(self) -> Bounds:
        """Where the shown part of the slab lies on the paper."""
        x0, y0, x1, y1 = self.choice.parts[self.part]
        left, bottom = self.view.at
        scale = self.view.scale
        return (left, bottom, left + (x1 - x0) / scale, bottom + (y1 - y0) / scale)


def draw_plan(board: Board, plan: PlanView, tied: Ties, laid: Sequence[Bars]) -> LeftOut:
    """Draws a joint plan with the ties of its slanting lines; returns the names of what found no room for its tag."""
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view, laid))
    _corner_flags(board, plan)
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    label_ties(maker, tied, plan.job.display)
    marked = plan.findings if plan.job.sheet.review else ()
    label_plan(maker, plan.job.slab, plan.layout, marked)
    label_bars(maker, laid)
    call_out(maker, plan.job, plan.layout, laid)
    label_arcs(maker, plan.job.slab, plan.base)
    board.take(strings)
    add_footer(board, plan)
    return maker.left_out


def labeller(board: Board, strings: Board, plan: PlanView) -> Labeller:
    """A labeller that keeps off everything drawn so far.

    Args:
        board: Where the slab is drawn and the tags go.
        strings: The dimension strings, drawn apart.
        plan: What is drawn.
    """
    hatched = [plan.view.shape(k.outline.polygon) for k in plan.job.slab.keep_outs]
    placer = Placer(
        label_frame(plan), hard_lines([*board, *strings]), hatched, plan_area(plan.paper)
    )
    placer.reserve_text(mark for mark in [*board, *strings] if isinstance(mark, Text))
    return Labeller(board, placer, plan.view, plan.paper.text, plan.job.display)


def label_frame(plan: PlanView) -> Bounds:
    """Tags may leave the slab by a little, but stay inside the dimension lines."""
    x0, y0, x1, y1 = plan.bounds
    rim = 8.0
    return (x0 - rim, y0 - rim, x1 + rim, y1 + rim)


def _corner_flags(board: Board, plan: PlanView) -> None:
    for corner in plan.job.slab.reentrant_corners:
        at = plan.view.to_paper(corner.at)
        if plan.view.window_box.covers(shapely.Point(at)):
            flag = circle(at, CORNER_RADIUS)
            board.add(
                Path(
                    layer=Layer.SYMBOL,
                    points=flag.points,
                    bulges=flag.bulges,
                    closed=True,
                    ref="re-entrant corner",
                    in_plan=True,
                )
            )


def add_dimensions(board: Board, plan: PlanView) -> None:
    """Draws the dimension strings of the shown part."""
    x0, y0, _x1, _y1 = plan.bounds
    left, bottom, right, top = plan_area(plan.paper)
    part = plan.choice.parts[plan.part]
    origin = plan.view.to_paper(plan.base.origin)
    scale = plan.view.scale
    slack = SLACK * scale
    along = [s for s in plan.along if part[0] - slack <= s.offset <= part[2] + slack]
    across = [s for s in plan.across if part[1] - slack <= s.offset <= part[3] + slack]
    shown = Shown(_shown_slab(plan), plan.bounds, origin, scale)
    display, height = plan.job.display, plan.paper.text
    strings = dimension_strings(shown, along, across)
    draw_strings(board, strings, shown, ((left, right), (bottom, top)), display, height)
    if plan.part == 0:
        letter_mark(board, (x0 - 5.0, y0 - 5.0), plan.corner, height)
    draw_grid(board, plan.job.slab, plan.base, shown, plan.choice, plan.part, height)
    _matches(board, plan)


def _shown_slab(plan: PlanView) -> shapely.Polygon | shapely.MultiPolygon:
    """The slab in the window, on the paper."""
    outline = plan.view.shape(plan.region or plan.job.slab.outline.polygon)
    return shapely.MultiPolygon(polygons_of(outline.intersection(shapely.box(*plan.bounds))))


def _matches(board: Board, plan: PlanView) -> None:
    """Match lines where the slab goes on, on another sheet."""
    parts = plan.choice.parts
    x0, y0, x1, y1 = parts[plan.part]
    left, foot = plan.view.at
    scale = plan.view.scale
    shown = _shown_slab(plan).buffer(EDGE_HAIR)
    for other, part in enumerate(parts):
        shared = shapely.box(x0, y0, x1, y1).intersection(shapely.box(*part))
        if other == plan.part or shared.length <= SLACK or shared.area > 0:
            continue
        a, b, c, d = shared.bounds
        border = shapely.LineString([(a, b), (c, d)])
        drawn = shapely.affinity.affine_transform(
            border, [1 / scale, 0, 0, 1 / scale, left - x0 / scale, foot - y0 / scale]
        )
        on = drawn.intersection(shown)
        if on.length > SLACK:
            a, b, c, d = on.bounds
            _match(board, (a, b), (c, d), other, plan)


def _match(board: Board, start: Point, end: Point, other: int, plan: PlanView) -> None:
    """A match line, drawn on beyond the dimensions to the name of the sheet where the slab goes on."""
    height = plan.paper.text
    upright = abs(start[0] - end[0]) < abs(start[1] - end[1])
    x0, y0, x1, y1 = plan.bounds
    far = end[0] > (x0 + x1) / 2 if upright else end[1] > (y0 + y1) / 2
    anchor = (
        Anchor.END if far else Anchor.START
    )  # toward the middle, clear of the other one at a corner
    reach = plan.choice.rims[3 if upright else 2] - MATCH_ROOM
    tip = (end[0], y1 + reach) if upright else (x1 + reach, end[1])
    words = f"MATCH LINE, SHEET {other + 1}"
    side = x1 - x0 if upright else y1 - y0
    off = 1.0  # two names that do not stand side by side stand one beyond the other
    if far and 2 * text_width(words, height) > side:
        off += ROW_OF_MATCH * height
    at = (tip[0], tip[1] + off) if upright else (tip[0] + off + height, tip[1])
    board.line(Layer.MATCH, start, tip)
    turn = 0.0 if upright else 90.0
    board.text(Layer.MATCH, at, words, height, anchor=anchor, turn=turn)


def add_footer(board: Board, plan: PlanView) -> None:
    """Draws the title of the view, its scale, the bars and the north arrow."""
    left, bottom, right, _ = plan.paper.frame
    height = plan.paper.text
    foot = bottom + 4.0
    stacked = is_narrow(plan.paper)
    title = plan.title
    titles = [title]
    if len(plan.choice.parts) > 1:
        number, count = plan.part + 1, len(plan.choice.parts)
        titles = [f"{title}, part {number} of {count}", f"{title}, {number}/{count}"]
    if SEPARATOR in titles[-1]:  # the title block says what kind of sheet it is
        titles.append(titles[-1].split(SEPARATOR, 1)[1])
    rise = UPPER_ROW if stacked else 1.7 * height
    thick = format_depth(plan.job.slab.thickness, plan.job.display)
    words = f"scale {scale_words(plan.view.scale, plan.job.display)}"
    if not stacked:  # on small paper the notes alone say it
        words = f"{words}, slab {thick} thick"
    inset = STACKED_INSET if stacked else INSET
    board.text(Layer.NOTE, (left + inset, foot), words, height)
    arrow = (right - plan.paper.column - 3.0 - NORTH_RADIUS - height, foot + 3.0)
    north_arrow(board, arrow, plan.job.sheet.north + plan.view.turn, NORTH_RADIUS, height)
    end = arrow[0] - NORTH_RADIUS - 2 * height - 4.0
    bars = _bars(board, plan, (end, foot), stacked=stacked)
    _view_title(board, titles, (left + inset, foot + rise), bars - left - 2 * inset, height)


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
