"""Dust, noise and what lies in the slab, at the edges of the published tables."""

import pytest

from kerfline.model.day import DayInput
from kerfline.placement.safety import (
    SawKind,
    country_of,
    niosh_hours,
    noise_hours,
    respirator,
)
from kerfline.units import Display

INCH = 25.4


def test_a_rule_set_of_a_country_names_it():
    """CSA's and the British sets; a metric job that names nothing is of none."""
    assert country_of(DayInput(), "canada", Display.METRIC) == "CA"
    assert country_of(DayInput(country="NZ"), "canada", Display.METRIC) == "NZ"
    assert country_of(DayInput(), "plain-british", Display.METRIC) == "GB"
    assert country_of(DayInput(), "floor", Display.METRIC) == ""
    assert country_of(DayInput(), "floor", Display.FEET_INCHES) == "US"


@pytest.mark.parametrize(
    ("saw", "outdoors", "hours", "factor"),
    [
        (SawKind.WALK_BEHIND, True, 12.0, 0),
        (SawKind.WALK_BEHIND, False, 0.1, 10),
        (SawKind.HANDHELD, True, 4.0, 0),
        (SawKind.HANDHELD, True, 4.01, 10),
        (SawKind.HANDHELD, False, 1.0, 10),
        (SawKind.DRIVABLE, True, 12.0, 0),
        (SawKind.DRIVABLE, False, 1.0, None),
    ],
)
def test_the_respirator_of_a_wet_saw(saw, outdoors, hours, factor):
    """29 CFR 1926.1153, Table 1, rows (ii), (iv) and (v): up to and over 4 hours a shift."""
    assert respirator(saw, outdoors=outdoors, hours=hours) == factor


@pytest.mark.parametrize(("level", "hours"), [(90, 8.0), (95, 4.0), (100, 2.0), (105, 1.0)])
def test_five_decibels_halve_the_hours(level, hours):
    """29 CFR 1926.52, Table D-2."""
    assert noise_hours(level) == pytest.approx(hours)


@pytest.mark.parametrize(("level", "hours"), [(85, 8.0), (88, 4.0), (100, 0.25)])
def test_three_decibels_halve_the_hours_that_niosh_recommends(level, hours):
    """NIOSH 98-126, Table 1-1."""
    assert niosh_hours(level) == pytest.approx(hours)
