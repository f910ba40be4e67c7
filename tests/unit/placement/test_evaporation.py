"""Evaporation of surface moisture: edges of the formula and its words; its figures stand in tests/published."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.placement.evaporation import (
    ACTION,
    CAUTION,
    Evaporation,
    Risk,
    concrete_mistakes,
    evaporation,
    remedies,
    threshold_words,
    us_rate,
    weather_mistakes,
    wind_at_slab,
)
from kerfline.units import Display


def test_remedies_grow_with_the_risk():
    """None for a low rate; more for action than for caution."""
    assert remedies(Risk.LOW) == ()
    assert set(remedies(Risk.CAUTION)) < set(remedies(Risk.ACTION))


@pytest.mark.parametrize(
    ("rate", "risk"),
    [
        (0.0, Risk.LOW),
        (CAUTION - 1e-9, Risk.LOW),
        (CAUTION, Risk.CAUTION),
        (ACTION - 1e-9, Risk.CAUTION),
        (ACTION, Risk.ACTION),
    ],
)
def test_a_threshold_is_reached_at_its_figure(rate, risk):
    assert Evaporation(rate=rate, low=0.0, high=0.0).risk is risk


def test_the_formula_by_hand():
    """16 ** 2.5 is 1024 and 4 ** 2.5 is 32: (1024 - 0.5 x 32) x (1 + 0.4 x 10) x 1e-6."""
    assert us_rate(16.0, 4.0, 0.5, 10.0) == pytest.approx(1008 * 5e-6)


def test_air_below_nought_fahrenheit_holds_no_water():
    assert us_rate(16.0, -20.0, 1.0, 0.0) == us_rate(16.0, 0.0, 1.0, 0.0)


def test_dew_is_no_evaporation():
    found = evaporation(5.0, 30.0, 1.0, 10.0)
    assert (found.rate, found.low, found.high) == (0.0, 0.0, 0.0)


@given(st.floats(5, 45), st.floats(0, 45), st.floats(0.05, 0.95), st.floats(0, 60))
def test_more_wind_warmer_concrete_and_drier_air_never_evaporate_less(concrete, air, share, wind):
    rate = evaporation(concrete, air, share, wind).rate
    assert evaporation(concrete, air, share, wind + 10).rate >= rate
    assert evaporation(concrete + 5, air, share, wind).rate >= rate
    assert evaporation(concrete, air, share - 0.03, wind).rate >= rate


@pytest.mark.parametrize(
    ("readings", "what"),
    [
        ((20.0, 20.0, 0.5, 10.0), []),
        ((0.0, -40.0, 0.02, 0.0), []),
        ((52.0, 52.0, 1.0, 150.0), []),
        ((-0.1, 20.0, 0.5, 10.0), ["concrete below freezing"]),
        ((52.1, 20.0, 0.5, 10.0), ["the concrete temperature is out of range"]),
        ((20.0, 52.1, 0.5, 10.0), ["the air temperature is out of range"]),
        ((20.0, -40.1, 0.5, 10.0), ["the air temperature is out of range"]),
        ((20.0, 20.0, 0.0199, 10.0), ["the relative humidity is out of range"]),
        ((20.0, 20.0, 1.01, 10.0), ["the relative humidity is out of range"]),
        ((20.0, 20.0, 0.5, -0.1), ["the wind is out of range"]),
        ((20.0, 20.0, 0.5, 150.1), ["the wind is out of range"]),
        ((90.0, 90.0, 50.0, 500.0), ["the concrete", "the air", "the relative", "the wind"]),
    ],
)
def test_what_can_only_be_a_slip_of_units_is_refused_all_of_it_at_once(readings, what):
    found = weather_mistakes(*readings, where="day.csv")
    assert len(found) == len(what)
    for mistake, words in zip(found, what, strict=True):
        assert mistake.what.startswith(words)
        assert mistake.where == "day.csv"
    if found:
        with pytest.raises(InputRefused):
            evaporation(*readings)


def test_a_refusal_shows_both_degrees_and_asks_which_was_meant():
    (cold,) = concrete_mistakes(-4.0)
    assert str(cold) == (
        "concrete below freezing has no rate of evaporation; found -4.0 °C (25 °F); "
        "allowed is 0 °C (32 °F) and above; was Celsius taken for Fahrenheit?"
    )


def test_wind_comes_down_by_the_log_law_and_no_wind_from_below_is_raised():
    """ln(500 / 30) / ln(10 000 / 30) is 2.8134 / 5.8091."""
    assert wind_at_slab(20.0, 10_000.0) == pytest.approx(20 * 2.8134 / 5.8091, rel=1e-4)
    assert wind_at_slab(20.0, 500.0) == 20.0
    assert wind_at_slab(20.0, 100.0) == 20.0
    assert wind_at_slab(20.0, 501.0) < 20.0


def test_thresholds_are_told_as_they_are_printed():
    """FHWA-HRT-05-038, ch. 5."""
    assert threshold_words(Risk.CAUTION, Display.METRIC) == "0.5 kg/m2/h"
    assert threshold_words(Risk.ACTION, Display.METRIC) == "1.0 kg/m2/h"
    assert threshold_words(Risk.CAUTION, Display.FEET_INCHES) == "0.1 lb/ft2/h"
    assert threshold_words(Risk.ACTION, Display.FEET_INCHES) == "0.2 lb/ft2/h"
