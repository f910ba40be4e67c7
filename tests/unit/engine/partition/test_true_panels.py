"""A joint that leaves its line makes panels that the grid does not know; only those are barred."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Point, box

from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.partition.true_panels import Extent, extents, is_barred, true_panels
from kerfline.engine.partition.true_runs import TrueRun
from kerfline.units import MM_PER_FOOT as FOOT
from unit.engine.grids import grid_of
from unit.engine.plans import box as rectangle
from unit.engine.plans import region_of, slab

REGION = region_of(slab(rectangle(20, 10)))
PRICE = cost_on(REGION, Weights())


def found(*places):
    """What is amiss of a floor of 20 x 10 ft with joints across it at some places, feet."""
    paths = [((x * FOOT, 0.0), (x * FOOT, 10 * FOOT)) for x in places]
    return true_panels(REGION, PRICE, [TrueRun(path=p, pieces=(p,)) for p in paths])


def test_a_panel_over_the_greatest_span_is_told_by_how_much():
    """The advised 10 ft and its twentieth."""
    true = found(9.4)
    assert list(true.long.values()) == [pytest.approx(0.1 * FOOT)]
    assert all(box(9.4 * FOOT, 0, 20 * FOOT, 10 * FOOT).contains(Point(at)) for at in true.long)


def test_the_little_over_the_advised_span_is_not_too_long():
    assert not found(9.6).long


def test_a_panel_within_the_span_that_breaks_a_rule_on_size_is_poor():
    true = found(6.7, 13.4, 15.0)
    assert len(true.poor) == 2
    assert not true.long
    assert all(13.4 * FOOT < x < 20 * FOOT for x, _ in true.poor)


def three_bays():
    """A grid of three lines each way, its two panels on the left above one another, and one on the right."""
    grid = grid_of(np.array([0.0, 9, 18]) * FOOT, np.array([0.0, 6, 12]) * FOOT)
    low, high = (np.array([[0, 0, 1], [0, 1, 0]]), np.array([[1, 1, 2], [1, 2, 2]]))
    size = tuple(np.diff(grid.places[a])[0] * (high[a] - low[a]) for a in (0, 1))
    panels = Panels(low=tuple(low), high=tuple(high), size=size, span=np.full(3, 10 * FOOT))
    return grid, panels


def test_what_is_too_long_is_barred_along_its_longer_axis_where_it_lies_and_nowhere_else():
    grid, panels = three_bays()
    true = replace(found(10), long={(4 * FOOT, 3 * FOOT): 5.0})
    bars = list(extents(grid, panels, PRICE, true))
    assert bars == [Extent(0, 0.0, 9 * FOOT, 3 * FOOT)]
    assert is_barred(grid, panels, bars).tolist() == [True, False, False]


def test_a_panel_that_breaks_a_rule_on_the_grid_already_is_not_barred_for_it():
    """It was chosen at its price."""
    grid, panels = three_bays()
    true = replace(found(10), poor=((4 * FOOT, 3 * FOOT),))
    strict = replace(PRICE, working=replace(PRICE.working, aspect=1.4))
    assert len(list(extents(grid, panels, PRICE, true))) == 1
    assert not list(extents(grid, panels, strict, true))
