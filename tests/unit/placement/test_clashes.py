"""What weather, light and clock do to a plan, at the very edge of each figure."""

import math
from types import SimpleNamespace

import pytest

from kerfline.model.day import WeatherHour
from kerfline.placement.clashes import (
    HOT_AIR,
    PROTECTION,
    clock_clashes,
    dark_clashes,
    drying_clashes,
    weather_clashes,
)
from kerfline.placement.climate import Climate
from kerfline.placement.light import Daylight
from kerfline.units import Display, celsius

FEET = Display.FEET_INCHES
MILD = {"humidity": 0.6, "wind": 5.0, "wind_height": 500.0}


def climate(*readings):
    """Weather from pairs of clock hour and air in degrees Celsius."""
    hours = tuple(
        WeatherHour(clock=float(clock), air=float(air), **MILD) for clock, air in readings
    )
    return Climate(hours=hours, concrete=20.0, known=True)


def placed(name="1", start=8.0, end=10.0, floated=(10.5, 12.5), finished=(13.0, 15.0), **others):
    """A placement's hours, as far as clashes ask for them."""
    pour = SimpleNamespace(id=name, start=start, end=end, day=1)
    return SimpleNamespace(pour=pour, floated=floated, finished=finished, over_action=0.0, **others)


def cuts(*times):
    """Cuts of the first placement, each from one clock hour to another."""
    window = SimpleNamespace(pours=("1",), deadline=20.0)
    return SimpleNamespace(cuts=[SimpleNamespace(start=a, end=b, window=window) for a, b in times])


def weather(readings, hours=None, cutting=None):
    given = [placed()] if hours is None else hours
    return " ".join(weather_clashes(climate(*readings), given, cutting or cuts(), FEET))


def every_hour(air, first=0, last=72, **at):
    """Readings by the hour at one temperature, but for the hours named as ``h12``."""
    return [(hour, at.get(f"h{hour}", air)) for hour in range(first, last)]


def test_frost_is_below_freezing_and_not_at_it():
    assert "Frost" not in weather(every_hour(10, h20=0.0))
    assert "Frost on placement 1: below freezing from 20:00" in weather(every_hour(10, h20=-0.1))


def test_frost_is_minded_from_the_first_concrete_to_the_end_of_its_protection():
    """Finished at 15, protected for 36 h: to 03:00 of the second day after."""
    end = int(15 + PROTECTION)
    assert "Frost" in weather(every_hour(10, **{f"h{end}": -5}))
    assert "Frost" not in weather(every_hour(10, **{f"h{end + 1}": -5}))
    assert "Frost" in weather(every_hour(10, h8=-5))
    assert "Frost" not in weather(every_hour(10, h7=-5))


def test_frost_where_the_concrete_never_sets():
    never = [placed(finished=(math.inf, math.inf))]
    end = int(10 + PROTECTION)
    assert "Frost" in weather(every_hour(10, **{f"h{end}": -5}), never)
    assert "Frost" not in weather(every_hour(10, **{f"h{end + 1}": -5}), never)


def test_cuts_in_frost_one_some_or_every():
    cold = every_hour(-3)
    assert "The cut falls in frost" in weather(cold, cutting=cuts((20, 21)))
    assert "Every cut falls in frost" in weather(cold, cutting=cuts((20, 21), (21, 22)))
    some = weather(every_hour(5, h21=-3, h22=5), cutting=cuts((20, 20.5), (21, 21.5)))
    assert "1 of 2 cuts falls in frost, the coldest at 21:00" in some
    assert "in frost" not in weather(every_hour(0), cutting=cuts((20, 21)))


def test_heat_stress_from_90_fahrenheit_on():
    assert celsius(90) == HOT_AIR
    assert "Heat stress" in weather(every_hour(20, h12=HOT_AIR))
    assert "Heat stress" not in weather(every_hour(20, h12=HOT_AIR - 0.01))


def test_heat_counts_until_the_last_cut():
    assert "Heat" in weather(every_hour(20, h18=35), cutting=cuts((17, 18)))
    assert "Heat" not in weather(every_hour(20, h19=35), cutting=cuts((17, 18)))
    assert "Heat" not in weather(every_hour(20, h16=35))


def test_a_gap_of_three_hours_is_none():
    base = every_hour(15, 0, 10)
    assert "No reading" not in weather([*base, *every_hour(15, 12, 72)])
    assert "No reading between 09:00 and 13:00" in weather([*base, *every_hour(15, 13, 72)])
    assert "No reading" not in weather([*every_hour(15, 0, 16), *every_hour(15, 20, 72)])
    assert "No reading" not in weather([(0, 15), *every_hour(15, 8, 72)])


def test_the_table_must_reach_from_the_first_truck_to_the_last_hour():
    assert "begins at" not in weather(every_hour(15, 8, 72))
    assert "The weather table begins at 09:00" in weather(every_hour(15, 9, 72))
    assert "ends at" not in weather(every_hour(15, 0, 16))
    assert "Evaporation of placement 1 after that" in weather(every_hour(15, 0, 15))
    beyond = weather(every_hour(15, 0, 16), cutting=cuts((16, 17)))
    assert "The weather table ends at 15:00. Evaporation after that" in beyond


@pytest.mark.parametrize(
    ("clock", "told"), [(7.9, False), (8.0, True), (19.0, True), (20.0, True), (20.1, False)]
)
def test_a_change_of_the_clock_from_the_first_truck_to_the_closing_of_the_last_line(clock, told):
    """The last line of the placement closes at 20."""
    said = clock_clashes((clock, -1.0), [placed()], cuts((16, 17)))
    assert bool(said) is told
    assert not said or "Clocks go back 1 h" in said[0]


def test_clocks_go_forward():
    (said,) = clock_clashes((10.0, 1.0), [placed()], cuts())
    assert "Clocks go forward 1 h at 10:00" in said
    assert "shows 1 h more" in said


def test_placed_and_finished_in_the_dark_are_told_apart():
    """Sunrise 6, sunset 20: a quarter of an hour of light at either end does not make a day."""
    light = Daylight(rise=6.0, set=20.0)
    night = placed(start=19.8, end=22.0, floated=(22.5, 24.0), finished=(25.0, 27.0))
    dawn = placed("2", start=4.0, end=7.0)
    evening = placed("3", start=16.0, end=18.0, floated=(18.5, 20.5), finished=(21.0, 23.0))
    said = dark_clashes(light, [night, dawn, evening, placed("4")], cuts((5.0, 5.5), (7.0, 8.0)))
    assert said[0].startswith("Placement 1 is placed and finished in the dark")
    assert said[1].startswith("Placement 2 is partly placed in the dark")
    assert said[2].startswith("Placement 3 is partly finished in the dark")
    assert said[2].endswith("lights on stands.")
    assert said[3].startswith("1 of 2 cuts falls in the dark, from 05:00 on")
    assert len(said) == 4
    assert dark_clashes(None, [night], cuts()) == []


def test_drying_is_told_only_over_the_threshold_for_action():
    hours, dry = placed(), placed("2")
    dry.over_action = 1.5
    curve = climate(*every_hour(35)).evaporation()
    said = drying_clashes([hours, dry], curve, Display.METRIC)
    assert len(said) == 1
    assert "placement 2" in said[0]
    assert "1.5 h over the 1.0 kg/m2/h" in said[0]
