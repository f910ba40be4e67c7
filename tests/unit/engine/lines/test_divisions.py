"""Further candidate lines where panels came out too long or too narrow."""

import pytest
from shapely.geometry import box

from kerfline.engine.lines.divisions import mending_places
from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.options import Weights
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)


def places(*panels):
    boxes = [p.bounds for p in panels]
    limit = Cost(weights=Weights(), working=LIMITS, advised=LIMITS)
    poor = [not limit.keeps(shape_of(p, LIMITS.angle)) for p in panels]
    return mending_places(boxes, poor, LIMITS)


def test_fair_panels_ask_for_nothing():
    assert places(box(0, 0, 3000, 3000), box(3000, 0, 6000, 3000)) == ((), ())


def test_a_panel_that_is_too_long_is_divided_by_as_few_lines_as_its_aspect_asks_and_one_more():
    assert places(box(0, 0, 4200, 1000)) == (pytest.approx((1050, 1400, 2100, 2800, 3150)), ())


def test_a_narrow_panel_is_divided_evenly_together_with_the_one_beside_it():
    firsts, seconds = places(box(0, 0, 500, 700), box(500, 0, 3500, 3000))
    assert firsts == (1750.0,)
    assert seconds == ()


def test_panels_that_only_touch_at_a_corner_are_not_beside_one_another():
    assert places(box(0, 0, 500, 700), box(500, 700, 3500, 3500)) == ((), ())
