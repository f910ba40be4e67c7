"""A grid's set partition against every way to lay rectangles on it; a net's against a programme that names every cell."""

from itertools import product

import numpy as np
import pytest
import scipy.optimize
import scipy.sparse
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from kerfline.engine.effort import Effort
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.formulation import grid_partition, seam_prices
from kerfline.engine.partition.net import SETTLED, net_of
from kerfline.engine.partition.on_chart import GAP, both_families, cover
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.partition.rectangles import all_panels
from kerfline.engine.partition.set_partition import Rows, SetPartition, by_panel
from kerfline.engine.partition.solve import best_cover
from kerfline.engine.problem import Problem
from kerfline.model.layout import WorkingLimits
from kerfline.units import MM_PER_FOOT
from unit.engine.grids import boxes, grid_of, region_on

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


def model(grid, panels, costs, hidden=None, images=None):
    under = (
        np.zeros((len(grid.places[0]), len(grid.places[1])), dtype=bool)
        if hidden is None
        else hidden
    )
    own = np.arange(len(panels)) if images is None else images
    return grid_partition(grid, panels, np.asarray(costs, dtype=float), WEIGHTS, under, own)


def covers(grid, panels):
    """Every choice of panels that lays each cell of slab once, as numbers of panels."""
    cells = {tuple(c) for c in np.argwhere(grid.inside).tolist()}
    own = [set(product(range(b[0], b[1]), range(b[2], b[3]))) for b in boxes(panels)]

    def lay(left, chosen):
        if not left:
            yield chosen
            return
        first = min(left)
        for n, held in enumerate(own):
            if first in held and held <= left:
                yield from lay(left - held, [*chosen, n])

    yield from lay(cells, [])


def joints(grid, panels, chosen):
    """Which panel lies on each cell; a piece is a joint where the two beside it differ."""
    on = np.full(grid.inside.shape, -1)
    for n in chosen:
        a, b, c, d = boxes(panels)[n]
        on[a:b, c:d] = n
    return grid.interior[0][1:-1] & (on[:-1] != on[1:]), grid.interior[1][1:-1] & (
        on.T[:-1] != on.T[1:]
    )


def price(grid, panels, costs, chosen, hidden):
    """Panels, tees at inner vertices where a joint stops, and a chalk line for each line in use."""
    up, across = joints(grid, panels, chosen)
    total = sum(costs[n] for n in chosen) + feet(WEIGHTS.line) * float(
        up.any(axis=1).sum() + across.any(axis=1).sum()
    )
    nx, ny = grid.inside.shape
    for i, j in product(range(1, nx), range(1, ny)):
        if grid.inside[i - 1 : i + 1, j - 1 : j + 1].all() and (
            up[i - 1, j - 1] != up[i - 1, j] or across[j - 1, i - 1] != across[j - 1, i]
        ):
            total += feet(WEIGHTS.tee_hidden if hidden[i, j] else WEIGHTS.tee)
    return total


SHAPES = {
    "hall": grid_of((0, 1000, 2000, 3000), (0, 1000, 2000)),
    "ell": grid_of((0, 1000, 2000, 3000), (0, 1000, 2000), out=((2, 1),)),
    "court": grid_of((0, 1000, 2000, 3000), (0, 1000, 2000, 3000), out=((1, 1),)),
}


@pytest.mark.parametrize("name", SHAPES)
@settings(max_examples=8)
@given(st.integers(0, 2**31))
def test_the_cheapest_cover_is_the_cheapest_of_all(name, seed):
    grid = SHAPES[name]
    rng = np.random.default_rng(seed)
    panels = all_panels(grid, region_on(grid), 2000.0)
    costs = rng.integers(0, 5000, len(panels)).astype(float)
    hidden = rng.random((len(grid.places[0]), len(grid.places[1]))) < 0.3
    found = best_cover(
        model(grid, panels, costs, hidden), np.ones(len(panels), dtype=bool), Effort(5.0)
    )
    best = min(price(grid, panels, costs, c, hidden) for c in covers(grid, panels))
    assert found.cost == pytest.approx(best, rel=2e-4)
    assert price(grid, panels, costs, list(found.chosen), hidden) == pytest.approx(found.cost)


def test_images_are_taken_together_or_not_at_all():
    """Two cells side by side: the left one for nothing and the right one dear; together, the whole is cheaper."""
    grid = grid_of((0, 1000, 2000), (0, 1000))
    panels = all_panels(grid, region_on(grid), 2000.0)
    place = {b: n for n, b in enumerate(boxes(panels))}
    left, right, whole = (place[b] for b in ((0, 1, 0, 1), (1, 2, 0, 1), (0, 2, 0, 1)))
    costs, images = np.zeros(3), np.arange(3)
    costs[right], costs[whole] = 900.0, 1000.0
    images[max(left, right)] = min(left, right)
    found = best_cover(
        model(grid, panels, costs, images=images), np.ones(3, dtype=bool), Effort(1.0)
    )
    assert found.chosen.tolist() == [whole]
    assert found.cost == pytest.approx(1000.0)


def test_the_columns_that_follow_are_pieces_then_tees_then_lines():
    """3 x 2 cells: seven pieces, two inner vertices, three lines that can be used."""
    grid = SHAPES["hall"]
    panels = all_panels(grid, region_on(grid), 2000.0)
    made = model(grid, panels, np.zeros(len(panels)))
    assert made.first_line == 7 + 2
    assert len(made.cost) == 7 + 2 + 3
    assert made.cost[:7].max() == 0
    assert made.cost[7:9].tolist() == [feet(WEIGHTS.tee)] * 2
    assert made.cost[9:].tolist() == [feet(WEIGHTS.line)] * 3
    assert made.area.sum() == pytest.approx(float((panels.size[0] * panels.size[1]).sum()))
