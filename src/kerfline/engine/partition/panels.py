"""The panels that a net allows: every block of cells that hang together between two lines of each axis.

A window of the net is grown column by column and row by row; what a narrower or lower window has found is
taken over, so that every step costs what it adds.
"""

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property, reduce
from operator import or_
from typing import NamedTuple

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.effort import Effort
from kerfline.engine.lines.charts import SquareChart, bounds_in
from kerfline.engine.measure.shape import (
    AT_ONCE,
    HALF_TURN,
    Shape,
    corners_of,
    rectangle_shape,
    shape_of,
    shapes_of,
)
from kerfline.engine.options import feet
from kerfline.engine.partition.net import SETTLED, Net, Seam, lengths_under
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.walls import STUB
from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN, MEASURE, SAME

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

Index = tuple[int, int]
"""How many candidate lines of each axis lie before a cell."""

Marks = dict[int, list["Group"]]
"""The cells between two lines of one axis, by how many lines lie before them."""


class Group(NamedTuple):
    """Cells that hang together.

    Attributes:
        cells: Their numbers as bits.
        near: The cells beside them as bits.
        low_u: Least first coordinate in the chart.
        low_v: Least second coordinate.
        high_u: Greatest first coordinate.
        high_v: Greatest second coordinate.
        area: Sum of their areas, mm2.
    """

    cells: int
    near: int
    low_u: float
    low_v: float
    high_u: float
    high_v: float
    area: float


def groups_of(net: Net, longest: float, effort: Effort | None = None) -> list[Group]:
    """The connected groups of cells between two lines of each axis, each once; every single cell in any case.

    Args:
        net: The net.
        longest: Longer ones in the chart (mm) are left out.
        effort: Of which it is spent.
    """
    columns: dict[int, dict[int, list[Group]]] = {}
    beside: tuple[Marks, Marks] = ({}, {})
    for single, cell in zip(_singles(net), net.cells, strict=True):
        column, row = cell.index
        columns.setdefault(column, {}).setdefault(row, []).append(single)
        for axis in (0, 1):
            beside[axis].setdefault(cell.index[axis], []).append(single)
    found: dict[int, Group] = {}
    windows = 0
    across, up = (_within_reach(beside[axis], axis, longest) for axis in (0, 1))
    for column, row in itertools.product(across, up):
        window = {c: {r: columns[c][r] for r in up[row] if r in columns[c]} for c in across[column]}
        for groups in _from((column, row), window, up[row], longest):
            windows += 1
            for group in groups:
                found.setdefault(group.cells, group)
    if effort is not None:
        effort.look_through(windows)
    return list(found.values())


def _within_reach(beside: Marks, axis: int, longest: float) -> dict[int, list[int]]:
    """For each column (or row) of cells itself and those after it with which some group may be short enough."""
    order = sorted(beside)
    low = {n: max(g[2 + axis] for g in beside[n]) for n in order}
    high = {n: min(g[4 + axis] for g in beside[n]) for n in order}
    return {
        n: [m for m in order if m >= n and (m == n or high[m] - low[n] <= longest)] for n in order
    }


def _singles(net: Net) -> list[Group]:
    """Each cell as a group of its own."""
    return [
        Group(1 << number, sum(1 << other for other in others), *cell.box, cell.polygon.area)
        for number, (cell, others) in enumerate(zip(net.cells, net.neighbours, strict=True))
    ]


def _from(
    low: Index, columns: dict[int, dict[int, list[Group]]], rows: Sequence[int], longest: float
) -> Iterator[list[Group]]:
    """Groups with a cell in the first column and one in the first row of a window, no longer than that: those that each row adds.

    Once all that touches either is too long, so is all that a higher window joins to it.
    """
    place = {r: n for n, r in enumerate(rows)}
    left = _cells_of(columns[low[0]].values())
    bottom = _cells_of(c[low[1]] for c in columns.values() if low[1] in c)
    if not left or not bottom:
        return
    across: list[list[Group]] = [[] for _ in rows]
    below: list[list[Group]] = [[] for _ in range(len(rows) + 1)]
    tallest = len(rows)
    for column in columns.values():
        added = {place[r]: c for r, c in column.items()}
        new = _cells_of(column.values())
        first = min(added, default=tallest)
        for row in range(first, tallest):
            across[row] = _merged(across[row], added[row]) if row in added else across[row]
            groups = _merged(below[row], across[row])
            below[row + 1] = groups
            rim = [g for g in groups if g.cells & (left | bottom)]
            short = [g for g in rim if _is_short(g, longest)]
            if rim and not short:
                tallest = row
                break
            yield [g for g in short if g.cells & new and g.cells & left and g.cells & bottom]
        if not tallest:
            return


def _cells_of(groups: Iterable[Sequence[Group]]) -> int:
    """The cells of groups as bits."""
    return reduce(or_, (g.cells for each in groups for g in each), 0)


