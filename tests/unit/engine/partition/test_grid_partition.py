"""The set partition of a grid against every way to lay rectangles on it, priced one by one."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.engine.effort import Effort
from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.grid_partition import grid_partition
from kerfline.engine.partition.rectangles import all_panels
from kerfline.engine.partition.solve import best_cover
from unit.engine.grids import boxes, grid_of, region_on

WEIGHTS = Weights()


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
