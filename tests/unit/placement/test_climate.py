"""The weather of the day as a curve, and the temperatures between which the concrete lies."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.model.day import (
    Batch,
    Concrete,
    CuringChoice,
    DayInput,
    Ledger,
    SettingRule,
    WeatherHour,
)
from kerfline.placement.climate import (
    COLDEST_CONCRETE,
    HOTTEST_CONCRETE,
    Ageing,
    Climate,
    EvaporationHour,
    between,
    climate_of,
    hours_over,
    temperature_cautions,
    worst,
)
from kerfline.placement.evaporation import ACTION, CAUTION, Evaporation
from kerfline.placement.setting import Setting
from kerfline.units import Display, celsius

FEET = Display.FEET_INCHES
DRY = WeatherHour(clock=0, air=32.0, humidity=0.2, wind=20.0, wind_height=500.0)


def hours(*readings, **changes):
    """Hourly weather, air temperatures given."""
    return tuple(
        replace(DRY, clock=float(i), air=float(air), **changes) for i, air in enumerate(readings)
    )


def rates(*pairs):
    """A curve from pairs of clock hour and rate."""
    return tuple(
        EvaporationHour(clock=c, air=20.0, rate=Evaporation(rate=r, low=r, high=r))
        for c, r in pairs
    )


def test_weather_repeats_by_whole_days_only_where_it_covers_one():
    """Hour 30 is hour 6 of a day's table; a table of three hours holds its last value."""
    day = Climate(hours=hours(*range(25)), concrete=20.0, known=True)
    assert day.air(np.array(6.5)) == pytest.approx(6.5)
    assert day.air(np.array(30.5)) == pytest.approx(6.5)
    assert day.air(np.array(-1.0)) == pytest.approx(23.0)
    short = Climate(hours=hours(10, 11, 12), concrete=20.0, known=True)
    assert short.air(np.array(30.0)) == pytest.approx(12.0)


def test_concrete_lies_between_itself_and_the_air():
    """Warm is the warmer of the two, cool the cooler."""
    climate = Climate(hours=hours(10, 30), concrete=20.0, known=True)
    clock = np.array([0.0, 1.0])
    assert climate.cool(clock) == pytest.approx([10.0, 20.0])
    assert climate.likely(clock) == pytest.approx([15.0, 25.0])
    assert climate.warm(clock) == pytest.approx([20.0, 30.0])


def test_hours_over_a_threshold_are_counted_between_readings():
    """Two hours of a rate far over both thresholds, one of them inside the stretch asked for."""
    curve = Climate(hours=hours(32, 32, 32), concrete=35.0, known=True).evaporation()
    assert all(h.rate.rate > ACTION for h in curve)
    assert hours_over(curve, CAUTION, 0.0, 2.0) == pytest.approx(2.0, abs=0.02)
    assert hours_over(curve, ACTION, 1.0, 9.0) == pytest.approx(1.0, abs=0.02)
    assert hours_over((), CAUTION, 0.0, 2.0) == 0.0
    assert worst(curve, 5.0, 6.0) is None
    assert worst(curve, 0.5, 0.6).clock == pytest.approx(0.5)


def test_no_temperature_is_asked_for_and_taken_from_the_air():
    """At the first discharge; without weather from the reference."""
    ledger = Ledger()
    climate = climate_of(DayInput(weather=hours(10, 20)), 1.0, 21.0, ledger)
    assert climate.concrete == pytest.approx(20.0)
    assert not climate.known
    assert any("day.concrete.temperature" in q for q in ledger.questions)
    bare = climate_of(DayInput(), 1.0, 21.0, Ledger())
    assert bare.concrete == pytest.approx(21.0)


def test_a_table_of_23_hours_repeats_and_one_of_a_minute_less_does_not():
    day = Climate(hours=hours(*range(24)), concrete=20.0, known=True)
    assert day.air_at(25.0) == pytest.approx(1.0)
    short = Climate(
        hours=(*hours(*range(23)), replace(DRY, clock=22.9, air=0.0)), concrete=20.0, known=True
    )
    assert short.air_at(25.0) == pytest.approx(0.0)


