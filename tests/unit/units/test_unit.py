"""The units that a job may be written in."""

import pytest

from kerfline.units import Display, SiteUnit, Unit, depth_unit, grid_step


@pytest.mark.parametrize(
    ("unit", "mm", "display", "depth"),
    [
        (Unit.FT, 304.8, Display.FEET_INCHES, Unit.IN),
        (Unit.IN, 25.4, Display.FEET_INCHES, Unit.IN),
        (Unit.M, 1000.0, Display.METRIC, Unit.MM),
        (Unit.MM, 1.0, Display.METRIC, Unit.MM),
    ],
)
def test_a_unit_decides_how_lengths_and_depths_are_shown(unit, mm, display, depth):
    """International yard and pound agreement, 1959."""
    assert (unit.mm, unit.display, depth_unit(unit)) == (mm, display, depth)


def test_positions_are_rounded_to_an_inch_or_to_ten_millimetres():
    assert grid_step(Display.FEET_INCHES) == 25.4
    assert grid_step(Display.METRIC) == 10.0


def test_the_survey_foot_is_two_millionths_longer_than_the_foot():
    """NIST SP 811 (2008), B.6: the survey foot is 1200/3937 m, the international foot 0.999 998 of it."""
    assert SiteUnit.SURVEY_FT.mm == pytest.approx(304.800_609_6, abs=1e-7)
    assert SiteUnit.FT.mm / SiteUnit.SURVEY_FT.mm == pytest.approx(0.999_998, abs=1e-12)
    assert SiteUnit.M.mm == 1000.0
