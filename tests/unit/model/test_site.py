"""How a plan lies on the ground."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.model.site import LARGEST_RESIDUAL, ControlPoint, Site
from kerfline.units import SiteUnit


def control(name, plan, easting, northing):
    return ControlPoint(name=name, plan=plan, easting=easting, northing=northing)


def site(*points, **more):
    return Site(control=points, unit=SiteUnit.M, **more)


def test_a_quarter_turn_and_a_shift_by_hand():
    """The plan's x runs north, so its up runs west and the grid's north lies a quarter turn clockwise."""
    found = site(control("A", (0, 0), 5e6, 9e6), control("B", (1000, 0), 5e6, 9e6 + 1000))
    assert found.similarity.to_site((1000, 2000)) == pytest.approx((5e6 - 2000, 9e6 + 1000))
    assert found.north == pytest.approx(-90.0)


def test_a_plan_whose_up_is_north_has_north_at_nought():
    found = site(control("A", (0, 0), 10, 20), control("B", (0, 500), 10, 520))
    assert (found.north, str(found.north)) == (0.0, "0.0")
    assert found.similarity.scale == 1.0


@given(st.floats(-179, 179))
def test_north_turns_against_the_plan(degrees):
    """A plan turned anticlockwise on the ground has its north turned back by as much."""
    turn = math.radians(degrees)
    easting, northing = 1e4 * math.cos(turn), 1e4 * math.sin(turn)
    found = site(control("A", (0, 0), 0, 0), control("B", (1e4, 0), easting, northing))
    assert found.north == pytest.approx(-degrees, abs=1e-6)


@pytest.mark.parametrize(("scale", "found"), [(1.0, 1.0), (0.9996, 0.9996), (None, 2.0)])
def test_the_scale_is_held_unless_it_is_to_be_found(scale, found):
    tied = site(control("A", (0, 0), 0, 0), control("B", (1000, 0), 2000, 0), scale=scale)
    assert tied.similarity.scale == pytest.approx(found)


def test_control_points_in_one_place_say_nothing():
    tied = site(control("A", (5, 5), 0, 0), control("B", (5, 5), 0, 0))
    assert tied.fit is None
    with pytest.raises(ValueError, match="the control points are in one place"):
        _ = tied.similarity


def test_a_control_point_lies_at_its_easting_and_northing():
    assert control("A", (1, 2), 3.0, 4.0).site == (3.0, 4.0)


def test_control_is_held_to_three_eighths_of_an_inch():
    """Common practice."""
    assert pytest.approx(3 / 8 * 25.4, abs=0.5) == LARGEST_RESIDUAL
    assert site(control("A", (0, 0), 0, 0)).limit == LARGEST_RESIDUAL
