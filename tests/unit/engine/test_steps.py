"""Straight joints stand on whole steps where the limits allow."""

import pytest

from kerfline.engine.steps import Steps, even_places
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
