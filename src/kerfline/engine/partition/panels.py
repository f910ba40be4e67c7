"""The panels that a net allows: every block of cells between two lines of each axis."""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import cached_property

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.lines.charts import SquareChart, bounds_in
from kerfline.engine.measure.cost import feet
from kerfline.engine.measure.many_shapes import corners_of, shapes_of
from kerfline.engine.measure.shape import Shape, rectangle_shape, shape_of
from kerfline.engine.partition.connected import Group, groups_of
from kerfline.engine.partition.net import Net
from kerfline.engine.partition.under_walls import walls_on
from kerfline.engine.problem import Problem
from kerfline.engine.regions.asking import AskingLine
from kerfline.engine.regions.walls import STUB
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import MEASURE, SAME

SLACK = 1.1
"""Blocks longer in the chart than this share of the span are not looked at."""

NEAR_SPAN = 0.99
"""Blocks longer than this share of the span are measured to the hair."""

FULL_BOX = 0.99
"""A block that fills this share of its box in a square chart is a rectangle."""

CONVEX = 0.999
"""A block that fills this share of its convex hull has the hull's straight runs."""

OVER_SPAN = 1e6
"""What a single cell over the span costs, in mm of joint: it is divided afterwards."""


@dataclass(frozen=True)
class CandidatePanel:
    """A panel that may be chosen.

    Attributes:
        cells: Its cells, in order.
        parts: Polygons that make it up.
        cost: What its shape costs, in mm of joint.
        area: Its area, mm2.
    """

    cells: tuple[int, ...]
    parts: tuple[Polygon, ...]
    cost: float
    area: float

    @cached_property
    def polygon(self) -> Polygon:
        """Its outline."""
        return _joined(self.parts) or self.parts[0]


def candidate_panels(problem: Problem, net: Net) -> list[CandidatePanel]:
    """Every panel of the net within the span; every single cell in any case."""
    needed = _under_walls([w for w in problem.walls if w.needed], net)
    groups = groups_of(net, SLACK * problem.greatest)
    problem.effort.measure(len(groups))
    found = ((_numbers(g.cells), g) for g in groups)
    likely = (f for f in found if not needed or _bare(needed, f[1].cells, f[0]) <= STUB)
    ordered = sorted(likely, key=lambda f: (len(f[0]), f[0]))
    cells, groups = [f[0] for f in ordered], [f[1] for f in ordered]
    shape, around = _measured(problem, net, cells, groups)
    prices = problem.cost.of(shape) + problem.cost.uneven(shape) + around
    prices += _missed(problem, net, cells, groups)
    within = shape.span <= problem.greatest + MEASURE / 2
    single = np.array([len(c) == 1 for c in cells])
    prices = np.where(within, prices, OVER_SPAN)
    return [
        CandidatePanel(
            cells[n],
            tuple(net.cells[c].polygon for c in cells[n]),
            float(prices[n]),
            groups[n].area,
        )
        for n in np.flatnonzero(within | single).tolist()
    ]


def _measured(
    problem: Problem, net: Net, cells: Sequence[tuple[int, ...]], groups: Sequence[Group]
) -> tuple[Shape, Numbers]:
    """The measures of all blocks, and what those around openings cost more; endless for what is no panel."""
    boxes = np.array([g[2:6] for g in groups]).reshape(-1, 4)
    sides = rectangle_shape(boxes[:, 2] - boxes[:, 0], boxes[:, 3] - boxes[:, 1])
    table = np.zeros((len(fields(Shape)), len(groups)))
    table[0], table[1], table[2], table[3] = sides.length, sides.width, sides.span, 1.0
    table[8] = [g.area for g in groups]
    odd = np.flatnonzero(~_is_plain(problem, net, groups, boxes, sides))
    all_corners = corners_of([c.polygon for c in net.cells])
    angle, knees = problem.limits.angle, problem.knees
    measured, solid = shapes_of(all_corners, [cells[n] for n in odd.tolist()], angle, knees)
    table[:, odd] = [getattr(measured, f.name) for f in fields(Shape)]
    around = np.zeros(len(groups))
    span = problem.greatest
    hooked = (measured.fullness < CONVEX) & (measured.length <= span) & (measured.span > span)
    for n in odd[~solid | hooked].tolist():
        polygon = _joined([net.cells[c].polygon for c in cells[n]])
        if polygon is None:
            table[2, n] = np.inf
            continue
        drawn = shape_of(polygon, angle, knees)
        table[:, n] = [getattr(drawn, f.name) for f in fields(Shape)]
        around[n] = feet(problem.weights.around) * len(polygon.interiors)
    return Shape(*table), around


def _missed(
    problem: Problem, net: Net, cells: Sequence[tuple[int, ...]], groups: Sequence[Group]
) -> Numbers:
    """What blocks cost that hold a point inside which asks for a joint, or run through under a wall."""
    out = np.zeros(len(groups))
    for near, weight in _asking(problem, net):
        out += np.where([near & g.cells == near for g in groups], weight, 0.0)
    under = _under_walls([w for w in problem.walls if not w.short], net)
    if under:
        out += problem.cost.bare(
            np.array([_bare(under, g.cells, c) for c, g in zip(cells, groups, strict=True)])
        )
    wished = _under_walls([w for w in problem.walls if w.short], net)
    if wished:
        out += [
            problem.weights.wall_short * _bare(wished, g.cells, c)
            for c, g in zip(cells, groups, strict=True)
        ]
    return out


def _is_plain(
    problem: Problem, net: Net, groups: Sequence[Group], boxes: Numbers, sides: Shape
) -> Flags:
    """Which blocks are all but rectangles in the chart, and need not be measured."""
    if not isinstance(net.chart, SquareChart):
        return np.zeros(len(groups), dtype=bool)
    areas = np.array([g.area for g in groups])
    plain = (sides.length <= NEAR_SPAN * problem.limits.span) & (
        areas >= FULL_BOX * sides.length * sides.width
    )
    for hole in problem.concrete.interiors:
        u0, v0, u1, v1 = bounds_in(net.chart, Polygon(hole))
        plain &= ~(
            (boxes[:, 0] < u1) & (u0 < boxes[:, 2]) & (boxes[:, 1] < v1) & (v0 < boxes[:, 3])
        )
    return np.asarray(plain)


def _asking(problem: Problem, net: Net) -> list[tuple[int, float]]:
    """Points that ask for a joint: the cells that touch each, as bits, and what missing it costs."""
    polygons = [c.polygon for c in net.cells]
    inner = problem.concrete.buffer(-2 * SAME)
    out = []
    for target in problem.targets:
        spot = shapely.Point(target.at)
        if target.weight and inner.contains(spot):
            near = np.flatnonzero(shapely.dwithin(polygons, spot, SAME)).tolist()
            out.append((sum(1 << n for n in near), target.weight))
    return out


def _under_walls(walls: Sequence[AskingLine], net: Net) -> dict[int, list[tuple[int, float]]]:
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
