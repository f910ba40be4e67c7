"""ACI 330R, parking lots, edition 1987, 2.7, as quoted in a municipal file; and an association's table.

ACI 330R: 30 times the thickness, 15 ft (4.6 m) at most, panels up to 25 percent longer than wide, cuts a
quarter of the thickness. A ready-mixed concrete association's parking specification: 4 in 10 ft, 5 in
12 ft, 6 in 15 ft.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize(("inches", "feet"), [(4, 10), (5, 12), (6, 15)])
def test_the_associations_table(inches, feet):
    span = load("parking").limits(inches * MM_PER_INCH, Mix()).span
    assert span.advised == pytest.approx(feet * MM_PER_FOOT)


@pytest.mark.parametrize(("inches", "feet"), [(4, 10), (5, 12.5), (6, 15), (8, 15)])
def test_thirty_times_the_thickness_and_fifteen_feet_at_most(inches, feet):
    assert load("parking").limits(inches * MM_PER_INCH, Mix()).span.bound == pytest.approx(
        feet * MM_PER_FOOT
    )
    assert load("floor").limits(inches * MM_PER_INCH, Mix()).span.advised == pytest.approx(
        feet * MM_PER_FOOT
    )


def test_a_panel_may_be_a_quarter_longer_than_wide():
    assert load("parking").limits(100.0, Mix()).aspect.bound == 1.25


def test_cuts_are_a_quarter_of_the_thickness_at_least():
    cut = load("parking").cut_limit(6 * MM_PER_INCH, "conventional")
    assert cut.bound == pytest.approx(1.5 * MM_PER_INCH)
