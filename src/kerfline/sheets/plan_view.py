"""One plan on one sheet: the slab, its dimension strings, its tags and what stands under it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import shapely

from kerfline.geometry.faces import points_of, polygons_of
from kerfline.geometry.ring import circle
from kerfline.model.bars import Bars
from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.arc_marks import label_curves
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.callouts import call_out
from kerfline.sheets.curves import curves
from kerfline.sheets.details import Shown as Detailed
from kerfline.sheets.grid_marks import draw_grid
from kerfline.sheets.marks import Board, Bounds, Layer, Path, Text
from kerfline.sheets.match_lines import SLACK, draw_match_lines
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.parts import Choice
from kerfline.sheets.placer import Placer
from kerfline.sheets.plan_labels import (
    Labeller,
    LeftOut,
    hard_lines,
    label_bars,
    label_from_edge,
    label_plan,
)
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.redrawn import Redrawn
from kerfline.sheets.stations import Station
from kerfline.sheets.string_places import draw_strings
from kerfline.sheets.strings import Shown, dimension_strings
from kerfline.sheets.symbols import letter_mark
from kerfline.sheets.tie_marks import label_ties
from kerfline.sheets.ties import Ties
from kerfline.sheets.view import View

RIM = 0.35
"""Width in mm of the line around what is drawn larger."""

CORNER_RADIUS = 1.6


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
        again: Parts that are drawn again, each with the number of its sheet.
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
    again: Sequence[tuple[Redrawn, int]] = ()

    @property
    def bounds(self) -> Bounds:
        """Where the shown part of the slab lies on the paper."""
        x0, y0, x1, y1 = self.choice.parts[self.part]
        left, bottom = self.view.at
        scale = self.view.scale
        return (left, bottom, left + (x1 - x0) / scale, bottom + (y1 - y0) / scale)

    @property
    def shows_larger(self) -> bool:
        """Whether something that is drawn larger on another sheet lies in it."""
        return any(not part.turned and self.shown_of(part) for part, _ in self.again)

    def shown_of(self, part: Redrawn) -> list[shapely.Polygon]:
        """What lies in the view of a part that is drawn again, on the paper."""
        return polygons_of(self.view.clipped(part.region)) if self.view.sees(part.region) else []


def draw_plan(
    board: Board, plan: PlanView, tied: Ties, laid: Sequence[Bars], numbers: Mapping[Detailed, int]
) -> LeftOut:
    """Draws a joint plan; returns the names of what found no room for its tag.

    Args:
        board: Where it goes.
        plan: What is drawn.
        tied: Ties of its slanting lines.
        laid: Bars at corners and tees.
        numbers: The details that are called out, with their numbers.
    """
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view, laid))
    _corner_flags(board, plan)
    strings = Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    label_ties(maker, tied, plan.job.display)
    marked = plan.findings if plan.job.sheet.review else ()
    label_plan(maker, plan.job.slab, plan.layout, marked)
    label_redrawn(maker, plan)
    label_bars(maker, laid)
    call_out(maker, plan.job, numbers, plan.layout, laid)
    lines = [(joint.id, joint.path) for joint in plan.layout.joints]
    label_curves(maker, curves(plan.job.slab, plan.base), lines, plan.base)
    board.take(strings)
    return maker.left_out


def labeller(board: Board, strings: Board, plan: PlanView) -> Labeller:
    """A labeller that keeps off everything drawn so far, and off the rims of parts drawn larger, which it draws.

    Args:
        board: Where the slab is drawn and the tags go.
        strings: The dimension strings, drawn apart.
        plan: What is drawn.
    """
    board.add(*_rims_of_larger(plan))
    hatched = [plan.view.shape(k.outline.polygon) for k in plan.job.slab.keep_outs]
    placer = Placer(label_frame(plan), hard_lines([*board, *strings]), hatched, plan.view.room)
    placer.reserve_text(mark for mark in [*board, *strings] if isinstance(mark, Text))
    return Labeller(board, placer, plan.view, plan.paper.text, plan.job.display)


def _rims_of_larger(plan: PlanView) -> list[Path]:
    """What bounds each part that is drawn larger on a sheet of its own."""
    return [
        Path(
            layer=Layer.MATCH, points=points_of(area.exterior)[:-1], closed=True, width=RIM,
            ref=part.id, in_plan=True,
        )
        for part, _ in plan.again
        if not part.turned
        for area in plan.shown_of(part)
    ]  # fmt: skip


def label_redrawn(maker: Labeller, plan: PlanView) -> None:
    """Says of each part that is drawn again on which sheet."""
    for part, sheet in plan.again:
        words = f"{part.name}: sheet {sheet}"
        label_from_edge(maker, plan.shown_of(part), words, f"sheet {sheet}")


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
    left, bottom, right, top = plan.view.room
    part = plan.choice.parts[plan.part]
    origin = plan.view.to_paper(plan.base.origin)
    scale = plan.view.scale
    slack = SLACK * scale
    along = [s for s in plan.along if part[0] - slack <= s.offset <= part[2] + slack]
    across = [s for s in plan.across if part[1] - slack <= s.offset <= part[3] + slack]
    beyond = plan.choice.cells[plan.part] != part
    shown = Shown(
        slab=_shown_slab(plan), bounds=plan.bounds, origin=origin, scale=scale,
        own=plan.view.own if beyond else None,
        overall=not (beyond or plan.choice.is_stacked),  # a part's own length is no length of the slab
    )  # fmt: skip
    display, height = plan.job.display, plan.paper.text
    strings = dimension_strings(shown, along, across)
    draw_strings(board, strings, shown, ((left, right), (bottom, top)), display, height)
    if plan.part == 0 and plan.corner:
        letter_mark(board, (x0 - 5.0, y0 - 5.0), plan.corner, height)
    draw_grid(board, plan.job.slab, plan.base, shown, plan.choice, plan.part, height)
    draw_match_lines(board, shown, plan.choice, plan.part, plan.view.room, height)


def _shown_slab(plan: PlanView) -> shapely.Polygon | shapely.MultiPolygon:
    """The slab in the window, on the paper."""
    outline = plan.view.shape(plan.region or plan.job.slab.outline.polygon)
    return shapely.MultiPolygon(polygons_of(outline.intersection(shapely.box(*plan.bounds))))
