"""What a round blade leaves uncut, by the circle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.placement.kerf import cut_end


def test_three_four_five():
    """A blade of radius 5 that cuts 2 deep meets the surface 4 from its centre's foot: 3 stay under the centre."""
    end = cut_end(10, 2)
    assert (end.run_out, end.surface, end.full_depth) == (4, 1, 5)


def test_the_guard_keeps_the_blade_off_by_its_own_length():
    end = cut_end(10, 2, guard=3)
    assert (end.run_out, end.surface, end.full_depth) == (4, 4, 8)


@pytest.mark.parametrize("depth", [0.0, -1.0])
def test_a_blade_that_does_not_cut_runs_out_at_once(depth):
    assert cut_end(10, depth).run_out == 0


def test_a_cut_to_the_centre_runs_out_by_the_radius():
    assert cut_end(10, 5).surface == 0


@given(st.floats(100, 600), st.floats(0.01, 0.99))
def test_the_run_out_lies_on_the_circle(blade, share):
    radius = blade / 2
    depth = share * radius
    assert math.hypot(cut_end(blade, depth).run_out, radius - depth) == pytest.approx(radius)
