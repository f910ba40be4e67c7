"""The order in which lines are read, and stretches of them."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from kerfline.geometry.lines import line_order, stretch_of

BENT = LineString([(0, 0), (1000, 0), (1000, 500)])


def test_lines_that_run_up_are_read_first_from_the_left_and_then_from_below():
    in_order = [
        ((0.0, 0.0), (0.0, 9.0)),
        ((0.0, 20.0), (0.0, 29.0)),
        ((5.0, 0.0), (5.0, 9.0)),
        ((0.0, 3.0), (9.0, 3.0)),
        ((20.0, 3.0), (29.0, 3.0)),
        ((0.0, 7.0), (9.0, 7.0)),
    ]
    for given_order in permutations(in_order):
        assert sorted(given_order, key=line_order) == in_order


def test_a_line_at_45_degrees_runs_up_and_a_flatter_one_across():
    assert line_order(((0, 0), (10, 10)))[0] is False
    assert line_order(((0, 0), (-10, 10)))[0] is False
    assert line_order(((0, 0), (10, 9.99)))[0] is True


def test_the_order_goes_by_the_middle_and_then_by_the_nearer_end():
    assert line_order(((2, 10), (9, 9), (6, 0))) == (False, 4, 0, 2, 10)
    assert line_order(((10, 2), (9, 9), (0, 6))) == (True, 4, 0, 10, 2)


@given(st.floats(-0.4, 0.4))
def test_lines_in_one_line_are_read_by_their_place_though_they_waver(waver):
    """Half a millimetre aside does not bring the upper of two before the lower."""
    lower, upper = ((1000 + waver, 0), (1000 + waver, 10)), ((1000, 20), (1000, 30))
    assert line_order(lower) < line_order(upper)


@pytest.mark.parametrize(
    ("start", "end", "coords"),
    [
        (0, 1500, [(0, 0), (1000, 0), (1000, 500)]),
        (200, 700, [(200, 0), (700, 0)]),
        (900, 1100, [(900, 0), (1000, 0), (1000, 100)]),
        (700, 200, [(700, 0), (200, 0)]),
        (1000, 9999, [(1000, 0), (1000, 500)]),
    ],
)
def test_a_stretch_lies_between_two_distances_along_the_line(start, end, coords):
    assert list(stretch_of(BENT, start, end).coords) == coords


@given(st.floats(1, 700), st.floats(1, 700))
def test_a_stretch_is_as_long_as_the_distances_are_apart(start, length):
    assert stretch_of(BENT, start, start + length).length == pytest.approx(length)
