"""The outer boundary of things that stand in a ring with gaps between them, such as a building's walls."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from kerfline.geometry.corners import direction, turn_between
from kerfline.geometry.faces import polygons_of, sound
from kerfline.geometry.regions import EVEN_OUT
from kerfline.geometry.ring import Point

STRAIGHTEN = 1.0
"""Vertices that lie off their neighbours' line by less than this (mm) are left out."""

SLIT = 0.1
"""Pieces of one area are joined over slits of this width (mm)."""

CRUMB = 0.01
"""Edges shorter than this (mm) are the last bits of floats, which sharp corners would make large."""

OFF_LINE = 50.0
"""An edge around lines turns no farther (mm) from them; the steps of their ends are smaller."""

MIN_RING = 3

ON_EDGE = 10.0
"""What shares no more of an edge than this (mm) does not lie on it."""


def grown(shape: BaseGeometry, distance: float) -> BaseGeometry:
    """A figure widened with sharp corners, or narrowed where the distance (mm) is below zero.

    Sharp corners of nearly straight lines set flags of invalid arithmetic inside the buffer, and may lie over one
    another in what comes out of it: that is made sound.
    """
    with np.errstate(invalid="ignore", divide="ignore"):
        made: BaseGeometry = shape.buffer(distance, join_style="mitre")
    return sound(made)


@np.errstate(invalid="ignore", divide="ignore")
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
    filled = shapely.union_all([Polygon(p.exterior) for p in polygons_of(wide)]).simplify(CRUMB)
    narrow = polygons_of(_narrowed(filled, half, merged))
    areas = [_turning_on_lines(_straightened(p), merged) for p in narrow]
    return sorted(areas, key=lambda p: (-round(p.area), p.bounds))


def _narrowed(filled: BaseGeometry, half: float, lines: BaseGeometry) -> BaseGeometry:
    """A widened area narrowed again with sharp corners, none of which runs on behind a line."""
    sharp = grown(filled, -half)
    if not lines.difference(sharp.buffer(STRAIGHTEN)).length:
        return sharp
    # Narrowed with round corners, it still holds all lines; the sharp corner of a narrow notch may cut through one.
    round_ = sound(filled.buffer(-half))
    edge = round_.boundary.buffer(SLIT)
    behind = [
        grown(piece, SLIT)
        for corner in polygons_of(round_.difference(sharp))
        for piece in polygons_of(_split(corner, lines))
        if piece.boundary.intersection(edge).length <= ON_EDGE
    ]
    return shapely.union_all([sharp, *behind])


def _split(area: Polygon, lines: BaseGeometry) -> BaseGeometry:
    """The pieces into which lines part an area, those that end on its edge but for the last bits of a float too."""
    within = lines.intersection(area.buffer(SLIT))
    return shapely.polygonize([shapely.union_all([area.exterior, within], grid_size=EVEN_OUT)])


def _turning_on_lines(area: Polygon, lines: BaseGeometry) -> Polygon:
    """An area without the corners that stick out where no line is.

    Sharp corners of a line's small steps reach out far when the line is widened by much.
    """
    corners = [(float(x), float(y)) for x, y in orient(area).exterior.coords[:-1]]
    off = shapely.distance(shapely.points(corners), lines) > OFF_LINE
    beside = zip(corners[-1:] + corners, corners, corners[1:] + corners[:1], strict=False)
    kept = [c[1] for c, far in zip(beside, off, strict=True) if not (far and _sticks_out(*c))]
    plain = Polygon(kept) if MIN_RING <= len(kept) < len(corners) else area
    lost = lines.intersection(area).difference(plain.buffer(STRAIGHTEN)) if plain.is_valid else area
    return area if lost.length > STRAIGHTEN else _straightened(plain)


def _sticks_out(before: Point, at: Point, after: Point) -> bool:
    """Whether a ring with its area on the left turns left at a corner."""
    return turn_between(direction(before, at), direction(at, after)) < 180.0  # noqa: PLR2004 - half a turn


def _straightened(area: Polygon) -> Polygon:
    simple = Polygon(area.exterior).simplify(STRAIGHTEN)
    return simple if isinstance(simple, Polygon) and simple.is_valid else Polygon(area.exterior)
