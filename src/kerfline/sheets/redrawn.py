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
    slab: Slab, layout: Layout, base: Baselines, places: Sequence[Point], finer: float | None
) -> tuple[Redrawn, ...]:
    """Upright boxes on the paper around the panels about places where something has no number.

    Args:
        slab: The slab.
        layout: Its panels.
        base: Whose directions lie along the paper.
        places: Where something has no number, mm.
        finer: The smallest scale that will do.
    """
    shapes = np.asarray([panel.polygon for panel in layout.panels], dtype=object)
    tree = shapely.STRtree(shapes)
    _, near = tree.query(shapely.points(places), predicate="dwithin", distance=ABOUT)
    boxes = _apart([shapely.box(*shape.bounds) for shape in base.shapes(shapes[np.unique(near)])])
    concrete = base.shape(slab.concrete)
    parts = [base.back(concrete.intersection(box)) for box in boxes]
    several = len(parts) > 1
    return tuple(
        Redrawn(
            id=f"L{n}",
            name=f"part {n} drawn larger" if several else "part drawn larger",
            region=area_of(polygons_of(part)),
            finer=finer,
        )
        for n, part in enumerate(parts, 1)
    )


def _apart(boxes: Sequence[Polygon]) -> list[Polygon]:
    """Boxes that stand apart: those that meet are one around both."""
    merged = [shapely.box(*part.bounds) for part in polygons_of(shapely.union_all(boxes))]
    return merged if len(merged) == len(boxes) else _apart(merged)