def test_without_weather_the_air_is_as_warm_as_the_concrete():
    climate = Climate(hours=(), concrete=18.0, known=True)
    assert climate.air_at(7.0) == 18.0
    assert not climate.covers(7.0, 8.0)
    assert climate.evaporation() == ()


def test_what_is_kept_warm_falls_no_lower():
    climate = Climate(hours=hours(0, 0), concrete=20.0, known=True, kept=13.0)
    clock = np.array([0.0])
    assert climate.cool(clock) == [13.0]
    assert climate.likely(clock) == [13.0]
    assert climate.warm(clock) == [20.0]


@pytest.mark.parametrize(
    ("start", "end", "covered"), [(0, 2, True), (0.5, 1, True), (-0.1, 2, False), (0, 2.1, False)]
)
def test_a_table_covers_from_its_first_reading_to_its_last(start, end, covered):
    assert Climate(hours=hours(1, 2, 3), concrete=20.0, known=True).covers(start, end) is covered


def test_the_rate_is_linear_between_readings_and_over_a_threshold_at_it():
    """From 0 to 2 kg/m2/h over two hours: an hour at 1 and more, a quarter of an hour at 1.75 and more."""
    curve = rates((0.0, 0.0), (2.0, 2.0))
    assert hours_over(curve, 1.0, 0.0, 5.0) == pytest.approx(1.0, abs=0.02)
    assert hours_over(curve, 1.75, 0.0, 5.0) == pytest.approx(0.25, abs=0.02)
    assert hours_over(rates((0.0, 1.0), (2.0, 1.0)), 1.0, 0.0, 2.0) == pytest.approx(2.0)
    assert hours_over(curve, 0.0, 2.0, 1.0) == 0.0
    assert hours_over(curve, 0.0, -3.0, 1.0) == pytest.approx(1.0, abs=0.02)


def test_a_stretch_of_the_curve_is_cut_off_in_straight_lines():
    curve = rates((0.0, 0.0), (2.0, 2.0), (4.0, 0.0))
    assert [(h.clock, h.rate.rate) for h in between(curve, 1.0, 3.5)] == [
        (1, 1),
        (2, 2),
        (3.5, 0.5),
    ]
    assert [h.clock for h in between(curve, -1.0, 9.0)] == [0, 2, 4]


@pytest.mark.parametrize(("start", "end"), [(-2, 0), (4, 6), (9, 12)])
def test_beyond_the_curve_there_is_nothing_of_it(start, end):
    curve = rates((0.0, 0.0), (4.0, 2.0))
    assert between(curve, start, end) == ()
    assert worst(curve, start, end) is None


def test_one_reading_makes_no_curve():
    assert between(rates((0.0, 1.0)), -1.0, 1.0) == ()


def test_the_worst_of_a_stretch_may_lie_at_its_end():
    found = worst(rates((0.0, 0.0), (2.0, 2.0)), 0.0, 1.0)
    assert (found.clock, found.rate.rate) == (1.0, 1.0)
    assert (found.rate.low, found.rate.high) == pytest.approx((0.6, 1.4))


BATCH = Batch(
    cement=300.0, aggregate=1900.0, water=150.0, cement_temperature=60.0,
    aggregate_temperature=35.0, water_temperature=25.0,
)  # fmt: skip


def test_a_temperature_from_the_ingredients_is_known_and_noted():
    """0.22 x (300 x 60 + 1900 x 35) + 150 x 25 over 0.22 x 2200 + 150 is 22 340 / 634, 35.2 degrees."""
    ledger = Ledger()
    climate = climate_of(DayInput(concrete=Concrete(batch=BATCH)), 7.0, 21.0, ledger)
    assert climate.known
    assert climate.concrete == pytest.approx(22_340 / 634)
    assert ledger.assumptions[0].value == "35 °C (95 °F) as mixed"


