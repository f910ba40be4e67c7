"""Plain curves as they come out of a drawing, for tests of what is read from them."""

from kerfline.files.drawing.curves import Curve, Label
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point, Ring


def box(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    """The corners of an upright rectangle, from the lower left one on."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def box_ring(x: float, y: float, width: float, height: float) -> Ring:
    """An upright rectangle as a ring."""
    return Ring(box(x, y, width, height))


def closed(layer: str, *points: Point, group: int = 0) -> Curve:
    """A closed polyline."""
    return Curve(layer=layer, kind="LWPOLYLINE", path=Path(points, closed=True), group=group)


def line(layer: str, *points: Point, group: int = 0, width: float = 0.0) -> Curve:
    """An open polyline."""
    return Curve(layer=layer, kind="LINE", path=Path(points), group=group, width=width)


def bow(layer: str, start: Point, end: Point, bulge: float) -> Curve:
    """One arc."""
    return Curve(layer=layer, kind="ARC", path=Path((start, end), (bulge, 0.0)))


def said(text: str, at: Point = (0.0, 0.0)) -> Label:
    """A text of a drawing."""
    return Label(layer="TEXT", text=text, at=at)
