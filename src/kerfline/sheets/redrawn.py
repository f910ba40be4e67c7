"""Parts of a slab that are drawn again on a sheet of their own: turned, or larger where numbers find no room."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import Polygon

from kerfline.geometry.faces import Area, area_of, lines_of, points_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines

ABOUT = 300.0
"""Panels this near (mm) to what has no number are drawn larger."""

FEW = 4
"""So many parts are drawn larger each by itself; of more, those that one sheet holds are one."""

SHORTEST = 4 * TOUCH
"""A piece of a joint that is shorter than this (mm) is a mere end in a part."""


@dataclass(frozen=True, kw_only=True)
class Redrawn:
    """A part of the slab that is drawn again.

    Attributes:
        id: Short name: ``W`` for a wing.
        name: Name in titles: ``wing turned 27 degrees``.
        region: Its concrete, mm of the drawing.
        turned: Whether its own direction lies along the paper, and it is measured from a corner of its own.
        finer: The smallest scale that will do; None for any that can be read.
    """

    id: str
    name: str
    region: Area
    turned: bool = False
    finer: float | None = None

    @property
    def corner(self) -> str:
        """Name of the corner that it is measured from; empty where that is the slab's."""
        return f"A{self.id}" if self.turned else ""

    def layout(self, layout: Layout) -> Layout:
        """Its panels and joints, the joints as far as they lie in it."""
        near, inside = self.region.buffer(TOUCH), self.region.buffer(-TOUCH)
        lines = np.asarray([joint.line for joint in layout.joints], dtype=object)
        shapes = np.asarray([panel.polygon for panel in layout.panels], dtype=object)
        shapely.prepare([near, inside])
        joints = tuple(
            replace(layout.joints[int(i)], path=points_of(part))
            for i in np.flatnonzero(shapely.intersects(near, lines))
            for part in lines_of(lines[i].intersection(near))
            if part.length > SHORTEST
        )
        held = np.flatnonzero(shapely.intersects(inside, shapes))
        panels = tuple(layout.panels[int(i)] for i in held)
        return replace(layout, joints=joints, panels=panels)


def drawn_larger(
    slab: Slab,
    layout: Layout,
    base: Baselines,
    places: Sequence[Point],
    finer: float | None,
    *,
    room: Point,
    first: int = 1,
) -> tuple[Redrawn, ...]:
    """Upright boxes on the paper around the panels about places where something has no number.

    Where they are many, those that one sheet holds together are one.

    Args:
        slab: The slab.
        layout: Its panels.
        base: Whose directions lie along the paper.
        places: Where something has no number, mm.
        finer: The smallest scale that will do.
        room: What one sheet holds at that scale, across and up, mm of the slab.
        first: Number of the first of them.
    """
    shapes = np.asarray([panel.polygon for panel in layout.panels], dtype=object)
    tree = shapely.STRtree(shapes)
    _, near = tree.query(shapely.points(places), predicate="dwithin", distance=ABOUT)
    boxes = _apart([shapely.box(*shape.bounds) for shape in base.shapes(shapes[np.unique(near)])])
    if len(boxes) > FEW:
        boxes = _together(boxes, room)
    concrete = base.shape(slab.concrete)
    parts = [base.back(concrete.intersection(box)) for box in boxes]
    several = first + len(parts) > 2  # noqa: PLR2004 - one alone has no number
    return tuple(
        Redrawn(
            id=f"L{n}",
            name=f"part {n} drawn larger" if several else "part drawn larger",
            region=area_of(polygons_of(part)),
            finer=finer,
        )
        for n, part in enumerate(parts, first)
    )


def _apart(boxes: Sequence[Polygon]) -> list[Polygon]:
    """Boxes that stand apart: those that meet are one around both."""
    merged = [shapely.box(*part.bounds) for part in polygons_of(shapely.union_all(boxes))]
    return merged if len(merged) == len(boxes) else _apart(merged)


def _together(boxes: Sequence[Polygon], room: Point) -> list[Polygon]:
    """Boxes that a sheet holds together as one around them, those first that have the least between them."""
    low, high = np.hsplit(shapely.bounds(np.asarray(boxes, dtype=object)), 2)
    while True:
        size = np.maximum(high[:, None], high) - np.minimum(low[:, None], low)
        own = (high - low).prod(axis=1)
        between = np.round(size.prod(axis=2) - own[:, None] - own)
        between[~(size <= np.asarray(room)).all(axis=2)] = np.inf
        between[np.tril_indices(len(own))] = np.inf
        one, other = np.unravel_index(int(between.argmin()), between.shape)
        if not np.isfinite(between[one, other]):
            break
        low[one], high[one] = np.minimum(low[one], low[other]), np.maximum(high[one], high[other])
        low, high = np.delete(low, other, axis=0), np.delete(high, other, axis=0)
    order = np.lexsort((np.round(low[:, 0]), -np.round(high[:, 1])))
    return [shapely.box(*low[i], *high[i]) for i in order]
