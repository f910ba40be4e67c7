"""The heat of fresh concrete: laws of the balance; its figures stand in tests/published."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.model.day import Batch
from kerfline.placement.mixing import FUSION, ice_for, mixed_temperature, water_for

temperatures = st.floats(-5, 60)


def batch(cement=20.0, aggregate=20.0, water=20.0, **more):
    return Batch(
        cement=300.0,
        aggregate=1900.0,
        water=150.0,
        cement_temperature=cement,
        aggregate_temperature=aggregate,
        water_temperature=water,
        **more,
    )


@given(temperatures, st.floats(0, 100))
def test_what_is_all_at_one_temperature_stays_there(degrees, moisture):
    mixed = batch(degrees, degrees, degrees, moisture=moisture)
    assert mixed_temperature(mixed) == pytest.approx(degrees, abs=1e-9)


def test_by_hand():
    """0.22 x (300 x 60 + 1900 x 30) + 150 x 10 is 18 000; over 0.22 x 2200 + 150 = 634 it is 28.4."""
    assert mixed_temperature(batch(60.0, 30.0, 10.0)) == pytest.approx(18_000 / 634)


def test_moisture_is_as_warm_as_its_aggregate_and_as_heavy_to_warm_as_water():
    """66 kg of it on aggregate of 30 degrees add 1980 to 18 000 and 66 to 634."""
    assert mixed_temperature(batch(60.0, 30.0, 10.0, moisture=66.0)) == pytest.approx(19_980 / 700)


def test_ice_takes_up_its_heat_of_fusion():
    """CRD-C 307-91: 143.5 Btu/lb, 79.7 K of as much water; a sixth of the water as ice, over 659."""
    assert pytest.approx(79.72, abs=0.01) == FUSION
    expected = (0.22 * 2200 * 20 + 150 * 20 - 25 * FUSION) / (484 + 150 + 25)
    assert mixed_temperature(batch(ice=25.0)) == pytest.approx(expected)


@given(temperatures, temperatures, st.floats(5, 35))
def test_water_as_warm_as_is_asked_brings_what_is_wanted(cement, aggregate, wanted):
    made = batch(cement, aggregate)
    warmed = replace(made, water_temperature=water_for(made, wanted))
    assert mixed_temperature(warmed) == pytest.approx(wanted, abs=1e-6)


@given(st.floats(20, 60), st.floats(20, 40), st.floats(15, 20))
def test_ice_in_place_of_water_brings_what_is_wanted(cement, aggregate, wanted):
    made = batch(cement, aggregate)
    ice = ice_for(made, wanted)
    cooled = replace(made, water=made.water - ice, ice=ice)
    assert mixed_temperature(cooled) == pytest.approx(wanted, abs=1e-6)


def test_no_ice_makes_concrete_warmer():
    assert ice_for(batch(), 20.0) == pytest.approx(0.0)
    assert ice_for(batch(), 30.0) == 0.0
