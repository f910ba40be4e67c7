"""The hours of a placement between its first concrete and its finished surface."""

import math

import pytest

from kerfline.model.day import WeatherHour
from kerfline.placement.climate import Ageing, Climate
from kerfline.placement.pour_hours import finishers, pour_hours
from poured import AREA, SETTING, pour

FOOT2 = 304.8**2


@pytest.mark.parametrize(
    ("area", "hands"), [(100.0, 1), (400.0, 1), (401.0, 2), (800.0, 2), (3000.0, 8), (0.0, 0)]
)
def test_a_hand_finishes_100_square_feet_an_hour(area, hands):
    """Estimating textbook, fig. 10.30: placed at 7, first finished at 11, last at 13: 13 - 9 = 4 hours."""
    assert finishers(area * FOOT2 * (1 - 1e-12), 11.0, 13.0, 7.0) == hands


def test_concrete_that_never_sets_has_no_finishers():
    assert finishers(1e9, math.inf, math.inf, 7.0) == 0


def steady(degrees, *, wind=0.0, humidity=1.0, last=48):
    hours = tuple(
        WeatherHour(clock=float(h), air=degrees, humidity=humidity, wind=wind, wind_height=500.0)
        for h in range(last + 1)
    )
    return Climate(hours=hours, concrete=degrees, known=True)


def measured(climate):
    placed = pour()
    made = Ageing.of(climate, SETTING, placed.start, placed.end)
    return placed, pour_hours(placed, made, SETTING, climate, climate.evaporation())


def test_at_the_reference_it_is_floated_and_finished_by_its_hours():
    """30 m3 at 20 m3/h from 7: placed by 8.5; floated after 2.75 hours, finished after 3."""
    placed, hours = measured(steady(21.0))
    assert placed.end == pytest.approx(8.5)
    assert hours.floated == pytest.approx((9.75, 11.25))
    assert hours.finished == pytest.approx((10.0, 11.5))


def test_hands_are_those_of_its_area():
    """300 m2 are 3229 ft2; from 8.5 to 11.5 are 3 hours, so 11 hands."""
    _, hours = measured(steady(21.0))
    assert AREA.area == 3e8
    assert hours.finishers == 11


def test_hours_of_drying_count_from_the_first_concrete_to_the_last_finishing():
    """Dry and windy all day: over both thresholds for all of 7 to 11.5; still and moist: for none."""
    _, dry = measured(steady(21.0, wind=60.0, humidity=0.05))
    assert (dry.over_caution, dry.over_action) == pytest.approx((4.5, 4.5), abs=0.05)
    _, moist = measured(steady(21.0))
    assert (moist.over_caution, moist.over_action) == (0.0, 0.0)


@pytest.mark.parametrize(("last", "known"), [(12, True), (11, False)])
def test_the_weather_is_known_where_its_table_reaches_to_the_last_finishing(last, known):
    _, hours = measured(steady(21.0, last=last))
    assert hours.weather_known is known
