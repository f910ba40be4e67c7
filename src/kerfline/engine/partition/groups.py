"""The groups of cells of a net that may be panels: those that hang together between two lines of each axis.

A window of the net is grown column by column and row by row; what a narrower or lower window has found is
taken over, so that every step costs what it adds.
"""

import itertools
from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from operator import or_
from typing import NamedTuple

import numpy as np

from kerfline.engine.effort import Effort
from kerfline.engine.measure.shape import AT_ONCE
from kerfline.engine.partition.net import Net

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
    either = left | bottom
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
            short = [g for g in groups if g.cells & either and _is_short(g, longest)]
            if not short and any(g.cells & either for g in groups):
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


def numbers_of(groups: Sequence[int], count: int) -> list[tuple[int, ...]]:
    """The cells of groups as numbers, in order.

    Args:
        groups: The groups, each its cells as bits.
        count: How many cells there are.
    """
    size = -(-count // 8)
    out: list[tuple[int, ...]] = []
    for first in range(0, len(groups), AT_ONCE):
        some = groups[first : first + AT_ONCE]
        packed = np.frombuffer(b"".join(g.to_bytes(size, "little") for g in some), dtype=np.uint8)
        bits = np.unpackbits(packed.reshape(-1, size), axis=1, bitorder="little")
        group, cell = np.nonzero(bits)
        stops = np.cumsum(np.bincount(group, minlength=len(some))).tolist()
        numbers = cell.tolist()
        out += [tuple(numbers[a:b]) for a, b in itertools.pairwise([0, *stops])]
    return out
