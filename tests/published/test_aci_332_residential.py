"""ACI 332, residential concrete, as a trade article quotes it.

15 ft (4.6 m) at most both ways, length over width 1.5; cuts a quarter of the thickness, or a fifth where they
are inserted, tooled or made early, 1 in at least. The rows of the table by thickness are from memory
(3.5 in 8 ft, 4 in 10 ft, 5 in 12 ft, 6 in 15 ft) and stand here beside the read 15 ft only.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize(
    ("inches", "feet"), [(3.5, 8), (4, 10), (4.5, 10), (5, 12), (5.5, 12), (6, 15)]
)
def test_the_table_from_memory_stays_within_what_was_read(inches, feet):
    span = load("residential").limits(inches * MM_PER_INCH, Mix()).span
    assert span.advised == pytest.approx(feet * MM_PER_FOOT)
    assert span.advised_by.known == "memory"
    assert span.advised <= span.bound <= 15 * MM_PER_FOOT + 1e-6
    assert span.source.known == "quoted"


@pytest.mark.parametrize(
    ("mm", "metres"), [(90, 2.4), (100, 3.0), (125, 3.6), (140, 3.6), (150, 4.5)]
)
def test_the_table_from_memory_in_metres(mm, metres):
    span = load("residential").limits(mm, Mix()).span
    assert span.advised / 1000 == pytest.approx(metres, abs=0.08)
    assert span.bound <= 15 * MM_PER_FOOT + 1e-6


@pytest.mark.parametrize("inches", [5, 6, 8, 12])
def test_fifteen_feet_at_most(inches):
    span = load("residential").limits(inches * MM_PER_INCH, Mix()).span
    assert span.bound == pytest.approx(15 * MM_PER_FOOT)


@pytest.mark.parametrize("method", ["early-entry", "tooled", "inserted"])
def test_a_fifth_where_the_joint_is_made_early(method):
    """6 in: 1.2 in; 4 in: a fifth is less than the inch that holds for all."""
    rules = load("residential")
    assert rules.cut_limit(6 * MM_PER_INCH, method).advised == pytest.approx(1.2 * MM_PER_INCH)
    assert rules.cut_limit(4 * MM_PER_INCH, method).advised == pytest.approx(1.0 * MM_PER_INCH)


def test_a_quarter_with_the_ordinary_saw():
    cut = load("residential").cut_limit(6 * MM_PER_INCH, "conventional")
    assert cut.advised == pytest.approx(1.5 * MM_PER_INCH)


def test_length_over_width():
    assert load("residential").limits(100.0, Mix()).aspect.bound == 1.5
