"""How places, sizes and counts are written in notes and refusals."""

from shapely import Polygon

from kerfline.geometry.ring import Point
from kerfline.units import Display, format_area, format_length


def place(where: Point | Polygon, display: Display) -> str:
    """Coordinates of a point, or of the middle of a figure."""
    if isinstance(where, Polygon):
        middle = where.representative_point()
        where = (middle.x, middle.y)
    x, y = (format_length(c, display) for c in where)
    return f"({x}, {y})"


def wide(what: float | Polygon, display: Display) -> str:
    """A length, or the area of a figure."""
    if isinstance(what, Polygon):
        return format_area(what.area, display)
    if display is Display.METRIC and abs(what) < 1.0:
        return f"{what:.2f} mm"
    if display is Display.FEET_INCHES and abs(what) < 1.0:
        return f'{what / 25.4:.3f}"'
    return format_length(what, display)


FINE = 3
"""Decimals of a millimetre that measures recovered from a drawing are rounded to."""


def fine(value: float) -> float:
    """A measure (mm or degrees) freed of the noise of arithmetic."""
    return round(value, FINE) + 0.0


def fine_point(point: Point) -> Point:
    """A point freed of the noise of arithmetic."""
    return (fine(point[0]), fine(point[1]))
