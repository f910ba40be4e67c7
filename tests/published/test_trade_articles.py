"""Figures of trade articles and agency notes, without a standard behind them.

Early-entry cuts 1 in (25 mm) deep up to 9 in (230 mm) thick; t/5 to t/6 worked up to 18 in. Walks: joints at most
1.25 times the width apart (5 ft wide: 6.25 ft). New Zealand: 75 mm paths, joints up to 3 m.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize("inches", [3.5, 4, 6, 8, 9])
def test_early_cuts_are_an_inch_up_to_nine_inches(inches):
    cut = load("floor").cut_limit(inches * MM_PER_INCH, "early-entry")
    assert cut.advised == pytest.approx(MM_PER_INCH)
    assert cut.bound == pytest.approx(MM_PER_INCH)


@pytest.mark.parametrize("inches", [10, 12, 18])
def test_early_cuts_above_nine_inches_are_a_fifth_to_a_sixth(inches):
    cut = load("floor").cut_limit(inches * MM_PER_INCH, "early-entry")
    assert cut.advised == pytest.approx(inches / 5 * MM_PER_INCH)
    assert cut.bound == pytest.approx(inches / 6 * MM_PER_INCH)


def test_a_third_of_six_inches_is_no_fault():
    """t/3 is accepted practice too; a cut of 2 in must not fall below what is asked."""
    assert load("floor").cut_limit(6 * MM_PER_INCH, "conventional").advised <= 2 * MM_PER_INCH


def test_a_walk_five_feet_wide():
    aspect = load("walks").limits(4 * MM_PER_INCH, Mix()).aspect
    assert aspect.bound * 5 * MM_PER_FOOT == pytest.approx(6.25 * MM_PER_FOOT)


def test_a_path_of_seventy_five_millimetres():
    assert load("walks").limits(75.0, Mix()).span.bound == pytest.approx(3000)
