"""Courts within a building: what walls go all around of, inside of it, with no door to it.

Such an area may be outside as well, a court or a shaft, or a room whose door is not drawn: nothing in the lines tells
which. Sizes are common practice.
"""

from collections.abc import Sequence

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.wrap import STRAIGHTEN

NARROWEST = 600.0
"""A gap of this width (mm) or less is no door."""

WIDEST = 1_220.0
"""Width (mm, 4 ft) up to which gaps are doors of a court that a word names."""

LEAST_COURT = 4e6
"""Less than this (mm2, 2 m square) is a flue or a duct."""

AT_WALL = 600.0
"""A door hangs this near (mm) to what it opens to."""


def courts_in(
    area: Polygon,
    faces: Sequence[LineString],
    hinges: Sequence[Point] = (),
    words: Sequence[Point] = (),
) -> list[Polygon]:
    """The areas within a building that may be courts, largest first.

    Args:
        area: The area within the building's outer faces.
        faces: The lines that its walls are drawn with.
        hinges: Where doors hang.
        words: Where the drawing's own words name a court.

    Returns:
        Areas that the rest of the floor goes around and no gap of a door's width or door leads to, and the rooms that
        hold a word for one.
    """
    doors = shapely.MultiPoint(hinges) if len(hinges) else None
    found = [
        court
        for court in _ringed(_free(area, faces, NARROWEST))
        if not (doors and court.distance(doors) <= AT_WALL)
    ]
    spots = [w for w in map(shapely.Point, words) if area.contains(w)]
    for room in _free(area, faces, WIDEST) if spots else ():
        named = any(room.distance(s) <= WIDEST / 2 for s in spots) and not room.interiors
        whole = _grown(room, WIDEST)
        if named and not any(c.intersects(whole) for c in found):
            found.append(whole)
    large = [c for c in found if c.area >= LEAST_COURT and area.contains(c)]
    return sorted(large, key=lambda c: (-round(c.area), c.bounds))


def _free(area: Polygon, faces: Sequence[LineString], gap: float) -> list[Polygon]:
    """The pieces of floor that no gap wider than ``gap`` joins, each narrower by half of that."""
    near = [f for f in faces if f.intersects(area)]
    walls = shapely.union_all(shapely.buffer(near, gap / 2, cap_style="square", join_style="mitre"))
    return polygons_of(area.difference(walls))


def _ringed(pieces: Sequence[Polygon]) -> list[Polygon]:
    """The pieces that another one goes all around, each alone in there, out to their walls."""
    found = []
    for piece in pieces:
        for hole in map(Polygon, piece.interiors):
            within = [p for p in pieces if p is not piece and hole.contains(p)]
            if len(within) == 1:
                found.append(_grown(within[0], NARROWEST))
    return found


def _grown(piece: Polygon, gap: float) -> Polygon:
    """A piece of floor out to the walls around it."""
    whole = Polygon(piece.exterior).buffer(gap / 2, join_style="mitre").simplify(STRAIGHTEN)
    return max(polygons_of(whole), key=lambda p: p.area, default=piece)
