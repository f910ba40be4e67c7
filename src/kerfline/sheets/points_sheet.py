"""The points sheet: every point that is set out, named on the plan and listed with its place on site."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain

import shapely

from kerfline.geometry.ring import Point, circle
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.site import Site
from kerfline.placement.survey_points import SurveyPoint
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.blocks import Block
from kerfline.sheets.marks import Board, Layer, Path, Sheet
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import LeftOut
from kerfline.sheets.plan_marks import slab_marks
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.plan_view import PlanView, label_redrawn, labeller
from kerfline.sheets.prose import Prose
from kerfline.sheets.sheet_frame import column_width
from kerfline.sheets.spots import around, close_by
from kerfline.sheets.table import Column, Table
from kerfline.units import SiteUnit, format_depth

DOT = 0.7
"""Radius of a point's mark on paper, mm."""

SHOWN = 3
"""Decimals of a coordinate in the table; the files have more."""

UNITS = {SiteUnit.M: "metres", SiteUnit.FT: "feet", SiteUnit.SURVEY_FT: "US survey feet"}


def points_sheet(
    job: Job, layout: Layout, site: Site, points: Sequence[SurveyPoint]
) -> tuple[Sheet, ...]:
    """Draws the points that are set out.

    Args:
        job: The slab and what the sheets should say.
        layout: Its joints.
        site: How the plan lies on the ground.
        points: The points.
    """

    def draw(board: Board, plan: PlanView) -> LeftOut:
        return _draw(board, plan, points)

    def blocks(size: PaperSize, base: Baselines) -> list[Block]:
        del base
        text, width = size.small, column_width(size)
        return [
            _control_table(job, site, text),
            Prose("Before setting out", _before(job, site), text, width),
            _points_table(site, points, text),
        ]

    job = replace(job, sheet=replace(job.sheet, north=site.north))
    kind = Kind(name="points-sheet", title="Points sheet", rank=-1)
    return plan_sheets(job, layout, (), kind, draw=draw, write=blocks)


def _draw(board: Board, plan: PlanView, points: Sequence[SurveyPoint]) -> LeftOut:
    board.add(*slab_marks(plan.job.slab, plan.layout, plan.view))
    window = plan.view.window_box
    placed = [(p, plan.view.to_paper(p.at)) for p in points]
    shown = [(p, at) for p, at in placed if window.covers(shapely.Point(at))]
    dots = Board()
    for _, at in shown:
        ring = circle(at, DOT)
        dots.add(
            Path(
                layer=Layer.SYMBOL,
                points=ring.points,
                bulges=ring.bulges,
                closed=True,
                in_plan=True,
            )
        )
    maker = labeller(board, dots, plan)
    for names, at in _together(shown):
        text = maker.text(Layer.TAG, names, names)
        maker.put(names, chain(close_by(at, DOT + 0.4, text), around(at, text)))
    label_redrawn(maker, plan)
    board.add(*dots)
    return maker.left_out


def _together(shown: Sequence[tuple[SurveyPoint, Point]]) -> list[tuple[str, Point]]:
    """Points in one place under one label."""
    found: dict[tuple[float, float], tuple[list[str], Point]] = {}
    for point, at in shown:
        key = (round(at[0], 1), round(at[1], 1))
        found.setdefault(key, ([], at))[0].append(point.name)
    return [(", ".join(names), at) for names, at in found.values()]


def _points_table(site: Site, points: Sequence[SurveyPoint], text: float) -> Table:
    rows = []
    for point in points:
        easting, northing = site.similarity.to_site(point.at)
        rows.append((point.name, *_pair(site, easting, northing), point.what))
    return Table(
        heading=f"Points, {UNITS[site.unit]}",
        columns=(Column("point"), *_heads(site), Column("what", widest=60.0)),
        rows=tuple(rows),
        text=text,
    )


def _control_table(job: Job, site: Site, text: float) -> Table:
    assert site.fit is not None
    rows = [
        (
            control.name,
            *_pair(site, control.easting, control.northing),
            "" if control.height is None else _shown(control.height, site),
            format_depth((e * e + n * n) ** 0.5, job.display),
        )
        for control, (e, n) in zip(site.control, site.fit.residuals, strict=True)
    ]
    return Table(
        heading=f"Control points, {UNITS[site.unit]}",
        columns=(
            Column("point"),
            *_heads(site),
            Column("height", right=True),
            Column("off plan", right=True),
        ),
        rows=tuple(rows),
        text=text,
    )


def _heads(site: Site) -> tuple[Column, Column]:
    heads = (Column("northing", right=True), Column("easting", right=True))
    return (heads[1], heads[0]) if site.easting_first else heads


def _pair(site: Site, easting: float, northing: float) -> tuple[str, str]:
    pair = (_shown(northing, site), _shown(easting, site))
    return (pair[1], pair[0]) if site.easting_first else pair


def _shown(mm: float, site: Site) -> str:
    return f"{round(mm / site.unit.mm, SHOWN) + 0.0:.{SHOWN}f}"


def _before(job: Job, site: Site) -> tuple[str, ...]:
    """What whoever sets out should do first."""
    scale = site.similarity.scale
    held = "found from the points" if site.scale is None else "held"
    level = (
        "The job gives no level of the slab: heights are left blank."
        if site.level is None
        else f"The slab's surface lies at {_shown(site.level, site)}."
    )
    off, allowed = (
        format_depth(mm, job.display) for mm in (site.fit.largest if site.fit else 0.0, site.limit)
    )
    return (
        (
            "Occupy one control point, sight a second and check a third, or measure the distance between "
            "two, before anything is set out (common practice)."
        ),
        (
            f"The scale from plan to site is {scale:.6f}, {held}. The control misses the plan by {off} at "
            f"most; {allowed} is allowed."
        ),
        level,
        "North on this sheet is that of the site's grid.",
        (
            "Check one diagonal of the slab by tape, and mark no cut over buried services that have not been "
            "found."
        ),
    )
