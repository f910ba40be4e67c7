"""The panels that a net allows: its groups of cells within the span, each with what it costs."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.lines.charts import SquareChart, bounds_in
from kerfline.engine.measure.shape import (
    HALF_TURN,
    Shape,
    corners_of,
    rectangle_shape,
    shape_of,
    shapes_of,
)
from kerfline.engine.options import feet
from kerfline.engine.partition.groups import Group, groups_of, numbers_of
from kerfline.engine.partition.net import SETTLED, Net, Seam, lengths_under
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.walls import STUB
from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN, MEASURE, SAME

SLACK = 1.1
"""Groups longer in the chart than this share of the span are not looked at."""

NEAR_SPAN = 0.99
"""Groups longer than this share of the span are measured to the hair."""

FULL_BOX = 0.99
"""A group that fills this share of its box in a square chart is a rectangle."""

CONVEX = 0.999
"""A group that fills this share of its convex hull has the hull's straight runs."""

OVER_SPAN = 1e6
"""What a single cell over the span costs, in mm of joint: it is divided afterwards."""


@dataclass(frozen=True)
class CandidatePanel:
    """A panel that may be chosen.

    Attributes:
        cells: Its cells, in order.
        net: The net that they are of.
        cost: What its shape costs, in mm of joint.
        area: Its area, mm2.
    """

    cells: tuple[int, ...]
    net: Net = field(repr=False, compare=False)
    cost: float
    area: float

    @cached_property
    def polygon(self) -> Polygon:
        """Its outline."""
        parts = [self.net.cells[c].polygon for c in self.cells]
        return _joined(parts) or parts[0]


def candidate_panels(problem: Problem, net: Net) -> list[CandidatePanel]:
    """Every panel of the net within the span; every single cell in any case."""
    needed = _Hidden.under([w for w in problem.walls if w.needed], net)
    groups = groups_of(net, SLACK * problem.greatest, problem.effort)
    problem.effort.measure(len(groups))
    settled = _Hidden.along_settled(net)
    likely = [g for g in groups if needed.bare(g.cells) <= STUB and not settled.bare(g.cells)]
    found = zip(numbers_of([g.cells for g in likely], len(net.cells)), likely, strict=True)
    ordered = sorted(found, key=lambda f: (len(f[0]), f[0]))
    cells, groups = [f[0] for f in ordered], [f[1] for f in ordered]
    shape, around = _measured(problem, net, cells, groups)
    prices = problem.cost.of(shape) + problem.cost.uneven(shape) + around
    prices += _missed(problem, net, cells, groups)
    within = shape.span <= problem.greatest + MEASURE
    single = np.array([len(c) == 1 for c in cells])
    prices = np.where(within, prices, OVER_SPAN)
    costs = prices.tolist()
    return [
        CandidatePanel(cells[n], net, costs[n], groups[n].area)
        for n in np.flatnonzero(within | single).tolist()
    ]


def _measured(
    problem: Problem, net: Net, cells: Sequence[tuple[int, ...]], groups: Sequence[Group]
) -> tuple[Shape, Numbers]:
    """The measures of all groups, and what those around openings cost more; endless for what is no panel."""
    boxes = np.array([g[2:6] for g in groups]).reshape(-1, 4)
    sides = rectangle_shape(boxes[:, 2] - boxes[:, 0], boxes[:, 3] - boxes[:, 1])
    table = np.zeros((len(fields(Shape)), len(groups)))
    table[0], table[1], table[2], table[3] = sides.length, sides.width, sides.span, 1.0
    table[8] = [g.area for g in groups]
    odd = np.flatnonzero(~_is_plain(problem, net, groups, boxes, sides))
    problem.effort.measure(len(odd))  # those that are no rectangles take as long again
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
    """What groups cost that hold a point inside which asks for a joint, or run through under a wall."""
    out = _passing(problem, net, cells)
    for near, weight in _asking(problem, net):
        out += np.where([near & g.cells == near for g in groups], weight, 0.0)
    out += _bare_walls(problem, net, groups)
    wished = _Hidden.under([w for w in problem.walls if w.short], net)
    if wished.cells:
        out += [problem.weights.wall_short * wished.bare(g.cells) for g in groups]
    return out


