"""The groups of cells against a search of every window by itself."""

from itertools import product

import pytest
from shapely import LineString

from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.partition.groups import groups_of
from kerfline.engine.partition.net import net_of
from unit.engine.partition.pieces import PIECES, SIZE, lines


def by_windows(net, longest):
    """Every connected group of every window."""
    found = set()
    indices = [c.index for c in net.cells]
    for low in product({i for i, _ in indices}, {j for _, j in indices}):
        for right in range(low[0], max(i for i, _ in indices) + 1):
            for top in range(low[1], max(j for _, j in indices) + 1):
                window = {
                    n
                    for n, (i, j) in enumerate(indices)
                    if low[0] <= i <= right and low[1] <= j <= top
                }
                found |= {frozenset(g) for g in connected(net, window)}
    return {g for g in found if len(g) == 1 or reach(net, g) <= longest}


def connected(net, window):
    rest = set(window)
    while rest:
        group, waiting = set(), [rest.pop()]
        while waiting:
            cell = waiting.pop()
            group.add(cell)
            beside = net.neighbours[cell] & rest
            rest -= beside
            waiting += beside
        yield group


def reach(net, group):
    boxes = [net.cells[c].box for c in group]
    return max(max(b[a + 2] for b in boxes) - min(b[a] for b in boxes) for a in (0, 1))


def cells_of(bits):
    return frozenset(n for n in range(bits.bit_length()) if bits >> n & 1)


@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("walled", [False, True])
def test_groups_are_the_connected_parts_of_all_windows(name, walled):
    walls = [LineString([(-1, 2500), (SIZE + 1, 9500)])] if walled else []
    piece = PIECES[name]
    net = net_of(piece, SquareChart(), lines(0, 5), lines(1, 4), walls)
    found = groups_of(net, 4500.0)
    assert {cells_of(g.cells) for g in found} == by_windows(net, 4500.0)
    assert len({g.cells for g in found}) == len(found)


def test_groups_carry_the_sums_of_their_cells():
    net = net_of(PIECES["slanted"], SquareChart(), lines(0, 5), lines(1, 4), [])
    for group in groups_of(net, 5000.0):
        cells = cells_of(group.cells)
        assert group.area == pytest.approx(sum(net.cells[c].polygon.area for c in cells))
        assert reach(net, cells) == max(group.high_u - group.low_u, group.high_v - group.low_v)
