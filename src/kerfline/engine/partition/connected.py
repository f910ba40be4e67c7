"""The cells of a net that hang together between two lines of each axis.

A window of the net is grown column by column and row by row; what a narrower or lower window has found is
taken over, so that every step costs what it adds.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_
from typing import NamedTuple

from kerfline.engine.partition.net import Net

Index = tuple[int, int]
"""How many candidate lines of each axis lie before a cell."""


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


def groups_of(net: Net, longest: float) -> list[Group]:
    """The connected groups of cells between two lines of each axis, each once; every single cell in any case.

    Args:
        net: The net.
        longest: Longer ones in the chart (mm) are left out.
    """
    columns: dict[int, dict[int, list[Group]]] = {}
    for single, cell in zip(_singles(net), net.cells, strict=True):
        column, row = cell.index
        columns.setdefault(column, {}).setdefault(row, []).append(single)
    found: dict[int, Group] = {}
    for low in sorted({c.index for c in net.cells}):
        for group in _from(low, columns, longest):
            found.setdefault(group.cells, group)
    return list(found.values())


def _singles(net: Net) -> list[Group]:
    """Each cell as a group of its own."""
    return [
        Group(1 << number, sum(1 << other for other in others), *cell.box, cell.polygon.area)
        for number, (cell, others) in enumerate(zip(net.cells, net.neighbours, strict=True))
    ]


def _from(
    low: Index, columns: dict[int, dict[int, list[Group]]], longest: float
) -> Iterator[Group]:
    """Groups in windows whose least indices are those of one cell."""
    rows = sorted({row for column in columns.values() for row in column if row >= low[1]})
    across: list[list[Group]] = [[] for _ in rows]
    below: list[list[Group]] = [[] for _ in range(len(rows) + 1)]
    tallest = len(rows)
    for column in sorted(c for c in columns if c >= low[0]):
        added = {bisect_left(rows, r): c for r, c in columns[column].items() if r >= low[1]}
        new = reduce(or_, (g.cells for c in added.values() for g in c), 0)
        first = min(added, default=tallest)
        for row in range(first, tallest):
            across[row] = _merged(across[row], added[row]) if row in added else across[row]
            groups = _merged(below[row], across[row])
            below[row + 1] = groups
            short = [g for g in groups if _is_short(g, longest)]
            if groups and not short:
                tallest = row
                break
            yield from (g for g in short if g.cells & new)
        if not tallest:
            return


def _is_short(group: Group, longest: float) -> bool:
    """Whether a group is no longer than that, or a single cell."""
    fits = group.high_u - group.low_u <= longest and group.high_v - group.low_v <= longest
    return fits or group.cells.bit_count() == 1


def _merged(groups: Sequence[Group], more: Sequence[Group]) -> list[Group]:
    """Groups of cells, with some more that may join them."""
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
