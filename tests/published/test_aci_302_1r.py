"""ACI 302.1R, "Guide for Concrete Floor and Slab Construction".

Edition 1996, as quoted: joints 24 to 36 times the thickness apart, at most 18 ft (5.5 m). Edition 1980,
2.3.2, as quoted: two to three times the thickness in inches gives the spacing in feet (4 in: 8 to 12 ft;
6 in: 12 to 18 ft), length over width 1.5 at most. Cut depth a quarter of the thickness, 1 in at least.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


def feet(name, inches, step="bound"):
    return getattr(load(name).limits(inches * MM_PER_INCH, Mix()).span, step) / MM_PER_FOOT


@pytest.mark.parametrize(("inches", "low", "high"), [(4, 8, 12), (6, 12, 18)])
def test_two_to_three_feet_for_each_inch(inches, low, high):
    assert feet("high-shrinkage", inches) == pytest.approx(low)
    assert feet("floor", inches) == pytest.approx(high)
    assert low <= feet("floor", inches, "advised") <= high


def test_six_inches_give_feet_not_inches():
    """A question bank printed 12 to 18 inches for a 6 in slab: the unit slip must not happen here."""
    span = load("floor").limits(6 * MM_PER_INCH, Mix()).span
    for figure in (span.advised, span.bound):
        assert 12 * MM_PER_FOOT <= figure <= 18 * MM_PER_FOOT + 1e-6


@pytest.mark.parametrize("inches", [6, 8, 10, 14])
def test_no_span_above_eighteen_feet(inches):
    assert feet("floor", inches) == pytest.approx(18)


def test_the_cap_in_metres():
    assert load("floor").limits(200.0, Mix()).span.bound == pytest.approx(5500, abs=15)


@pytest.mark.parametrize("length", [30, 15])
def test_panels_of_thirty_and_fifteen_feet_are_too_long_at_four_inches(length):
    """A trade question: a 4 in slab that cracked at 30 ft, and again at 15 ft."""
    assert length > feet("floor", 4)


def test_common_practice_four_inches_times_three_is_twelve_feet():
    assert feet("floor", 4) == pytest.approx(4 * 3)


def test_length_over_width():
    assert load("floor").limits(100.0, Mix()).aspect.bound == 1.5


@pytest.mark.parametrize(("inches", "depth"), [(3.5, 1.0), (4, 1.0), (6, 1.5), (8, 2.0)])
def test_a_quarter_of_the_thickness_and_an_inch_at_least(inches, depth):
    cut = load("floor").cut_limit(inches * MM_PER_INCH, "conventional")
    assert cut.advised == pytest.approx(depth * MM_PER_INCH)