def _bare_walls(problem: Problem, net: Net, groups: Sequence[Group]) -> Numbers:
    """What groups cost that run through under walls which are to have their joints; under a stub they may."""
    walls = [w for w in problem.walls if not w.short]
    held = _Hidden.under(walls, net)
    if not held.cells:
        return np.zeros(len(groups))
    owed = _Hidden.under(walls, net, [problem.cost.bare_rate(w.path.length) for w in walls])
    return np.array(
        [owed.bare(g.cells) if held.bare(g.cells) > STUB else 0.0 for g in groups], dtype=float
    )


def _passing(problem: Problem, net: Net, cells: Sequence[tuple[int, ...]]) -> Numbers:
    """What groups cost whose side runs on past a point where joints should cross or end a row."""
    out = np.zeros(len(cells))
    group = np.repeat(np.arange(len(cells)), [len(own) for own in cells])
    member = np.array(list(itertools.chain.from_iterable(cells)), dtype=np.int64)
    for at, weight in problem.passed:
        angles = _angles_at(at, [cell.polygon for cell in net.cells])
        if not angles:
            continue
        of_cell = np.zeros(len(net.cells))
        of_cell[list(angles)] = list(angles.values())
        here = np.bincount(group, of_cell[member], len(cells))
        out += np.where(np.abs(here - HALF_TURN) <= CORNER_TURN, weight, 0.0)
    return out


def _angles_at(at: Point, polygons: Sequence[Polygon]) -> dict[int, float]:
    """The cells that have a corner at a point, by number, and their angle there, degrees."""
    near = np.flatnonzero(shapely.dwithin(np.asarray(polygons), shapely.Point(at), SAME)).tolist()
    if not near:
        return {}
    found = corners_of([polygons[n] for n in near])
    there = np.hypot(*(found.places - np.asarray(at)).T) <= SAME
    cell = np.repeat(near, np.diff(found.starts))
    return {
        int(n): float(angle)
        for n, corner, angle in zip(cell, found.corner, found.angle, strict=True)
        if there[corner]
    }


def _is_plain(
    problem: Problem, net: Net, groups: Sequence[Group], boxes: Numbers, sides: Shape
) -> Flags:
    """Which groups are all but rectangles in the chart, and need not be measured."""
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


class _Hidden(NamedTuple):
    """The seams under some walls.

    Attributes:
        cells: The cells beside them, the lower of each two, as bits.
        beyond: For each of these the cells beyond its seams, as bits, and the length of wall (mm) there.
    """

    cells: int
    beyond: dict[int, list[tuple[int, float]]]

    @staticmethod
    def under(
        walls: Sequence[AskingLine], net: Net, rates: Sequence[float] | None = None
    ) -> "_Hidden":
        """The seams of a net under some walls, their lengths times the rates of the walls where there are any."""
        lengths = lengths_under(walls, net, rates).tolist()
        found = zip(net.seams, lengths, strict=True)
        return _Hidden.of((s, x) for s, x in found if x > SAME and s.line != SETTLED)

    @staticmethod
    def along_settled(net: Net) -> "_Hidden":
        """The seams of a net that are joints already: one inside a panel would end in the open."""
        return _Hidden.of((s, s.path.length) for s in net.seams if s.line == SETTLED)

    @staticmethod
    def of(seams: Iterable[tuple[Seam, float]]) -> "_Hidden":
        """Some seams, and the length of each that counts."""
        beyond: dict[int, list[tuple[int, float]]] = {}
        for seam, length in seams:
            beyond.setdefault(min(seam.cells), []).append((1 << max(seam.cells), length))
        return _Hidden(sum(1 << cell for cell in beyond), beyond)

    def bare(self, cells: int) -> float:
        """Length of wall (mm) under which a group of cells runs through."""
        out, rest = 0.0, cells & self.cells
        while rest:
            lowest = rest & -rest
            rest ^= lowest
            for bit, length in self.beyond[lowest.bit_length() - 1]:
                if bit & cells:
                    out += length
        return out


def _joined(polygons: Sequence[Polygon]) -> Polygon | None:
    """Cells as one polygon; None where they touch in points only."""
    if len(polygons) == 1:
        return polygons[0]
    parts = polygons_of(shapely.coverage_union_all(polygons))
    return parts[0] if len(parts) == 1 else None