def test_a_given_temperature_comes_before_the_ingredients_and_is_not_noted():
    ledger = Ledger()
    day = DayInput(
        concrete=Concrete(temperature=18.0, batch=BATCH), curing=CuringChoice(kept_at=13.0)
    )
    climate = climate_of(day, 7.0, 21.0, ledger)
    assert (climate.concrete, climate.known, climate.kept) == (18.0, True, 13.0)
    assert ledger.assumptions == []


def test_weather_is_put_in_order_of_time():
    day = DayInput(weather=hours(1, 2, 3)[::-1])
    assert [h.clock for h in climate_of(day, 7.0, 21.0, Ledger()).hours] == [0, 1, 2]


@pytest.mark.parametrize(("height", "told"), [(500.0, False), (501.0, True), (10_000.0, True)])
def test_a_wind_from_higher_up_is_brought_down_with_a_word(height, told):
    ledger = Ledger()
    climate_of(DayInput(weather=hours(20, wind_height=height)), 7.0, 21.0, ledger)
    assert any("brought down" in a.text for a in ledger.assumptions) is told


def cautions(concrete, air=20.0, batch=None, known=True):
    climate = Climate(hours=hours(air, air), concrete=concrete, known=known)
    return " ".join(temperature_cautions(climate, 0.0, 1.0, batch, FEET))


@pytest.mark.parametrize(
    ("concrete", "words"),
    [
        (HOTTEST_CONCRETE, ""),
        (HOTTEST_CONCRETE + 0.1, "Concrete over 95 °F"),
        (COLDEST_CONCRETE, ""),
        (COLDEST_CONCRETE - 0.1, "Concrete under 55 °F"),
    ],
)
def test_hot_and_cold_concrete_is_spoken_of_beyond_its_limit_alone(concrete, words):
    """ACI 301-20 and 305.1-14, 95 °F; ACI 306R, Table 3.1, 55 °F; as quoted."""
    found = cautions(concrete)
    assert found.startswith(words)
    assert bool(found) is bool(words)
    assert cautions(concrete, known=False) == ""


@pytest.mark.parametrize(("fahrenheit", "told"), [(40.0, False), (39.9, True)])
def test_air_below_40_fahrenheit_is_cold_weather(fahrenheit, told):
    """ACI 306R."""
    assert ("cold weather by ACI 306R" in cautions(20.0, celsius(fahrenheit))) is told


def test_ice_and_hot_water_are_reckoned_from_the_batch():
    """25/9 K more in what holds as much heat as 634 kg of water are 11.74 K more in 150 kg: 21.7 °C."""
    assert "as ice it would come at 95 °F" in cautions(celsius(96), batch=BATCH)
    hot = replace(BATCH, aggregate_temperature=80.0)
    assert "More than all mixing water as ice" in cautions(50.0, batch=hot)
    cold = replace(
        BATCH, cement_temperature=10.0, aggregate_temperature=10.0, water_temperature=10.0
    )
    assert "With mixing water at 71 °F" in cautions(10.0, batch=cold)
    frozen = replace(cold, aggregate_temperature=-10.0)
    assert "Hot water alone does not bring it" in cautions(0.0, batch=frozen)


SETTING = Setting(initial_set=4, finishing=6, reference=20.0, rule=SettingRule.HALVING)


@given(st.floats(5, 35), st.floats(5, 35))
def test_concrete_ages_fastest_at_the_warmest_and_slowest_at_the_coolest(concrete, air):
    """At one temperature by a fifth either way, for so much do the rules of maturity differ."""
    climate = Climate(hours=hours(air, air), concrete=concrete, known=True)
    warm, likely, cool = (c.until(4.0, 0.0) for c in Ageing.of(climate, SETTING, 0.0, 1.0).curves)
    assert warm < likely < cool
    same = Climate(hours=hours(air, air), concrete=air, known=True)
    warm, likely, cool = (c.until(4.0, 0.0) for c in Ageing.of(same, SETTING, 0.0, 1.0).curves)
    assert (likely / warm, cool / likely) == pytest.approx((1.2, 1.2), rel=1e-6)
