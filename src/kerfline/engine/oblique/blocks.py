"""The panels that a net allows: every block of cells between two lines of each axis."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon

from kerfline.engine.oblique.charts import SquareChart
from kerfline.engine.oblique.cost import Shape, shape_cost, shape_of, within_span
from kerfline.engine.oblique.ground import Ground
from kerfline.engine.oblique.net import Net
from kerfline.geometry.faces import polygons_of
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


@dataclass(frozen=True, slots=True)
class Choice:
    """A panel that may be chosen.

    Attributes:
        cells: Its cells, in order.
        polygon: Its outline.
        cost: What its shape costs, in mm of joint.
    """

    cells: tuple[int, ...]
    polygon: Polygon
    cost: float


def choices(ground: Ground, net: Net) -> list[Choice]:
    """Every panel of the net within the span; every single cell in any case."""
    out = []
    for cells in sorted(_blocks(ground, net), key=lambda c: (len(c), c)):
        polygon = _joined([net.cells[c].polygon for c in cells])
        if polygon is None:
            continue
        shape = _plain(net, cells, polygon, ground.limits.span) or shape_of(
            polygon, ground.limits.angle
        )
        if within_span(shape, ground.limits):
            out.append(Choice(cells, polygon, _price(ground, polygon, shape)))
        elif len(cells) == 1:
            out.append(Choice(cells, polygon, OVER_SPAN))
    return out


def _plain(net: Net, cells: Sequence[int], polygon: Polygon, span: float) -> Shape | None:
    """The measures of a block that is all but a rectangle in the chart, without measuring it."""
    if not isinstance(net.chart, SquareChart) or len(polygon.interiors):
        return None
    sides = sorted(_sides(net, cells))
    if sides[1] > NEAR_SPAN * span or polygon.area < FULL_BOX * sides[0] * sides[1]:
        return None
    return Shape(sides[1], sides[0], 1.0, (), ())


def _price(ground: Ground, polygon: Polygon, shape: Shape) -> float:
    missed = sum(
        t.weight
        for t in ground.targets
        if t.weight and shapely.contains_properly(polygon, shapely.Point(t.at))
    )
    return shape_cost(shape, ground.limits) + missed + AROUND * len(polygon.interiors)


def _joined(polygons: Sequence[Polygon]) -> Polygon | None:
    """Cells as one polygon; None where they touch in points only."""
    if len(polygons) == 1:
        return polygons[0]
    parts = polygons_of(shapely.coverage_union_all(polygons))
    return parts[0] if len(parts) == 1 else None


def _blocks(ground: Ground, net: Net) -> set[tuple[int, ...]]:
    """The connected groups of cells between two lines of each axis, no longer than the span."""
    columns = _by_index(net)
    found: set[tuple[int, ...]] = set()
    for low in sorted(columns):
        found.update(_blocks_from(ground, net, columns, low))
    return found


def _by_index(net: Net) -> dict[tuple[int, int], list[int]]:
    out: dict[tuple[int, int], list[int]] = {}
    for number, cell in enumerate(net.cells):
        out.setdefault(cell.index, []).append(number)
    return out


def _blocks_from(
    ground: Ground, net: Net, columns: dict[tuple[int, int], list[int]], low: tuple[int, int]
) -> Iterator[tuple[int, ...]]:
    """Blocks whose least index along both axes is that of one cell."""
    most = SLACK * ground.limits.span
    lasts = max(i for i, _ in columns), max(j for _, j in columns)
    tallest = lasts[1]
    for right in range(low[0], lasts[0] + 1):
        for top in range(low[1], tallest + 1):
            members = [
                c
                for i in range(low[0], right + 1)
                for j in range(low[1], top + 1)
                for c in columns.get((i, j), ())
            ]
            groups = [
                g for g in _connected(net, members) if len(g) == 1 or max(_sides(net, g)) <= most
            ]
            if not groups and members:
                tallest = top - 1
                break
            yield from groups
        if tallest < low[1]:
            return


def _connected(net: Net, members: Sequence[int]) -> list[tuple[int, ...]]:
    """Groups of cells that hang together."""
    left = set(members)
    groups = []
    for start in members:
        if start not in left:
            continue
        left.discard(start)
        group, waiting = [start], [start]
        while waiting:
            for other in sorted(net.neighbours[waiting.pop()] & left):
                left.discard(other)
                group.append(other)
                waiting.append(other)
        groups.append(tuple(sorted(group)))
    return groups


def _sides(net: Net, group: Sequence[int]) -> tuple[float, float]:
    """The extents of a group in the chart."""
    boxes = [net.cells[c].box for c in group]
    return (
        max(b[2] for b in boxes) - min(b[0] for b in boxes),
        max(b[3] for b in boxes) - min(b[1] for b in boxes),
    )
