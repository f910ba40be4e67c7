"""Temperature of concrete by its ingredients, heat and cold limits, against publications.

Sources: ACI 305R and CRD-C 307-91 (heat balance: dry ingredients 0.22, heat of fusion 143.5 Btu/lb); a trade
page on hot weather (1 °F of concrete for 2 °F of aggregate); ACI 301-20 and 305.1-14 as quoted (95 °F);
ACI 306R, Table 3.1, as quoted (55 °F); ACI 306R as quoted (40 °F); NFBA magazine, October 2020, p. 18 (500 psi).
"""

from dataclasses import replace

import pytest

from kerfline.model.day import Batch
from kerfline.placement.clashes import PROTECTION
from kerfline.placement.climate import COLD_AIR, COLDEST_CONCRETE, HOTTEST_CONCRETE
from kerfline.placement.mixing import ice_for, mixed_temperature, water_for
from kerfline.units import celsius, to_fahrenheit


def batch(cement=150.0, aggregate=90.0, water=75.0, ice=0.0):
    """A yard of 564 lb cement, 3,000 lb aggregate with 60 lb free water, 240 lb water; temperatures in °F."""
    return Batch(
        cement=564, aggregate=3000, water=240 - ice, ice=ice, moisture=60,
        cement_temperature=celsius(cement), aggregate_temperature=celsius(aggregate),
        water_temperature=celsius(water),
    )  # fmt: skip


def by_hand(cement=150.0, aggregate=90.0, water=75.0, ice=0.0):
    """ACI 305R in °F and lb: (0.22 (Ta Wa + Tc Wc) + Tw Ww + Ta Wam - 112 Wi) / (0.22 (Wa + Wc) + Ww + Wam + Wi).

    112 is the 143.5 Btu/lb of fusion less the 32 °F at which ice is counted.
    """
    heat = (
        0.22 * (aggregate * 3000 + cement * 564)
        + water * (240 - ice)
        + aggregate * 60
        - 111.5 * ice
    )
    return heat / (0.22 * (3000 + 564) + 240 + 60)


@pytest.mark.parametrize("ice", [0.0, 50.0, 120.0])
def test_the_heat_balance_in_pounds_and_fahrenheit(ice):
    """By hand from the formula of ACI 305R; 92.5, 84.1 and 72.3 °F here."""
    found = to_fahrenheit(mixed_temperature(batch(ice=ice)))
    assert found == pytest.approx(by_hand(ice=ice), abs=0.05)


def test_two_degrees_of_aggregate_are_one_of_concrete():
    """Trade page on hot weather: 1 °F of concrete for 2 °F of aggregate, near enough."""
    drop = mixed_temperature(batch()) - mixed_temperature(batch(aggregate=80.0))
    assert drop * 1.8 == pytest.approx(5, abs=1.8)


def test_ice_and_hot_water_bring_what_was_asked():
    """What they say is put back into the balance."""
    hot = batch(aggregate=105.0, cement=170.0)
    ice = ice_for(hot, celsius(95))
    assert 0 < ice < hot.water
    cooled = replace(hot, water=hot.water - ice, ice=ice)
    assert to_fahrenheit(mixed_temperature(cooled)) == pytest.approx(95, abs=0.01)
    cold = batch(aggregate=38.0, cement=45.0, water=45.0)
    warm = replace(cold, water_temperature=water_for(cold, celsius(55)))
    assert to_fahrenheit(mixed_temperature(warm)) == pytest.approx(55, abs=0.01)
    assert ice_for(cold, celsius(95)) == 0


@pytest.mark.parametrize(
    ("limit", "fahrenheit"), [(HOTTEST_CONCRETE, 95), (COLDEST_CONCRETE, 55), (COLD_AIR, 40)]
)
def test_the_limits_of_heat_and_cold(limit, fahrenheit):
    """95 °F at discharge (ACI 301-20, 305.1-14); 55 °F as placed (ACI 306R, Table 3.1); air of 40 °F (ACI 306R)."""
    assert to_fahrenheit(limit) == pytest.approx(fahrenheit)


def test_five_hundred_psi_takes_24_to_36_hours():
    """NFBA magazine, October 2020, p. 18: protection lasts for the longer one."""
    assert PROTECTION == 36
