"""The panels that a net allows: every block of cells between two lines of each axis."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.oblique.charts import SquareChart, bounds_in
from kerfline.engine.oblique.cost import Shape, shape_cost, shape_of, within_span
from kerfline.engine.oblique.ground import Ground, Line
from kerfline.engine.oblique.groups import Group, groups_of
from kerfline.engine.oblique.hidden import bare_price, walls_on
from kerfline.engine.oblique.measured import corners_of, shapes_of
from kerfline.engine.oblique.net import Net
from kerfline.engine.walls import STUB
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import SAME
from kerfline.units import MM_PER_FOOT

SLACK = 1.1
"""Blocks longer in the chart than this share of the span are not looked at."""

NEAR_SPAN = 0.99
"""Blocks longer than this share of the span are measured to the hair."""

FULL_BOX = 0.99
"""A block that fills this share of its box in a square chart is a rectangle."""

AROUND = 250 * MM_PER_FOOT
"""A panel all around an opening or a boxout."""

OVER_SPAN = 1e6
"""What a single cell over the span costs, in mm of joint: it is divided afterwards."""

Box = tuple[float, float, float, float]
"""Least and greatest coordinates."""


@dataclass(frozen=True)
class Choice:
    """A panel that may be chosen.

    Attributes:
        cells: Its cells, in order.
        parts: Polygons that make it up.
        cost: What its shape costs, in mm of joint.
    """

    cells: tuple[int, ...]
    parts: tuple[Polygon, ...]
    cost: float

    @cached_property
    def polygon(self) -> Polygon:
        """Its outline."""
        return _joined(self.parts) or self.parts[0]


def choices(ground: Ground, net: Net) -> list[Choice]:
    """Every panel of the net within the span; every single cell in any case."""
    holes = [bounds_in(net.chart, Polygon(hole)) for hole in ground.concrete.interiors]
    needed = _under_walls([w for w in ground.walls if w.needed], net)
    groups = groups_of(net, SLACK * ground.limits.span)
    found = ((_numbers(g.cells), g) for g in groups)
    likely = (f for f in found if not needed or _bare(needed, f[1].cells, f[0]) <= STUB)
    ordered = sorted(likely, key=lambda f: (len(f[0]), f[0]))
    shapes = [_plain(net, group, ground.limits.span, holes) for _, group in ordered]
    odd = [n for n, shape in enumerate(shapes) if shape is None]
    corners = corners_of([c.polygon for c in net.cells])
    measured = shapes_of(corners, [ordered[n][0] for n in odd], ground.limits.angle, ground.knees)
    for number, shape in zip(odd, measured, strict=True):
        shapes[number] = shape
    asking = _asking(ground, net)
    under = _under_walls(ground.walls, net)
    made = (
        _choice(
            ground,
            net,
            cells,
            shape,
            [
                *(w for near, w in asking if near & group.cells == near),
                bare_price(ground, _bare(under, group.cells, cells)),
            ],
        )
        for (cells, group), shape in zip(ordered, shapes, strict=True)
    )
    return [choice for choice in made if choice is not None]


def _asking(ground: Ground, net: Net) -> list[tuple[int, float]]:
    """Points that ask for a joint: the cells that touch each, as bits, and what missing it costs."""
    polygons = [c.polygon for c in net.cells]
    inner = ground.concrete.buffer(-2 * SAME)
    out = []
    for target in ground.targets:
        spot = shapely.Point(target.at)
        if target.weight and inner.contains(spot):
            near = np.flatnonzero(shapely.dwithin(polygons, spot, SAME)).tolist()
            out.append((sum(1 << n for n in near), target.weight))
    return out


def _under_walls(walls: Sequence[Line], net: Net) -> dict[int, list[tuple[int, float]]]:
    """For each cell those beyond seams under walls, as bits, and the length of wall (mm) there."""
    out: dict[int, list[tuple[int, float]]] = {}
    for first, second, length in walls_on(walls, net):
        out.setdefault(first, []).append((1 << second, length))
    return out


def _bare(under: dict[int, list[tuple[int, float]]], block: int, cells: Sequence[int]) -> float:
    """Length of wall (mm) under which a block runs through."""
    if not under:
        return 0.0
    return sum(length for c in cells for bit, length in under.get(c, ()) if bit & block)


def _choice(
    ground: Ground, net: Net, cells: tuple[int, ...], shape: Shape | None, missed: Sequence[float]
) -> Choice | None:
    """A block as a panel, at its price; None where it is over the span and can be divided."""
    parts = tuple(net.cells[c].polygon for c in cells)
    around = 0.0
    if shape is None:
        polygon = _joined(parts)
        if polygon is None:
            return None
        parts, around = (polygon,), AROUND * len(polygon.interiors)
        shape = shape_of(polygon, ground.limits.angle, ground.knees)
    if within_span(shape, ground.limits):
        return Choice(cells, parts, shape_cost(shape, ground.limits) + around + sum(missed))
    return Choice(cells, parts, OVER_SPAN) if len(cells) == 1 else None


def _plain(net: Net, group: Group, span: float, holes: Sequence[Box]) -> Shape | None:
    """The measures of a group that is all but a rectangle in the chart, without measuring it."""
    wide, high = group.high_u - group.low_u, group.high_v - group.low_v
    long, short = max(wide, high), min(wide, high)
    if not isinstance(net.chart, SquareChart) or long > NEAR_SPAN * span:
        return None
    if group.area < FULL_BOX * long * short or any(_overlap(group[2:6], h) for h in holes):
        return None
    return Shape(long, short, 1.0, (), ())


def _overlap(one: Box, other: Box) -> bool:
    return all(one[a] < other[a + 2] and other[a] < one[a + 2] for a in (0, 1))


def _joined(polygons: Sequence[Polygon]) -> Polygon | None:
    """Cells as one polygon; None where they touch in points only."""
    if len(polygons) == 1:
        return polygons[0]
    parts = polygons_of(shapely.coverage_union_all(polygons))
    return parts[0] if len(parts) == 1 else None


def _numbers(cells: int) -> tuple[int, ...]:
    """Bits as numbers, in order."""
    out = []
    while cells:
        lowest = cells & -cells
        out.append(lowest.bit_length() - 1)
        cells ^= lowest
    return tuple(out)
