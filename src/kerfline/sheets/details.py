"""The details of a set: which ones the layout asks for, their numbers, and each as a figure to scale."""

from collections.abc import Callable, Sequence
from enum import StrEnum

from kerfline.geometry.ring import Point
from kerfline.model.bars import BarPlace, Bars, bars
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import Edge, EdgeKind, JointKind, Wall
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.blocks import Figure, draw_heading, heading_height
from kerfline.sheets.detail_marks import Detail
from kerfline.sheets.lettering import wrap
from kerfline.sheets.marks import Board, Layer
from kerfline.sheets.paper import scale_words
from kerfline.sheets.plan_details import boxout_detail, corner_detail, tee_detail
from kerfline.sheets.section_details import (
    construction_detail,
    control_detail,
    edge_detail,
    isolation_detail,
    strip_detail,
)
from kerfline.units import Display

WIDTH = 64.0
"""Width of a detail, mm."""

NOTE_ROOM = 2.0


class Shown(StrEnum):
    """What a detail shows."""

    CONTROL = "control"
    CONSTRUCTION = "construction"
    ISOLATION = "isolation"
    COLUMN = "column"
    CORNER = "corner"
    TEE = "tee"
    EDGE = "edge"
    STRIP = "strip"


def detail_numbers(
    job: Job, layout: Layout, steel: Sequence[Bars] | None = None
) -> dict[Shown, int]:
    """The number of each detail that the layout asks for, from 1.

    Args:
        job: The slab, and what it says of bars.
        layout: Its joints.
        steel: The bars at corners and tees, where they are known already.
    """
    slab = job.slab
    kinds = {j.kind for j in layout.joints}
    edges = {e.kind for e in slab.edges}
    boxed = any(c.outline for c in slab.columns)
    laid = {b.place for b in (bars(slab, layout, job.steel) if steel is None else steel)}
    wanted = {
        Shown.CONTROL: JointKind.CONTROL in kinds,
        Shown.CONSTRUCTION: JointKind.CONSTRUCTION in kinds or EdgeKind.CONSTRUCTION in edges,
        Shown.ISOLATION: JointKind.ISOLATION in kinds or EdgeKind.ISOLATED in edges or boxed,
        Shown.COLUMN: boxed,
        Shown.CORNER: BarPlace.CORNER in laid,
        Shown.TEE: BarPlace.TEE in laid,
        Shown.EDGE: turned_edge(job) is not None,
        Shown.STRIP: thick_wall(job) is not None,
    }
    return {shown: n for n, shown in enumerate((s for s, yes in wanted.items() if yes), 1)}


def turned_edge(job: Job) -> Edge | None:
    """The first turned-down edge whose sizes are known."""
    turned = (e for e in job.slab.edges if e.kind is EdgeKind.TURNDOWN)
    return next((e for e in turned if e.width and e.depth), None)


def thick_wall(job: Job) -> Wall | None:
    """The first wall on a thickened strip whose sizes are known."""
    return next((w for w in job.slab.walls if w.strip_width and w.strip_depth), None)


def details(job: Job, layout: Layout, rules: SlabRules, text: float) -> list[Figure]:
    """The details of what the layout holds, numbered, each to scale."""
    boxed = [c for c in job.slab.columns if c.outline]
    dowels = next((j.dowels for j in layout.joints if j.dowels), None)
    edge, wall = turned_edge(job), thick_wall(job)
    drawn: dict[Shown, Callable[[], Detail]] = {
        Shown.CONTROL: lambda: control_detail(job, rules),
        Shown.CONSTRUCTION: lambda: construction_detail(job, dowels),
        Shown.ISOLATION: lambda: isolation_detail(job),
        Shown.COLUMN: lambda: boxout_detail(job, boxed[0]),
        Shown.CORNER: lambda: corner_detail(job),
        Shown.TEE: lambda: tee_detail(job),
        **({Shown.EDGE: lambda: edge_detail(job, edge)} if edge else {}),
        **({Shown.STRIP: lambda: strip_detail(job, wall)} if wall else {}),
    }
    numbers = detail_numbers(job, layout)
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
