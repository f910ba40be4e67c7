"""Straight joints stand on whole steps where the limits allow."""

import pytest

from kerfline.engine.steps import Steps, bay_count, even_places
from kerfline.units import MM_PER_INCH

INCHES = Steps(origin=100.0, step=MM_PER_INCH)


def test_places_between_even_bays_are_whole_steps_from_the_baseline():
    places = even_places(100.0, 10_100.0, 3, 4000.0, INCHES)
    offsets = [(p - 100.0) / MM_PER_INCH for p in places]
    assert offsets == pytest.approx([131, 262])


def test_even_bays_that_just_fit_the_limit_stay_exactly_even():
    assert even_places(110.0, 8110.0, 2, 4000.0, INCHES) == [4110.0]


def test_without_steps_bays_are_exactly_even():
    assert even_places(0.0, 9000.0, 3, 4000.0, None) == [3000.0, 6000.0]


def test_halves_go_down_so_that_both_ends_agree_on_a_centre():
    assert INCHES.nearest(100.0 + 1.5 * MM_PER_INCH) == pytest.approx(100.0 + MM_PER_INCH)
    assert INCHES.nearest(100.0 - 1.5 * MM_PER_INCH) == pytest.approx(100.0 - 2 * MM_PER_INCH)


def test_within_a_range_the_whole_step_nearest_to_the_wish_is_taken():
    assert INCHES.within(100.0, 200.0, 151.0) == pytest.approx(100.0 + 2 * MM_PER_INCH)
    assert INCHES.within(101.0, 109.0, 105.0) == 105.0


def test_positions_to_half_feet_are_another_step():
    half_feet = Steps(origin=0.0, step=6 * MM_PER_INCH)
    places = even_places(0.0, 31 * 12 * MM_PER_INCH, 4, 8 * 12 * MM_PER_INCH, half_feet)
    assert [p / (6 * MM_PER_INCH) % 1 for p in places] == pytest.approx([0.0, 0.0, 0.0])


def test_as_few_bays_as_the_limit_allows():
    assert [bay_count(size, 3000.0) for size in (2900.0, 3000.0, 3000.4, 3001.0, 6100.0)] == [
        1,
        1,
        1,
        2,
        3,
    ]
