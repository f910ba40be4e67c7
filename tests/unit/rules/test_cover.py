"""What a cut leaves over what lies in the slab, and that plan and day, checks and engine ask the same of it."""

import pytest

from kerfline.rules.cover import SPARE_COVER, Clearance, clearance, margin_over

INCH = 25.4


@pytest.mark.parametrize(
    ("cover", "state"),
    [
        (1.24, Clearance.STRIKES),
        (1.25, Clearance.DOUBTFUL),
        (1.74, Clearance.DOUBTFUL),
        (1.75, Clearance.CLEAR),
        (3.0, Clearance.CLEAR),
    ],
)
def test_a_cut_of_an_inch_needs_an_inch_and_three_quarters_of_cover(cover, state):
    """A quarter of an inch of tolerance (ACI 117-10, from memory) and a half to spare (common practice)."""
    assert clearance(cover * INCH, INCH) is state


def test_what_is_left_over_an_item_is_less_by_the_tolerance():
    assert margin_over(50.0, 25.0) == pytest.approx(25.0 - INCH / 4)
    assert margin_over(50.0, 25.0, tolerance=5.0) == 20.0


@pytest.mark.parametrize("depth", [20.0, 25.4, 31.75, 76.2])
def test_the_cover_that_must_be_spared_is_just_what_clears(depth):
    """Three quarters of an inch; an eighth less is doubtful."""
    assert pytest.approx(0.75 * INCH) == SPARE_COVER
    assert clearance(depth + SPARE_COVER, depth) is Clearance.CLEAR
    assert clearance(depth + SPARE_COVER - INCH / 8, depth) is Clearance.DOUBTFUL
