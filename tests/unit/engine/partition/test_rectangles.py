"""Every rectangular panel that a grid allows, found again one by one."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box

from kerfline.engine.partition.rectangles import (
    Run,
    all_panels,
    box_sum,
    inner_sum,
    joint_pieces,
    rectangle_count,
    runs,
    side_sums,
)
from kerfline.engine.regions.region import RegionZone
from kerfline.model.layout import WorkingLimits
from unit.engine.grids import boxes, grid_of, region_on

METRES = tuple(range(0, 4000, 1000))
PLAIN = region_on(grid_of(METRES, METRES))


def by_hand(grid, span, *, out=(), must=(), banned=()):
    """Every box of lines whose sides are within the span, whose cells are slab and which breaks nothing."""
    nx, ny = grid.inside.shape
    for x0, x1, y0, y1 in product(range(nx), range(1, nx + 1), range(ny), range(1, ny + 1)):
        if x0 >= x1 or y0 >= y1:
            continue
        size = (grid.places[0][x1] - grid.places[0][x0], grid.places[1][y1] - grid.places[1][y0])
        cells = list(product(range(x0, x1), range(y0, y1)))
        crossed = [p for p in must if inner(p, (x0, x1, y0, y1))]
        beside = [p for p in banned if on_side(p, (x0, x1, y0, y1))]
        if max(size) <= span + 0.5 and not set(cells) & set(out) and not crossed and not beside:
            yield x0, x1, y0, y1


def inner(piece, panel):
    axis, line, at = piece
    low, high = panel[2 * axis : 2 * axis + 2]
    first, last = panel[2 - 2 * axis : 4 - 2 * axis]
    return low < line < high and first <= at < last


def on_side(piece, panel):
    axis, line, at = piece
    first, last = panel[2 - 2 * axis : 4 - 2 * axis]
    return line in panel[2 * axis : 2 * axis + 2] and first <= at < last


@pytest.mark.parametrize(
    ("span", "more"),
    [
        (1000, {}),
        (2000, {}),
        (2000, {"out": ((1, 1),)}),
        (3000, {"must": ((0, 1, 0), (1, 2, 2))}),
        (3000, {"banned": ((0, 1, 1), (1, 1, 0))}),
        (999, {}),
    ],
)
def test_all_panels_within_the_span_that_break_nothing(span, more):
    grid = grid_of(METRES, METRES, **more)
    assert sorted(boxes(all_panels(grid, PLAIN, span))) == sorted(by_hand(grid, span, **more))


def test_the_count_is_of_all_boxes_within_the_span_slab_or_not():
    """Of 3 x 3 cells of 1 m within 2 m: 5 stretches each way."""
    grid = grid_of(METRES, METRES, out=((1, 1),))
    assert rectangle_count(grid, PLAIN, 2000.0) == 25


def test_panels_know_their_sizes_and_which_are_single_cells():
    panels = all_panels(grid_of((0, 1000, 3000), (0, 1500)), PLAIN, 3000.0)
    found = dict(zip(boxes(panels), panels.length.tolist(), strict=True))
    assert found == {(0, 1, 0, 1): 1500, (1, 2, 0, 1): 2000, (0, 2, 0, 1): 3000}
    assert len(panels.only(panels.single)) == 2
    assert sorted(panels.only(panels.single).size[0].tolist()) == [1000, 2000]


def test_a_panel_may_be_longer_where_the_region_lets_it_stretch():
    grid = grid_of((0, 1050, 2100), (0, 1000))
    short = replace(PLAIN, gross=box(0, 0, 2100, 1000))
    assert len(all_panels(grid, short, 2000.0)) == 2
    assert len(all_panels(grid, replace(short, stretch=1.05), 2000.0)) == 3


def zone(area, span):
    limits = WorkingLimits(span=span, aspect=1.5, width=500.0, angle=60.0)
    return replace(PLAIN, zones=(RegionZone(id="Z1", area=area, working=limits),))


def test_a_panel_that_touches_a_zone_has_the_lesser_span():
    """The left column of cells is a zone of 1 m span: no panel over it is longer, others are."""
    region = zone(box(0, 0, 1000, 3000), 1000.0)
    panels = all_panels(grid_of(METRES, METRES), region, 2000.0)
    left = [b for b in boxes(panels) if b[0] == 0]
    assert left == [b for b in left if b[1] == 1 and b[3] - b[2] == 1]
    assert len(left) == 3
    assert (1, 3, 0, 2) in boxes(panels)


def test_a_panel_all_in_a_zone_of_a_longer_span_has_that():
    region = zone(box(0, 0, 1000, 3000), 3000.0)
    found = boxes(all_panels(grid_of(METRES, METRES), region, 2000.0))
    assert (0, 1, 0, 3) in found
    assert (1, 2, 0, 3) not in found
    assert (0, 2, 0, 3) not in found


TABLES = st.integers(0, 2**31).map(lambda seed: np.random.default_rng(seed).integers(0, 9, (3, 3)))


@given(TABLES)
def test_sums_over_boxes_are_those_of_their_cells(cells):
    panels = all_panels(grid_of(METRES, METRES), PLAIN, 3000.0)
    ends = (panels.low[0], panels.high[0], panels.low[1], panels.high[1])
    found = box_sum(cells, *ends)
    assert found.tolist() == [cells[a:b, c:d].sum() for a, b, c, d in boxes(panels)]


@given(st.integers(0, 2**31))
def test_sums_inside_and_along_the_sides_are_those_of_their_pieces(seed):
    table = np.random.default_rng(seed).integers(0, 9, (4, 3))
    panels = all_panels(grid_of(METRES, METRES), PLAIN, 3000.0)
    for axis in (0, 1):
        low, high = side_sums(table, panels, axis)
        held = inner_sum(table, panels, axis)
        for n, panel in enumerate(boxes(panels)):
            line0, line1 = panel[2 * axis : 2 * axis + 2]
            first, last = panel[2 - 2 * axis : 4 - 2 * axis]
            assert low[n] == table[line0, first:last].sum()
            assert high[n] == table[line1, first:last].sum()
            assert held[n] == table[line0 + 1 : line1, first:last].sum()


def test_the_pieces_between_chosen_panels_are_joints_and_the_rim_is_none():
    """Left column whole, the rest in one: the joint is the line at 1 m."""
    grid = grid_of(METRES, METRES)
    panels = all_panels(grid, PLAIN, 3000.0)
    chosen = [boxes(panels).index(b) for b in ((0, 1, 0, 3), (1, 3, 0, 3))]
    up, across = joint_pieces(grid, panels, np.array(chosen))
    assert np.argwhere(up).tolist() == [[1, 0], [1, 1], [1, 2]]
    assert not across.any()


def test_unbroken_stretches_are_one_run_each():
    up = np.array([[0, 0, 0, 0], [1, 1, 0, 1]], dtype=bool)
    across = np.array([[0], [1]], dtype=bool)
    assert runs((up, across)) == [
        Run(axis=0, line=1, first=0, last=2),
        Run(axis=0, line=1, first=3, last=4),
        Run(axis=1, line=1, first=0, last=1),
    ]
    assert runs((up & False, across & False)) == []
