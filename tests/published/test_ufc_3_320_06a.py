"""UFC 3-320-06A (TM 5-809-12), "Concrete Floor Slabs on Grade Subjected to Heavy Loads", 2005, 5-4.

A panel bounded by contraction joints covers 600 ft2 (55.7 m2) at most, and in no case is it more than
25 percent longer than wide.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT

LIMITS = load("military-floor").limits(150.0, Mix())


@pytest.mark.parametrize(("length", "width", "passes"), [(25, 24, True), (25, 25, False)])
def test_area_of_a_panel(length, width, passes):
    """Worked from the paragraph: 25 x 24 ft is 600 ft2, 25 x 25 ft is 625 ft2."""
    area = length * width * MM_PER_FOOT**2
    assert (area <= LIMITS.area.bound + 1e-3) is passes


def test_the_area_in_square_metres():
    assert LIMITS.area.bound / 1e6 == pytest.approx(55.7, abs=0.05)


@pytest.mark.parametrize(
    ("length", "width", "passes"), [(25, 20, True), (15, 12, True), (15.1, 12, False)]
)
def test_length_over_width(length, width, passes):
    assert (length / width <= LIMITS.aspect.bound) is passes
