"""The outer boundary of things that stand in a ring with gaps between them, such as a building's walls."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import polygons_of

STRAIGHTEN = 1.0
"""Vertices that lie off their neighbours' line by less than this (mm) are left out."""


# Sharp corners of nearly straight lines set a flag of invalid arithmetic inside the buffer, whose result is sound.
@np.errstate(invalid="ignore")
def wrapped(lines: Sequence[LineString], gap: float) -> list[Polygon]:
    """The areas that lines close off when gaps between them up to a width are bridged.

    The lines are widened by half the gap with sharp corners, the areas inside are filled, and the whole is
    narrowed again; notches narrower than the gap are bridged, too.

    Args:
        lines: The lines, in mm.
        gap: Widest gap to bridge, mm.

    Returns:
        The areas inside the outermost lines, largest first; none where nothing of any width is closed off.
    """
    merged = shapely.line_merge(shapely.union_all(list(lines)))
    half = gap / 2 + STRAIGHTEN
    wide = shapely.union_all(
        shapely.buffer(shapely.get_parts(merged), half, cap_style="square", join_style="mitre")
    )
    filled = shapely.union_all([Polygon(p.exterior) for p in polygons_of(wide)])
    narrow = polygons_of(filled.buffer(-half, join_style="mitre"))
    areas = [_straightened(p) for p in narrow]
    return sorted(areas, key=lambda p: (-round(p.area), p.bounds))


def _straightened(area: Polygon) -> Polygon:
    simple = Polygon(area.exterior).simplify(STRAIGHTEN)
    return simple if isinstance(simple, Polygon) and simple.is_valid else Polygon(area.exterior)
