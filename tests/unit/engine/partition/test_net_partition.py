"""The set partition of a net against a programme that names every cell, and what bounds its search."""

import numpy as np
import pytest
import scipy.optimize
import scipy.sparse
from shapely import LineString, Polygon

from kerfline.engine.effort import Effort
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.options import Weights
from kerfline.engine.partition.net import SETTLED, net_of
from kerfline.engine.partition.net_partition import GAP, cover, seam_prices
from kerfline.engine.partition.on_chart import both_families
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.partition.set_partition import Rows, SetPartition, by_panel
from kerfline.engine.partition.solve import best_cover
from kerfline.engine.problem import Problem
from kerfline.model.layout import WorkingLimits
from kerfline.units import MM_PER_FOOT

LIMITS = WorkingLimits(span=4000.0, aspect=1.5, width=600.0, angle=60.0)
WEIGHTS = Weights()
TEE = WEIGHTS.tee * MM_PER_FOOT
PIECES = {
    "skew": (
        Polygon([(0, 0), (11000, 900), (10200, 8000), (6500, 7600), (6300, 5200), (-800, 5000)]),
        [],
    ),
    "walled": (
        Polygon([(0, 0), (9000, 700), (9400, 8000), (-300, 7800)]),
        [LineString([(-2000, 2500), (12000, 6500)])],
    ),
    "pitted": (
        Polygon(
            [(0, 0), (7000, 600), (6800, 6000), (0, 5500)],
            [[(2000, 2500), (3500, 2600), (3400, 3600), (2000, 3500)]],
        ),
        [],
    ),
}


def netted(name):
    shape, walls = PIECES[name]
    required = [w.intersection(shape) for w in walls]
    problem = Problem(concrete=shape, limits=LIMITS)
    chart = SquareChart()
    firsts, seconds = both_families(problem, chart)
    return problem, net_of(shape, chart, firsts, seconds, required)


def meetings(net):
    """The seams of one line that meet at each place in the open."""
    ends = {}
    for number, seam in enumerate(net.seams):
        for node in seam.nodes:
            if seam.line != SETTLED and not net.edge[node]:
                ends.setdefault((node, seam.line), []).append(number)
    return ends.values()


def by_cells(problem, net, panels):
    """The least cost, each cell and each seam with a row that names all its panels."""
    prices = seam_prices(problem, net)
    count, joints = len(panels), len(prices)
    cost = [*(p.cost for p in panels), *prices]
    rows, low, high = [], [], []

    def row(least, most, terms):
        rows.append(terms)
        low.append(least)
        high.append(most)

    for cell in range(len(net.cells)):
        row(1, 1, {n: 1.0 for n, p in enumerate(panels) if cell in p.cells})
    for number, seam in enumerate(net.seams):
        inside = {n: 1.0 for n, p in enumerate(panels) if set(seam.cells) <= set(p.cells)}
        row(1, 1, {count + number: 1.0, **({} if seam.line == SETTLED else inside)})
    for meet in meetings(net):
        if len(meet) == 2:
            cost.append(TEE)
            for one, other in (meet, meet[::-1]):
                row(0, np.inf, {len(cost) - 1: 1.0, count + one: -1.0, count + other: 1.0})
        else:
            cost[count + meet[0]] += TEE
    for line in range(len(net.lines)):
        cost.append(WEIGHTS.line * MM_PER_FOOT)
        for number in (n for n, s in enumerate(net.seams) if s.line == line):
            row(0, np.inf, {len(cost) - 1: 1.0, count + number: -1.0})
    matrix = scipy.sparse.lil_array((len(rows), len(cost)))
    for number, terms in enumerate(rows):
        for column, value in terms.items():
            matrix[number, column] = value
    whole = np.arange(len(cost)) < count + joints
    best = scipy.optimize.milp(
        cost,
        integrality=whole,
        bounds=scipy.optimize.Bounds(0, 1),
        constraints=scipy.optimize.LinearConstraint(matrix.tocsr(), low, high),
    )
    return best.fun


@pytest.mark.parametrize("name", PIECES)
def test_rows_along_rims_cost_what_rows_of_cells_do(name):
    problem, net = netted(name)
    panels = candidate_panels(problem, net)
    found = cover(problem, net, panels)
    least = by_cells(problem, net, panels)
    assert found.cost >= least - 1.0
    assert found.cost <= least * (1 + GAP)
    assert found.bound <= least + 1.0
    cells = sorted(c for n in found.chosen for c in panels[n].cells)
    assert cells == list(range(len(net.cells)))


REST = 100_000.0
CELLS = ((0, 1), (0, 2), (1, 2), (0,), (1,), (2,), (3,))
PRICES = (10.0, 10.0, 10.0, 100.0, 100.0, 100.0, REST)


def triangles():
    """Three cells of which any two make a panel, beside a large rest: half of each is cheapest, not whole."""
    rows = Rows()
    rows.open(1.0, 1.0, 4)
    follows = rows.open(-np.inf, 0.0)  # a column that follows, as a programme has at least one
    rows.put(follows, 0, -1.0)
    pairs = [(n, cell) for n, cells in enumerate(CELLS) for cell in cells]
    panel, row = (np.array(side) for side in zip(*pairs, strict=True))
    starts, panel_rows = by_panel(panel, row, len(CELLS))
    return SetPartition(
        cost=np.zeros(1),
        rows=rows,
        first_line=1,
        panel_cost=np.array(PRICES),
        starts=starts,
        panel_rows=panel_rows,
        images=np.arange(len(CELLS)),
        area=np.array([float(len(cells)) for cells in CELLS]),
        single=np.array([len(cells) == 1 for cells in CELLS]),
    )


def every(flag):
    return np.full(len(CELLS), flag)


def test_what_is_not_whole_is_searched_and_bounded():
    found = best_cover(triangles(), every(True), Effort(1.0))
    assert found.cost == pytest.approx(REST + 110.0)
    assert REST + 15.0 - 1e-3 <= found.bound <= REST + 110.0
    assert sorted(cell for n in found.chosen for cell in CELLS[n]) == [0, 1, 2, 3]


def test_panels_that_are_left_out_at_first_are_priced_in():
    """It begins with the single cells alone; the pairs pay, so they come in."""
    found = best_cover(triangles(), every(False), Effort(1.0))
    assert found.cost == pytest.approx(REST + 110.0)


def test_reduced_costs_are_what_the_prices_of_the_rows_do_not_pay():
    duals = np.array([5.0, 7.0, 11.0, 13.0, 17.0])
    expected = [p - sum(duals[c] for c in cells) for p, cells in zip(PRICES, CELLS, strict=True)]
    assert triangles().reduced_costs(duals) == pytest.approx(expected)


def test_work_is_counted_where_it_is_done():
    effort = Effort(1.0)
    assert best_cover(triangles(), every(True), effort) is not None
    assert 0.0 < effort.left < 1.0


def test_a_piece_of_one_cell_without_a_seam_is_one_panel():
    problem = Problem(concrete=Polygon([(0, 0), (3000, 0), (3000, 2500), (0, 2500)]), limits=LIMITS)
    net = net_of(problem.concrete, SquareChart(), (), (), ())
    found = cover(problem, net, candidate_panels(problem, net))
    assert (found.chosen, found.seams) == ((0,), ())
