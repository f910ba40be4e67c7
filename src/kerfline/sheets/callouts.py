"""Calls out each detail on the plan where it applies: its number in a circle, with a leader."""

from collections.abc import Iterator, Mapping, Sequence

import shapely
from shapely import LineString

from kerfline.geometry.ring import Point
from kerfline.model.bars import BarPlace, Bars
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import EdgeKind, JointKind, Slab
from kerfline.sheets.details import Shown
from kerfline.sheets.marks import Layer
from kerfline.sheets.numbered import ring_mark, ringed
from kerfline.sheets.plan_labels import Labeller
from kerfline.sheets.plan_marks import edge_line
from kerfline.sheets.spots import around, longest_line

SHARES = (0.3, 0.7, 0.15, 0.85, 0.5)
"""Where along a line a detail is called out, best first: off its middle, where the tag stands."""

DETAIL = "detail"
"""What the numbers of details are marked with, for whoever looks for them."""


def call_out(
    maker: Labeller, job: Job, numbers: Mapping[Shown, int], layout: Layout, laid: Sequence[Bars]
) -> None:
    """Puts the number of each detail at the first place of its kind that has room for it.

    The legend gives the numbers as well, so that one without room is no loss.
    """
    for shown, number in numbers.items():
        text = maker.text(Layer.SYMBOL, f"{number}", f"{DETAIL} {number}")
        for at in _places(maker, shown, job, layout, laid):
            if not maker.view.window_box.covers(shapely.Point(at)):
                continue
            spot = maker.placer.place(
                ringed(spot, text_radius(text.height)) for spot in around(at, text)
            )
            if spot:
                maker.write(spot)
                maker.board.add(ring_mark(spot))
                break


def text_radius(height: float) -> float:
    """Radius of the circle around a number, mm."""
    return 1.0 * height


KINDS = {
    Shown.CONTROL: JointKind.CONTROL,
    Shown.CONSTRUCTION: JointKind.CONSTRUCTION,
    Shown.ISOLATION: JointKind.ISOLATION,
}
EDGES = {
    Shown.CONSTRUCTION: EdgeKind.CONSTRUCTION,
    Shown.ISOLATION: EdgeKind.ISOLATED,
    Shown.EDGE: EdgeKind.TURNDOWN,
}
BARS = {Shown.CORNER: BarPlace.CORNER, Shown.TEE: BarPlace.TEE}


def _places(
    maker: Labeller, shown: Shown, job: Job, layout: Layout, laid: Sequence[Bars]
) -> Iterator[Point]:
    """Where a detail applies, on the paper, best first."""
    for _, seen in maker.view.among(_lines(shown, job.slab, layout), lambda line: line):
        part = longest_line(seen)
        if part is not None:
            for share in SHARES:
                spot = part.interpolate(share, normalized=True)
                yield (float(spot.x), float(spot.y))
    for at in _points(shown, job.slab, laid):
        yield maker.view.to_paper(at)


def _lines(shown: Shown, slab: Slab, layout: Layout) -> list[LineString]:
    """Joints, edges and strips that a detail shows, long joints first."""
    own = [j.line for j in layout.joints if j.kind is KINDS.get(shown)]
    edges = [edge_line(slab, e) for e in slab.edges if e.kind is EDGES.get(shown)]
    strips = [w.line for w in slab.walls if w.strip_width and w.strip_depth]
    return [
        *sorted(own, key=lambda line: -round(line.length)),
        *edges,
        *(strips if shown is Shown.STRIP else []),
    ]


def _points(shown: Shown, slab: Slab, laid: Sequence[Bars]) -> Iterator[Point]:
    """Columns, the edges of their boxouts, and corners and tees with bars that a detail shows."""
    for column in slab.columns:
        (x, y), boxed = column.at, column.outline is not None
        if boxed and shown is Shown.COLUMN:
            yield (x, y)
        elif boxed and shown is Shown.ISOLATION and column.outline:
            yield column.outline.points[0]
    for bars in laid:
        if bars.place is BARS.get(shown):
            yield bars.at