def _is_short(group: Group, longest: float) -> bool:
    """Whether a group is no longer than that, or a single cell."""
    fits = group.high_u - group.low_u <= longest and group.high_v - group.low_v <= longest
    return fits or group.cells.bit_count() == 1


def _merged(groups: Sequence[Group], more: Sequence[Group]) -> list[Group]:
    """Groups of cells, with some more that may join them."""
    if len(groups) == len(more) == 1:  # all but always so, away from edges and openings
        return [_both(more[0], groups[0])] if groups[0].cells & more[0].near else [*groups, *more]
    out = list(groups)
    for one in more:
        near = one.near
        beside = [g for g in out if g.cells & near]
        if beside:
            out = [g for g in out if not g.cells & near]
        out.append(reduce(_both, beside, one))
    return out


def _both(one: Group, other: Group) -> Group:
    cells, near, low_u, low_v, high_u, high_v, area = one
    cells_b, near_b, low_u_b, low_v_b, high_u_b, high_v_b, area_b = other
    return Group(
        cells | cells_b,
        near | near_b,
        min(low_u, low_u_b),
        min(low_v, low_v_b),
        max(high_u, high_u_b),
        max(high_v, high_v_b),
        area + area_b,
    )


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
    found = zip(_numbers([g.cells for g in likely], len(net.cells)), likely, strict=True)
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
    """The measures of all blocks, and what those around openings cost more; endless for what is no panel."""
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
    """What blocks cost that hold a point inside which asks for a joint, or run through under a wall."""
    out = _passing(problem, net, cells)
    for near, weight in _asking(problem, net):
        out += np.where([near & g.cells == near for g in groups], weight, 0.0)
    held = _Hidden.under([w for w in problem.walls if not w.short], net)
    if held.cells:
        out += problem.cost.bare(np.array([held.bare(g.cells) for g in groups]))
    wished = _Hidden.under([w for w in problem.walls if w.short], net)
    if wished.cells:
        out += [problem.weights.wall_short * wished.bare(g.cells) for g in groups]
    return out


def _passing(problem: Problem, net: Net, cells: Sequence[tuple[int, ...]]) -> Numbers:
    """What blocks cost whose side runs on past a point where joints should cross or end a row."""
    out = np.zeros(len(cells))
    block = np.repeat(np.arange(len(cells)), [len(own) for own in cells])
    member = np.array(list(itertools.chain.from_iterable(cells)), dtype=np.int64)
    for at, weight in problem.passed:
        angles = _angles_at(at, [cell.polygon for cell in net.cells])
        if not angles:
            continue
        of_cell = np.zeros(len(net.cells))
        of_cell[list(angles)] = list(angles.values())
        here = np.bincount(block, of_cell[member], len(cells))
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


class _Hidden(NamedTuple):
    """The seams under some walls.

    Attributes:
        cells: The cells beside them, the lower of each two, as bits.
        beyond: For each of these the cells beyond its seams, as bits, and the length of wall (mm) there.
    """

    cells: int
    beyond: dict[int, list[tuple[int, float]]]

    @staticmethod
    def under(walls: Sequence[AskingLine], net: Net) -> "_Hidden":
        """The seams of a net under some walls."""
        lengths = lengths_under(walls, net).tolist()
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

    def bare(self, block: int) -> float:
        """Length of wall (mm) under which a block of cells runs through."""
        out, rest = 0.0, block & self.cells
        while rest:
            lowest = rest & -rest
            rest ^= lowest
            for bit, length in self.beyond[lowest.bit_length() - 1]:
                if bit & block:
                    out += length
        return out


def _joined(polygons: Sequence[Polygon]) -> Polygon | None:
    """Cells as one polygon; None where they touch in points only."""
    if len(polygons) == 1:
        return polygons[0]
    parts = polygons_of(shapely.coverage_union_all(polygons))
    return parts[0] if len(parts) == 1 else None


def _numbers(blocks: Sequence[int], count: int) -> list[tuple[int, ...]]:
    """The cells of blocks as numbers, in order.

    Args:
        blocks: The blocks, each its cells as bits.
        count: How many cells there are.
    """
    size = -(-count // 8)
    out: list[tuple[int, ...]] = []
    for first in range(0, len(blocks), AT_ONCE):
        some = blocks[first : first + AT_ONCE]
        packed = np.frombuffer(b"".join(b.to_bytes(size, "little") for b in some), dtype=np.uint8)
        bits = np.unpackbits(packed.reshape(-1, size), axis=1, bitorder="little")
        block, cell = np.nonzero(bits)
        stops = np.cumsum(np.bincount(block, minlength=len(some))).tolist()
        numbers = cell.tolist()
        out += [tuple(numbers[a:b]) for a, b in itertools.pairwise([0, *stops])]
    return out
