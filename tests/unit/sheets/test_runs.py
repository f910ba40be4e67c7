"""Stretches of the slab's edge as a side of the plan sees them."""

import pytest
import shapely

from kerfline.sheets.runs import Side, stretches

ELL = shapely.Polygon([(0, 0), (100, 0), (100, 40), (60, 40), (60, 80), (0, 80)])
TOP = Side(80.0, upright=False, sign=1)


def seen(shape, side=TOP, need=10.0):
    return stretches(shape, shape.bounds, side, need)


def spans(found):
    return [(round(s.low, 3), round(s.high, 3), round(s.depth, 3)) for s in found]


def test_a_side_measures_outward():
    assert TOP.at(10, 5) == (10, 85)
    assert Side(0.0, upright=True, sign=-1).at(10, 5) == (-5, 10)
    assert TOP.inward(30).level == 50


def test_a_rectangle_is_one_stretch_from_every_side():
    box = shapely.box(0, 0, 100, 80)
    for side in (TOP, Side(0.0, upright=True, sign=-1), Side(0.0, upright=False, sign=-1)):
        (one,) = seen(box, side)
        assert one.depth == 0
        assert one.walled == one.smooth == (False, False)


def test_a_notch_has_a_stretch_of_its_own_walled_where_concrete_stands():
    first, second = seen(ELL)
    assert spans([first, second]) == [(0, 60, 0), (60, 100, 40)]
    assert first.walled == (False, False)
    assert second.walled == (True, False)


def test_a_step_that_a_survey_left_a_little_aslant_is_still_a_wall():
    stepped = [(0, 0), (100, 0), (100, 60), (60.1, 60), (60, 100), (0, 100)]
    _, second = seen(shapely.Polygon(stepped))
    assert second.walled == (True, False)
    assert second.smooth == (False, False)
    sloping = seen(shapely.Polygon([(0, 0), (100, 0), (100, 60), (70, 60), (60, 100), (0, 100)]))
    assert sloping[-1].walled == (False, False)


@pytest.mark.parametrize(("need", "count"), [(40.0, 2), (40.1, 1)])
def test_a_notch_too_shallow_for_a_string_is_told_with_its_neighbour(need, count):
    found = seen(ELL, need=need)
    assert len(found) == count
    assert found[0].depth == 0


def test_how_deep_the_edge_lies_at_a_place():
    (one,) = seen(ELL, need=99)
    assert one.depths_at(30) == [0]
    assert one.depths_at(80) == [40]
    assert sorted(one.depths_at(60)) == [0, 40], "two where it steps"
    assert one.depths_at(140) == []


def test_a_slope_goes_with_the_flat_edge_that_it_runs_down_from():
    shape = shapely.Polygon([(0, 0), (100, 0), (100, 30), (60, 80), (0, 80)])
    (one,) = seen(shape)
    assert spans([one]) == [(0, 100, 0)]
    assert one.depths_at(80) == [pytest.approx(25)]


def test_nothing_shown_has_no_stretch():
    assert stretches(shapely.Polygon(), (0, 0, 0, 0), TOP, 10.0) == []
