"""The prices of panels: each weight raises the price of the panel that it is for, and of no better one."""

import numpy as np
import pytest
from shapely import Polygon, box

from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.shape import Shape, rectangle_shape, shape_of
from kerfline.engine.options import Weights
from kerfline.model.layout import WorkingLimits
from kerfline.units import MM_PER_FOOT

FOOT = MM_PER_FOOT
WORKING = WorkingLimits(span=10 * FOOT, aspect=1.5, width=2 * FOOT, angle=60.0)
ADVISED = WorkingLimits(span=10 * FOOT, aspect=1.25, width=3 * FOOT, angle=75.0)

SQUARE = rectangle_shape(9 * FOOT, 9 * FOOT)
HOOK = shape_of(box(0, 0, 3000, 3000) - box(1000, 1000, 3000, 3000), 60.0)
WEDGE = shape_of(Polygon([(0, 0), (3000, 0), (2200, 1386)]), 60.0)
NOTCHED = shape_of(box(0, 0, 3000, 3000) - box(2600, 2800, 3000, 3000), 60.0)

NAMED = {
    "square": rectangle_shape(9 * FOOT, 8 * FOOT),
    "aspect_advised": rectangle_shape(9 * FOOT, 6.5 * FOOT),
    "warned": rectangle_shape(9 * FOOT, 7 * FOOT),
    "small": rectangle_shape(3.5 * FOOT, 3.5 * FOOT),
    "width_advised": rectangle_shape(2.5 * FOOT, 2.5 * FOOT),
    "span_advised": rectangle_shape(10.3 * FOOT, 9 * FOOT),
    "over_aspect": rectangle_shape(9 * FOOT, 5 * FOOT),
    "too_narrow": rectangle_shape(1.5 * FOOT, 1.5 * FOOT),
    "corner": NOTCHED,
    "hooked": HOOK,
    "sharp": WEDGE,
    "sharp_degree": WEDGE,
}
"""A panel for each weight."""


def cost(**weights):
    return Cost(weights=Weights(**weights), working=WORKING, advised=ADVISED, stretch=1.05)


@pytest.mark.parametrize("name", NAMED)
def test_a_weight_is_the_price_of_what_it_names(name):
    """Ten feet more of weight cost the panel more, and a good square nothing."""
    more = {name: getattr(Weights(), name) + 10.0}
    assert cost(**more).of(NAMED[name]) > cost().of(NAMED[name]) + 0.1 * FOOT
    assert cost(**more).of(SQUARE) == pytest.approx(cost().of(SQUARE))


def test_uneven_bays_cost_more_than_even_ones_of_the_same_length():
    even = 2 * cost().uneven(rectangle_shape(7 * FOOT, 7 * FOOT))
    uneven = sum(cost().uneven(rectangle_shape(x * FOOT, 7 * FOOT)) for x in (9, 5))
    assert uneven > even
    assert cost(uneven=8.0).uneven(NAMED["square"]) == pytest.approx(
        2 * cost(uneven=4.0).uneven(NAMED["square"])
    )


def test_many_panels_cost_what_each_costs():
    shapes = list(NAMED.values())
    table = [[getattr(s, f) for s in shapes] for f in Shape.__dataclass_fields__]
    many = Shape(*(np.asarray(row, dtype=float) for row in table))
    assert cost().of(many) == pytest.approx([float(cost().of(s)) for s in shapes])
    assert cost().faults(many).tolist() == [int(cost().faults(s)) for s in shapes]


@pytest.mark.parametrize(
    ("shape", "faults"),
    [
        (SQUARE, 0),
        (rectangle_shape(10.49 * FOOT, 9 * FOOT), 0),
        (rectangle_shape(10.51 * FOOT, 9 * FOOT), 1),
        (rectangle_shape(9 * FOOT, 6 * FOOT), 0),
        (rectangle_shape(9 * FOOT, 5.99 * FOOT), 1),
        (rectangle_shape(2.9 * FOOT, 2 * FOOT), 0),
        (rectangle_shape(2.9 * FOOT, 1.99 * FOOT), 1),
        (HOOK, 1),
        (NOTCHED, 0),
    ],
)
def test_a_rule_is_broken_beyond_its_bound_and_not_at_it(shape, faults):
    """Only the width is also a question of aspect, and 2.9 by 1.99 ft is within that."""
    assert int(cost().faults(shape)) == faults


def test_the_advised_aspect_is_that_of_the_rule_set():
    """A set that advises 1.4 warns of nothing at 1.3."""
    wide = Cost(
        weights=Weights(),
        working=WORKING,
        advised=WorkingLimits(span=10 * FOOT, aspect=1.4, width=3 * FOOT, angle=75.0),
    )
    panel = rectangle_shape(9.1 * FOOT, 7 * FOOT)
    assert wide.of(panel) < cost().of(panel) - Weights().warned * FOOT


@pytest.mark.parametrize(
    ("long", "wide", "advised"),
    [
        (10.0, 8.0, True),
        (10.01, 9.0, False),
        (9.0, 7.2, True),
        (9.0, 7.19, False),
        (3.6, 3.0, True),
        (3.6, 2.99, False),
    ],
)
def test_a_panel_is_as_advised_up_to_its_span_aspect_and_width(long, wide, advised):
    """10 ft, 1.25 and 3 ft."""
    assert bool(cost().is_advised(rectangle_shape(long * FOOT, wide * FOOT))) is advised


def test_a_bare_wall_costs_by_the_foot_and_its_share_of_what_the_whole_costs_once():
    price = cost(wall_bare=10.0, wall_bare_once=60.0)
    assert price.bare_rate(20 * FOOT) == pytest.approx(13.0)
    assert price.bare(20 * FOOT, 20 * FOOT) == pytest.approx(260 * FOOT)
    assert price.bare(5 * FOOT, 20 * FOOT) == pytest.approx(65 * FOOT)


def test_a_stub_of_bare_wall_costs_nothing_and_no_wall_counts_as_shorter():
    """A stub is six inches: what a wall of no length costs by the foot has an end."""
    price = cost(wall_bare=10.0, wall_bare_once=60.0)
    assert price.bare(152.4, 20 * FOOT) == 0.0
    assert price.bare(152.5, 20 * FOOT) == pytest.approx(13 * 152.5)
    assert price.bare_rate(0.0) == price.bare_rate(152.4) == pytest.approx(130.0)
