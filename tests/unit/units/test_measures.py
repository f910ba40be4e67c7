"""Measures other than lengths: read with their unit only, written for people."""

import pytest

from kerfline.errors import InputRefused
from kerfline.units import (
    KG_M2_PER_LB_FT2,
    MM3_PER_GALLON,
    MM3_PER_YD3,
    Display,
    Measure,
    celsius,
    format_clock,
    format_evaporation,
    format_liquid,
    format_temperature,
    format_volume,
    parse_measure,
    to_fahrenheit,
)

FEET, METRIC = Display.FEET_INCHES, Display.METRIC


@pytest.mark.parametrize(
    ("text", "measure", "value"),
    [
        ("60 yd3", Measure.VOLUME, 60 * 0.764554857984e9),
        ("1 ft3", Measure.VOLUME, 28316846.592),
        ("1 m3", Measure.VOLUME, 1e9),
        ("900 ft2", Measure.AREA, 900 * 92903.04),
        ("100 yd2", Measure.AREA, 100 * 9 * 92903.04),
        ("5 m2", Measure.AREA, 5e6),
        ("7 C", Measure.TEMPERATURE_STEP, 7.0),
        ("7 K", Measure.TEMPERATURE_STEP, 7.0),
        ("10e-6 /K", Measure.EXPANSION, 10e-6),
        ("25 MPa", Measure.STRESS, 25.0),
        ("25 N/mm2", Measure.STRESS, 25.0),
        ("0.05 N/mm3", Measure.SUBGRADE, 0.05),
        ("20 km/h", Measure.SPEED, 20.0),
        ("6 h", Measure.DURATION, 6.0),
        ("10 m3/h", Measure.PLACING_RATE, 1e10),
        ("100 ft2/gal", Measure.COVER, 100 * 304.8**2 / (231 * 25.4**3)),  # 231 in3: NIST HB 44, C
        ("6 m2/l", Measure.COVER, 6.0),
        ("100 pci", Measure.SUBGRADE, 100 * 4.4482216152605 / 25.4**3),
        ("27 MPa/m", Measure.SUBGRADE, 0.027),
        ("3000 psi", Measure.STRESS, 3000 * 4.4482216152605 / 25.4**2),
        ("10 ft/min", Measure.CUTTING_RATE, 10 * 304.8 * 60),
        ("3 m/min", Measure.CUTTING_RATE, 3000.0 * 60),
        ("10e-6 /C", Measure.EXPANSION, 10e-6),
        ("5e-6 /F", Measure.EXPANSION, 9e-6),
        ("32 F", Measure.TEMPERATURE, 0.0),
        ("-40°F", Measure.TEMPERATURE, -40.0),
        ("24 C", Measure.TEMPERATURE, 24.0),
        ("18 F", Measure.TEMPERATURE_STEP, 10.0),
        ("12 mph", Measure.SPEED, 19.312128),
        ("10 m/s", Measure.SPEED, 36.0),
        ("90 min", Measure.DURATION, 1.5),
        ("3 days", Measure.DURATION, 72.0),
        ("30 yd3/h", Measure.PLACING_RATE, 30 * MM3_PER_YD3),
        ("2 m/min", Measure.CUTTING_RATE, 120_000.0),
        ("5.5e-6 /F", Measure.EXPANSION, 9.9e-6),
        ("30000 psi", Measure.STRESS, 206.8427),
        ("100 pci", Measure.SUBGRADE, 0.0271447),
        ("5 m2/L", Measure.COVER, 5.0),
    ],
)
def test_measures_with_their_units(text, measure, value):
    """Exact conversions of the international yard and pound (1959), and what follows from them."""
    assert parse_measure(text, measure) == pytest.approx(value, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "measure"),
    [
        ("60", Measure.VOLUME),
        (60, Measure.VOLUME),
        ("60 yd2", Measure.VOLUME),
        ("75", Measure.TEMPERATURE),
        ("75 K", Measure.TEMPERATURE),
        ("nan C", Measure.TEMPERATURE),
        ("yd3", Measure.VOLUME),
        ("", Measure.DURATION),
        ("1e999 h", Measure.DURATION),
    ],
)
def test_what_is_no_measure_is_refused_with_an_example(text, measure):
    """A bare number, a wrong unit, a number that is none."""
    with pytest.raises(InputRefused, match="such as '20 "):
        parse_measure(text, measure, where="day")


def test_fahrenheit_and_celsius_turn_into_each_other():
    """Freezing, boiling, and where they meet."""
    for f, c in ((32, 0), (212, 100), (-40, -40)):
        assert celsius(f) == pytest.approx(c)
        assert to_fahrenheit(c) == pytest.approx(f)


def test_a_pound_on_a_square_foot():
    """1 lb/ft2 is 4.882 428 kg/m2 (NIST SP 811:2008, B.8)."""
    assert pytest.approx(4.882428, rel=1e-6) == KG_M2_PER_LB_FT2


def test_written_for_people():
    """Each measure in both families of units."""
    assert format_volume(20.691 * MM3_PER_YD3, FEET) == "20.69 yd3"
    assert format_volume(10.8e9, METRIC) == "10.80 m3"
    assert format_liquid(8.117 * MM3_PER_GALLON, FEET) == "8.1 gal"
    assert format_liquid(28.8e6, METRIC) == "28.8 L"
    assert format_temperature(24.0, FEET) == "75 °F"
    assert format_temperature(24.0, METRIC) == "24 °C"
    assert format_evaporation(0.2 * KG_M2_PER_LB_FT2, FEET) == "0.20 lb/ft2/h"
    assert format_evaporation(0.2 * KG_M2_PER_LB_FT2, METRIC) == "0.98 kg/m2/h"


@pytest.mark.parametrize(
    ("hours", "text"),
    [(6.5, "06:30"), (0.0, "00:00"), (23.999, "00:00 +1 d"), (26 + 1 / 6, "02:10 +1 d")],
)
def test_clock(hours, text):
    """Minutes are rounded before the day is told."""
    assert format_clock(hours) == text


def test_a_refusal_shows_how_the_first_of_its_units_is_written():
    for measure, words in (
        (Measure.TEMPERATURE, "one of F, C, such as '20 F'"),
        (Measure.VOLUME, "such as '20 yd3'"),
    ):
        with pytest.raises(InputRefused, match=words):
            parse_measure("20 furlongs", measure)
