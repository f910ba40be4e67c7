"""Evaporation against the chart's published example, conversions worked by hand and a drying table.

Sources: Uno, ACI Materials Journal 95-M34, 1998 (formula); the chart example of ACI 305R as quoted on a
public page; FHWA-HRT-05-038, ch. 5 (thresholds). The drying-tendency table of PCA, 1957, is from memory and
stands only beside figures worked from the formula.
"""

import math

import pytest

from kerfline.errors import InputRefused
from kerfline.placement.evaporation import (
    ACTION,
    CAUTION,
    Risk,
    evaporation,
    us_rate,
    wind_at_slab,
)
from kerfline.units import KG_M2_PER_LB_FT2, KMH_PER_MPH, celsius


def rate(concrete_f, air_f, percent, mph):
    """The rate in lb/ft2/h."""
    found = evaporation(celsius(concrete_f), celsius(air_f), percent / 100, mph * KMH_PER_MPH)
    return found.rate / KG_M2_PER_LB_FT2


def test_chart_example_of_aci_305():
    """87 and 80 °F, 50 %, 12 mph: the chart reads 0.25 lb/ft2/h (1.2 kg/m2/h); the formula 0.2435."""
    assert rate(87, 80, 50, 12) == pytest.approx(0.25, abs=0.02)
    assert rate(87, 80, 50, 12) == pytest.approx(0.2435, abs=0.0001)
    found = evaporation(celsius(87), celsius(80), 0.5, 12 * KMH_PER_MPH)
    assert found.rate == pytest.approx(1.2, abs=0.05)
    assert found.rate == pytest.approx(1.189, abs=0.001)
    assert found.risk is Risk.ACTION


def test_chart_example_in_metric_readings():
    """31 and 27 °C, 50 %, 19 km/h, published 1.2 kg/m2/h; the paper's rounded metric form gives 1.152."""
    assert evaporation(31, 27, 0.5, 19).rate == pytest.approx(1.2, abs=0.05)
    rounded = 5 * ((31 + 18) ** 2.5 - 0.5 * (27 + 18) ** 2.5) * (19 + 4) * 1e-6
    assert rounded == pytest.approx(1.152, abs=0.001)


def test_one_formula_serves_both_units():
    """The same weather told in metric: 1.1887; the rounded form would say 1.1378, 4.3 % less."""
    found = evaporation(30.5556, 26.6667, 0.5, 19.312).rate
    rounded = 5 * (48.5556**2.5 - 0.5 * 44.6667**2.5) * (19.312 + 4) * 1e-6
    assert found == pytest.approx(1.1887, abs=0.0002)
    assert rounded / found - 1 == pytest.approx(-0.043, abs=0.001)


def test_exact_metric_image_of_the_formula():
    """5.2751, 17.778 and 4.02336 in place of 5, 18 and 4: by algebra, and as an instrument maker prints."""
    image = 5.2751 * ((25 + 17.778) ** 2.5 - 0.4 * (30 + 17.778) ** 2.5) * (12 + 4.02336) * 1e-6
    assert evaporation(25, 30, 0.4, 12).rate == pytest.approx(image, rel=1e-4)


@pytest.mark.parametrize(
    ("weather", "formula", "table"),
    [
        ((70, 70, 70, 0), 0.0123, 0.015),
        ((70, 70, 70, 5), 0.0369, 0.038),
        ((70, 70, 70, 10), 0.0615, 0.062),
        ((70, 70, 70, 15), 0.0861, 0.085),
        ((70, 70, 70, 20), 0.1107, 0.110),
        ((70, 70, 70, 25), 0.1353, 0.135),
        ((70, 70, 90, 10), 0.0205, 0.020),
        ((70, 70, 50, 10), 0.1025, 0.100),
        ((70, 70, 10, 10), 0.1845, 0.175),
        ((90, 90, 10, 10), 0.3458, 0.336),
        ((70, 40, 50, 10), 0.1797, 0.162),
    ],
)
def test_drying_table(weather, formula, table):
    """PCA drying-tendency table, 1957, from memory; the formula's own figure is worked beside it.

    Cold air over warm concrete is where the formula is known to run high, by up to 20 %.
    """
    assert rate(*weather) == pytest.approx(formula, abs=0.0001)
    assert rate(*weather) == pytest.approx(table, rel=0.2)


def test_thresholds():
    """FHWA-HRT-05-038, ch. 5: 0.5 and 1.0 kg/m2/h, exactly 0.1 and 0.2 lb/ft2/h."""
    assert pytest.approx(0.97649, abs=1e-5) == ACTION
    assert pytest.approx(1.0, abs=0.03) == ACTION
    assert pytest.approx(0.5, abs=0.02) == CAUTION


def test_band_of_40_percent():
    """ACI SP-338, paper 2, 2020: the true rate may lie 40 % either way."""
    found = evaporation(30, 25, 0.5, 15)
    assert found.low == pytest.approx(0.6 * found.rate)
    assert found.high == pytest.approx(1.4 * found.rate)


def test_dew_is_no_evaporation():
    """The formula goes below zero where cool concrete meets warm damp air; the rate does not."""
    assert us_rate(50, 90, 0.9, 5) < 0
    assert evaporation(celsius(50), celsius(90), 0.9, 8).rate == 0


@pytest.mark.parametrize(
    "readings",
    [
        (87, 80, 0.5, 19.3),
        (31, 80, 0.5, 19.3),
        (31, 27, 50, 19.3),
        (31, 27, 0.005, 19.3),
        (31, 27, 0.5, -1),
        (-1, 27, 0.5, 10),
    ],
)
def test_slips_of_units_are_refused(readings):
    """Fahrenheit for Celsius, percent for a share, half a percent, wind below nought, ice."""
    with pytest.raises(InputRefused):
        evaporation(*readings)


def test_what_a_slip_of_units_would_hide():
    """By hand: Celsius fed to the formula reads 0.0200 for 0.2435, km/h for mph 0.366."""
    assert us_rate(31, 27, 0.5, 12) == pytest.approx(0.0200, abs=0.0001)
    assert us_rate(87, 80, 0.5, 19.312) == pytest.approx(0.366, abs=0.001)


def test_a_forecast_wind_is_brought_down():
    """Log law over open ground, z0 = 0.03 m: 0.48 of the wind at 10 m (roughness from memory)."""
    expected = math.log(0.5 / 0.03) / math.log(10 / 0.03)
    assert wind_at_slab(10, 10_000) / 10 == pytest.approx(expected)
    assert expected == pytest.approx(0.48, abs=0.005)
    assert wind_at_slab(10, 500) == 10
