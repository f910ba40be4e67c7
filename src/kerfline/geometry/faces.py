"""The pieces that lines cut a figure into."""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely import LinearRing, LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME

Area = Polygon | MultiPolygon
"""A figure in one piece or in several."""

SLIVER = 1.0
"""Faces smaller than this (mm2), or thinner than ``SAME``, are rounding and no concrete."""


def faces(polygon: Area, lines: Iterable[LineString]) -> list[Polygon]:
    """Cuts a figure along lines.

    Args:
        polygon: The figure; holes stay holes.
        lines: The cuts, in any order; parts outside the figure and dangling ends cut nothing.

    Returns:
        The pieces, anticlockwise, in reading order from the lower left: rows upward, then along x.
    """
    return faces_between(polygon, noded(polygon, lines))


def noded(polygon: Area, lines: Iterable[LineString]) -> shapely.Geometry:
    """The boundary of a figure and lines, cut wherever they meet.

    Snap rounding closes the hair's breadth between a joint's end and a sloping edge.
    """
    return shapely.union_all([polygon.boundary, *lines], grid_size=SAME / 10)


def faces_between(polygon: Area, linework: shapely.Geometry) -> list[Polygon]:
    """The pieces of a figure between the lines of ``noded``, as ``faces`` returns them."""
    pieces = shapely.get_parts(shapely.polygonize([linework]))
    shapely.prepare(polygon)
    inside = shapely.contains_properly(polygon, shapely.point_on_surface(pieces))
    wide = shapely.area(pieces) > np.maximum(SLIVER, SAME / 2 * shapely.length(pieces))
    kept = [orient(p) for p, yes in zip(pieces, inside & wide, strict=True) if yes]
    return reading_order(kept)


def reading_order(polygons: Sequence[Polygon]) -> list[Polygon]:
    """Sorts pieces in rows from the lower left, a row being those whose lowest points agree.

    Pieces with the same bounds, as the two triangles of a square, go by their centres.
    """
    shapes = np.asarray(polygons, dtype=object)
    x0, y0, x1, y1 = np.round(shapely.bounds(shapes).reshape(-1, 4)).T
    x, y = np.round(shapely.get_coordinates(shapely.centroid(shapes)).T)
    return [polygons[i] for i in np.lexsort((x, y, x1, y1, x0, y0))]


def polygons_of(shape: shapely.Geometry) -> list[Polygon]:
    """The polygons in a shape of any kind, those of no area left out."""
    if isinstance(shape, Polygon):
        return [shape] if shape.area > SLIVER else []
    if isinstance(shape, MultiPolygon | shapely.GeometryCollection):
        return [p for part in shape.geoms for p in polygons_of(part)]
    return []


def sound(shape: BaseGeometry) -> BaseGeometry:
    """A figure whose boundary neither crosses nor lies over itself: such as buffers and turns by a last bit may leave."""
    made: BaseGeometry = shape if shape.is_valid else shape.buffer(0.0)
    return made


def left_by(area: Area, taken: Sequence[Polygon]) -> list[Polygon]:
    """The pieces of an area that is left when figures are taken out of it, in reading order.

    Figures that touch each other or the area's edge part it, however the last bits of their corners fall.
    """
    whole = shapely.union_all(taken)
    pieces = polygons_of(area.difference(whole))
    if len(taken) > 1 or not area.contains_properly(whole):
        snapped = polygons_of(shapely.difference(area, whole, grid_size=SAME / 10))
        pieces = snapped if len(snapped) > len(pieces) else pieces
    return reading_order(pieces)


def area_of(pieces: Sequence[Polygon]) -> Area:
    """Pieces as one figure."""
    return pieces[0] if len(pieces) == 1 else MultiPolygon(pieces)


def rings_of(area: Area) -> list[LinearRing]:
    """The boundary of an area ring by ring, each piece's outer one first."""
    pieces = [area] if isinstance(area, Polygon) else area.geoms
    return [ring for piece in pieces for ring in (piece.exterior, *piece.interiors)]


def lines_of(shape: shapely.Geometry) -> list[LineString]:
    """The line strings in a shape of any kind, those of no length left out."""
    if isinstance(shape, LineString):
        return [shape] if shape.length > SAME else []
    if hasattr(shape, "geoms"):
        return [line for part in shape.geoms for line in lines_of(part)]
    return []


def points_of(line: LineString) -> tuple[Point, ...]:
    """The points of a line; of a ring the first again at the end."""
    return tuple((float(x), float(y)) for x, y in line.coords)


def line(*points: Point) -> LineString:
    """A line string through points."""
    return LineString(points)
