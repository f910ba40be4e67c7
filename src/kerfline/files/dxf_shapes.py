"""Curves and fills in the form that a document's version knows: R12 has neither light polylines nor hatching."""

from collections.abc import Iterable, Mapping, Sequence

from ezdxf import colors
from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic
from ezdxf.layouts import BaseLayout
from ezdxf.lldxf.const import DXF12 as R12

from kerfline.geometry.ring import Point

CORNERS = (3, 4)
"""Corners of an area that a solid can fill."""

Vertex = tuple[float, float, float]
"""Place and bulge."""


def is_oldest(document: Drawing) -> bool:
    """Whether a document is in the oldest form."""
    return document.dxfversion <= R12


def add_curve(
    space: BaseLayout, points: Sequence[Vertex], attribs: Mapping[str, object], *, closed: bool
) -> DXFGraphic:
    """A polyline with arcs."""
    if is_oldest(space.doc):
        known = {k: v for k, v in attribs.items() if k not in {"lineweight", "ltscale"}}
        return space.add_polyline2d(points, format="xyb", close=closed, dxfattribs=known)
    return space.add_lwpolyline(points, format="xyb", close=closed, dxfattribs=dict(attribs))


def add_fill(
    space: BaseLayout,
    rings: Iterable[Sequence[Point]],
    attribs: Mapping[str, object],
    grey: int | None = None,
) -> None:
    """A filled area; in the oldest form a solid where it has three or four corners, else its outline."""
    if is_oldest(space.doc):
        known = {k: v for k, v in attribs.items() if k in ("layer", "color", "linetype")}
        for ring in rings:
            if len(ring) in CORNERS:
                a, b, c, *d = ring
                space.add_solid([a, b, d[0] if d else c, c], dxfattribs=known)
            else:
                space.add_polyline2d(ring, close=True, dxfattribs=known)
        return
    hatch = space.add_hatch(dxfattribs=dict(attribs))
    hatch.set_solid_fill(color=colors.BYLAYER)
    if grey is not None:
        hatch.rgb = (grey, grey, grey)
    for ring in rings:
        hatch.paths.add_polyline_path(list(ring), is_closed=True)
