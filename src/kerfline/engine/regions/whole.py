"""Areas that stay whole: keep-outs that no panel within the span can hold, with joints around them.

To pass the span is a risk of cracks; to cut what lies in a keep-out is not to be undone.
"""

import shapely
from shapely import Polygon

from kerfline.engine.regions.features import CLEAR_OF
from kerfline.engine.regions.region import Region, X, Y
from kerfline.engine.steps import Steps
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import MEASURE

Box = tuple[float, float, float, float]


def whole_areas(region: Region) -> list[Polygon]:
    """The concrete in boxes around keep-outs that are longer than any panel may be.

    The sides of a box lie on whole steps just outside the keep-out. A box runs on to the border of the region, and
    becomes one with another, where the strip between would be narrower than a panel may be. Of a keep-out that is no
    rectangle the box holds more concrete than it must.
    """
    longest = region.working.span * region.stretch + MEASURE
    inside = (region.gross.intersection(k.outline.polygon) for k in region.keep_outs)
    boxes = [_around(region, area.bounds) for area in inside if not area.is_empty]
    long = [b for b in boxes if max(b[2] - b[0], b[3] - b[1]) > longest]
    return [
        part
        for box in _joined(long, region.working.width)
        for part in polygons_of(region.concrete.intersection(shapely.box(*box)))
    ]


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
