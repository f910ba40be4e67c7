"""SUDAS Design Manual, 5G-2, Table 5G-2.01: joint spacing of two-lane streets.

6 in 12 ft; 7 in 15; 8 in 15 (doweled); 9 in 15 (doweled); 10 in and above 20 (doweled). Lane joints 10 ft
apart at most; length 1.5 times the lane joint spacing at most. The manual's own rule of 24 T would give 14 ft at
7 in where its table says 15.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize(
    ("inches", "feet"), [(6, 12), (7, 15), (8, 15), (9, 15), (10, 20), (12, 20)]
)
def test_the_rows_of_the_table(inches, feet):
    span = load("streets").limits(inches * MM_PER_INCH, Mix()).span
    assert span.bound == pytest.approx(feet * MM_PER_FOOT)


def test_the_table_is_not_the_rule_of_twenty_four_times_the_thickness():
    seven = 7 * MM_PER_INCH
    assert load("streets").limits(seven, Mix()).span.bound > 24 * seven


def test_length_over_width():
    assert load("streets").limits(200.0, Mix()).aspect.bound == 1.5


def test_dowels_and_lane_joints_are_said_as_conditions():
    words = " ".join(load("streets").conditions)
    assert "doweled" in words
    assert "10 ft (3.05 m)" in words
