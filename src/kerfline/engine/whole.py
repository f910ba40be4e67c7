"""Concrete that stays whole: around keep-outs that no panel within the span can hold, with joints beside it.

To pass the span is a risk of cracks; to cut what lies in a keep-out is not to be undone. The floor around is laid out as
it is around an opening.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import shapely
from shapely import Polygon

from kerfline.engine.lines.settled import border_cuts, crosses_barred, sides_of
from kerfline.engine.regions.features import CLEAR_OF
from kerfline.engine.regions.placing import clipped, concrete_of, unparted
from kerfline.engine.regions.region import Cut, Region, RegionLayout, X, Y
from kerfline.engine.regions.walls import how_far, is_bare
from kerfline.engine.steps import Steps
from kerfline.geometry.faces import left_by, polygons_of
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall

Box = tuple[float, float, float, float]

BESIDE = "beside an area where no saw may go"
"""Why there is a joint along an area that stays whole, or on from its corner."""

CORNERS = (Reason.CORNER, Reason.OPENING)
"""Reasons of joints from corners of what is laid out."""


def whole_areas(region: Region) -> list[Polygon]:
    """The boxes around keep-outs that are longer than any panel may be, as far as they lie on the region.

    Keep-outs between which no joint can pass are one. The sides of a box lie on whole steps just outside the keep-out. A
    box runs on to the border of the region, and becomes one with another, where the strip between would be narrower than
    a panel may be. Of a keep-out that is no rectangle the box holds more concrete than it must.
    """
    clear = shapely.union_all([k.outline.polygon.buffer(CLEAR_OF) for k in region.keep_outs])
    inside = (region.gross.intersection(area.buffer(-CLEAR_OF)) for area in polygons_of(clear))
    boxes = [_around(region, area.bounds) for area in inside if not area.is_empty]
    long = [b for b in boxes if max(b[2] - b[0], b[3] - b[1]) > _longest(region, b)]
    joined = _joined([_widened(region, b) for b in long], region.working.width)
    return [
        part for box in joined for part in polygons_of(region.gross.intersection(shapely.box(*box)))
    ]


def _longest(region: Region, box: Box) -> float:
    """The greatest length of a panel that holds a box, mm: the strictest zone that it reaches into decides."""
    area = shapely.box(*box)
    zones = [z.working.span for z in region.zones if z.area.intersection(area).area > TOUCH]
    return min([region.working.span, *zones]) * region.stretch + MEASURE


def _around(region: Region, bounds: Box) -> Box:
    """A box around a keep-out, its sides on whole steps, or on the border of the region where that is near."""
    sides = [_sides(region, axis, bounds[axis], bounds[axis + 2]) for axis in (X, Y)]
    return sides[X][0], sides[Y][0], sides[X][1], sides[Y][1]


def _sides(region: Region, axis: int, low: float, high: float) -> tuple[float, float]:
    steps = Steps(region.baseline[axis], region.step)
    first, last = region.gross.bounds[axis], region.gross.bounds[axis + 2]
    before = steps.within(low - 3 * CLEAR_OF, low - CLEAR_OF, low - 2 * CLEAR_OF)
    behind = steps.within(high + CLEAR_OF, high + 3 * CLEAR_OF, high + 2 * CLEAR_OF)
    least = region.working.width
    return (
        first if before - first < least else before,
        last if last - behind < least else behind,
    )


def _widened(region: Region, box: Box) -> Box:
    """A box that is too narrow for its length made wide enough, where a panel so wide may be and has room.

    It runs on to the border where that is near enough, and on the other side as far as is lacking; else as far on both.
    """
    sizes = (box[2] - box[0], box[3] - box[1])
    axis = X if sizes[X] < sizes[Y] else Y
    wide = max(sizes) / region.working.aspect
    room = box[axis] - region.gross.bounds[axis], region.gross.bounds[axis + 2] - box[axis + 2]
    more = wide - min(sizes)
    if more <= 0.0 or more > sum(room) or wide > _longest(region, box):
        return box
    near = min(room)
    half = near if near <= more else more / 2
    before, behind = (half, more - half) if room[0] <= room[1] else (more - half, half)
    low, high = _sides(region, axis, box[axis] - before, box[axis + 2] + behind)
    return (low, box[1], high, box[3]) if axis == X else (box[0], low, box[2], high)


def _joined(boxes: list[Box], least: float) -> list[Box]:
    """Boxes, those nearer to one another than that made one."""
    out: list[Box] = []
    for box in sorted(boxes):
        one = box
        while near := [b for b in out if shapely.box(*b).distance(shapely.box(*one)) < least]:
            out = [b for b in out if b not in near]
            x0, y0, x1, y1 = zip(one, *near, strict=True)
            one = (min(x0), min(y0), max(x1), max(y1))
        out.append(one)
    return out


def beside(region: Region, areas: Sequence[Polygon]) -> Iterator[Region]:
    """The pieces of a region that areas which stay whole leave."""
    boxouts = [c.outline.polygon for c in region.columns if c.outline is not None]
    for piece in left_by(region.gross, areas):
        for gross in unparted(piece, boxouts):
            part = clipped(region, gross, concrete_of(gross, boxouts))
            landings = (at for at in region.landings if gross.dwithin(shapely.Point(at), TOUCH))
            yield replace(part, landings=tuple(landings))


def with_whole(
    region: Region, areas: Sequence[Polygon], layouts: Sequence[RegionLayout]
) -> RegionLayout:
    """The layout of a region of which areas stay whole.

    Args:
        region: The region.
        areas: Those areas.
        layouts: The layouts of the pieces beside them.
    """
    around = [cut for area in areas for cut in _joints_around(region, area)]
    length = sum(cut.line.length for cut in around)
    found = RegionLayout.joined(layouts)
    return replace(
        found,
        cuts=(*around, *(_told(cut, areas) for cut in found.cuts)),
        walls_left={**_over(region.walls, areas), **found.walls_left},
        cost=length + found.cost,
        bound=length + found.bound,
    )


def _over(walls: Sequence[Wall], areas: Sequence[Polygon]) -> dict[str, str]:
    """Id of each wall that stands on the areas, and why it has no joint there."""
    bare = {wall: sum(wall.line.intersection(area).length for area in areas) for wall in walls}
    return {w.id: how_far(w, b) + crosses_barred(w) for w, b in bare.items() if is_bare(w, b)}


def _joints_around(region: Region, area: Polygon) -> Iterator[Cut]:
    """The sides of an area as far as they run through the concrete, each a joint of its own: a saw cuts no corner."""
    return border_cuts(region, sides_of(region, area), Reason.KEEP_OUT, BESIDE)


def _told(cut: Cut, areas: Sequence[Polygon]) -> Cut:
    """A joint beside the areas that says so where it leaves a corner of one, which is none of the slab's."""
    if cut.reason not in CORNERS or cut.at is None:
        return cut
    spot = shapely.Point(cut.at)
    if not any(area.exterior.dwithin(spot, TOUCH) for area in areas):
        return cut
    return replace(cut, reason=Reason.KEEP_OUT, note=BESIDE)
