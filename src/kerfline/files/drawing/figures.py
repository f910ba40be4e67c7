"""Small closed figures that stand for one thing each: columns, boxouts, pipes.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely
from shapely import Polygon

from kerfline.files.drawing.curves import Curve, Spot
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.regions import enclosed
from kerfline.geometry.ring import Point, Ring, arc_of

ROUND = 0.97
"""A figure whose area is more than this share of that of a circle of the same girth is round."""

SQUARE = 1.05
"""A rectangle with an aspect under this is square."""

FULL = 0.97
"""A figure that fills more than this share of its enclosing rectangle is that rectangle."""

MEETS = 5.0
"""Widest gap (mm) in the outline of a small figure that is closed."""


class Form(StrEnum):
    """What a small figure looks like."""

    ROUND = "round"
    SQUARE = "square"
    OBLONG = "oblong"
    OTHER = "other"
    POINT = "point"


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One small closed figure, or a point.

    Attributes:
        layer: The layer of the curve that its outermost edge came from; empty for several.
        form: What it looks like.
        at: Its middle.
        size: Diameter of a round one, else the longer side of its enclosing rectangle.
        width: The shorter side.
        turn: Direction of the longer side, degrees from x; of a square 0 to 90.
        ring: Its edge; None for a point.
    """

    layer: str
    form: Form
    at: Point
    size: float = 0.0
    width: float = 0.0
    turn: float = 0.0
    ring: Ring | None = None


def figures(curves: Sequence[Curve], spots: Sequence[Spot], largest: float) -> list[Figure]:
    """The outermost closed figures no larger than a size, each thing once, in reading order.

    A block reference without a closed curve in it stands for the rectangle around its lines; a point counts
    where no figure lies around it.

    Args:
        curves: The curves of the layers.
        spots: The drawn points of the layers.
        largest: Longest side of a figure, mm; what is larger is not looked at.
    """
    found: list[Figure] = []
    by_layer: dict[str, list[Curve]] = {}
    for curve in curves:
        by_layer.setdefault(curve.layer, []).append(curve)
    for layer, own in sorted(by_layer.items()):
        found += _closed(own, layer, largest)
    found = _outermost(found)
    found += _of_blocks(curves, found, largest)
    found = _outermost(found)
    points = [Figure(layer=s.layer, form=Form.POINT, at=s.at) for s in spots]
    return sorted(found + _free(points, found), key=_reading)


def _closed(curves: Sequence[Curve], layer: str, largest: float) -> list[Figure]:
    rings = enclosed([c.path for c in curves], MEETS).rings
    return [f for ring in rings if (f := small_figure(ring, largest, layer))]


def small_figure(ring: Ring, largest: float, layer: str = "") -> Figure | None:
    """What a closed curve looks like; None where its longer side is over the largest (mm)."""
    x0, y0, x1, y1 = ring.polygon.bounds
    # Turned by 45 degrees a square reaches this far; larger ones need no closer look.
    if max(x1 - x0, y1 - y0) > math.sqrt(2) * largest + 1.0:
        return None
    figure = figure_of(ring, layer)
    return figure if figure.size <= largest else None


def figure_of(ring: Ring, layer: str = "") -> Figure:
    """What a closed curve looks like."""
    polygon = ring.polygon
    box = enclosing_rectangle(polygon)
    middle = polygon.centroid
    roundness = 4 * math.pi * polygon.area / max(polygon.length, 1e-9) ** 2
    if roundness > ROUND:
        across = _diameter(ring)
        return Figure(
            layer=layer,
            form=Form.ROUND,
            at=(middle.x, middle.y),
            size=across,
            width=across,
            ring=ring,
        )
    fills = polygon.area > FULL * box.length * box.width
    form = Form.OTHER
    if fills:
        form = Form.SQUARE if box.aspect < SQUARE else Form.OBLONG
    else:
        middle = polygon.oriented_envelope.centroid
    square = box.aspect < SQUARE
    return Figure(
        layer=layer,
        form=form,
        at=(middle.x, middle.y),
        size=(box.length + box.width) / 2 if form is Form.SQUARE else box.length,
        width=box.width,
        turn=box.angle % 90.0 if square else box.angle,
        ring=ring,
    )


def _diameter(ring: Ring) -> float:
    """Across a round figure: exact where it is drawn as arcs, else that of a circle of its area."""
    if ring.bulges and all(ring.bulges):
        return 2 * arc_of(ring.points[0], ring.points[1], ring.bulge(0)).radius
    return 2 * math.sqrt(ring.polygon.area / math.pi)


def _outermost(found: Sequence[Figure]) -> list[Figure]:
    """The figures that lie in no other one; of two alike the first."""
    shapes = [_area(f) for f in found]
    if not shapes:
        return []
    asked = np.asarray([s.representative_point() for s in shapes], dtype=object)
    inner, outer = shapely.STRtree(shapes).query(asked, predicate="within")
    hidden = {
        int(i)
        for i, o in zip(inner, outer, strict=True)
        if (shapes[o].area, -int(o)) > (shapes[i].area, -int(i))
    }
    return [f for i, f in enumerate(found) if i not in hidden]


def _of_blocks(curves: Sequence[Curve], found: Sequence[Figure], largest: float) -> list[Figure]:
    """Block references with no closed figure in or around them, as the rectangles around their lines."""
    groups: dict[int, list[Curve]] = {}
    for curve in curves:
        if curve.group:
            groups.setdefault(curve.group, []).append(curve)
    out = []
    tree = shapely.STRtree([_area(f) for f in found])
    for _, members in sorted(groups.items()):
        lines = shapely.union_all([c.path.line for c in members])
        around = lines.oriented_envelope
        if not isinstance(around, Polygon) or around.area <= 1.0:
            continue
        if len(tree.query(around, predicate="intersects")):
            continue
        figure = small_figure(Ring.of(around), largest, members[0].layer)
        if figure:
            out.append(figure)
    return out


def _free(points: Sequence[Figure], found: Sequence[Figure]) -> list[Figure]:
    """The points that lie in no figure, each place once."""
    tree = shapely.STRtree([_area(f) for f in found])
    kept: dict[tuple[float, float], Figure] = {}
    for point in points:
        if not len(tree.query(shapely.Point(point.at), predicate="intersects")):
            kept.setdefault((round(point.at[0]), round(point.at[1])), point)
    return list(kept.values())


def _area(figure: Figure) -> Polygon:
    return figure.ring.polygon if figure.ring else Polygon()


def _reading(figure: Figure) -> tuple[float, float]:
    return (round(figure.at[1], 1), round(figure.at[0], 1))
