"""Further candidate lines where panels came out too long or too narrow."""

import pytest
from shapely.geometry import box

from kerfline.engine.lines.charts import RoundChart, SquareChart
from kerfline.engine.mending import mending_places
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)
CHART = SquareChart(0.0)


def places(*panels):
    whole = box(0, 0, 9000, 9000)
    problem = Problem(concrete=whole, limits=LIMITS)
    return mending_places(problem, CHART, PieceLayout(panels=panels, cuts=(), cost=0.0))


def test_fair_panels_ask_for_nothing():
    assert places(box(0, 0, 3000, 3000), box(3000, 0, 6000, 3000)) == ((), ())


def test_a_panel_that_is_too_long_is_divided_by_as_few_lines_as_its_aspect_asks():
    assert places(box(0, 0, 4200, 1000)) == (pytest.approx((1400, 2800)), ())


def test_a_narrow_panel_is_divided_evenly_together_with_the_one_beside_it():
    firsts, seconds = places(box(0, 0, 500, 700), box(500, 0, 3500, 3000))
    assert firsts == (1750.0,)
    assert seconds == ()


def test_panels_that_only_touch_at_a_corner_are_not_beside_one_another():
    assert places(box(0, 0, 500, 700), box(500, 700, 3500, 3500)) == ((), ())


def test_a_round_chart_asks_for_nothing():
    problem = Problem(concrete=box(0, 0, 9000, 9000), limits=LIMITS)
    chart = RoundChart((0.0, 0.0), 5000.0, 0.0)
    pieces = PieceLayout(panels=(box(1000, 1000, 5000, 1500),), cuts=(), cost=0.0)
    assert mending_places(problem, chart, pieces) == ((), ())
