"""The rows of a day's time line."""

import math
from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.model.day import (
    Concrete,
    DayInput,
    PourChoice,
    Side,
    SteelChoice,
    WeatherHour,
)
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.day.text import day_text
from kerfline.sheets.day.time_rows import time_lines
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from shapes import workshop_layout, workshop_slab

RULES = SlabRules(rule_set=load("floor"))
WEATHER = tuple(
    WeatherHour(
        clock=float(h),
        air=24 + 8 * math.sin((h - 9) / 24 * 2 * math.pi),
        humidity=0.4,
        wind=20.0,
        wind_height=10_000.0,
    )
    for h in range(31)
)

DAY = DayInput(
    date="2026-06-14",
    starts=(6.5,),
    weather=WEATHER,
    concrete=Concrete(temperature=26.0),
    pours=PourChoice(volume=12 * MM3_PER_YD3, access=(Side.BOTTOM,), screed=16 * MM_PER_FOOT),
    sunrise=5.5,
    sunset=20.5,
    steel=SteelChoice(dowels="ufc-3-260-02"),
)


def planned(day=DAY, display=Display.FEET_INCHES):
    return plan_day(workshop_slab(), parted(day, display), RULES, day, display, job="Workshop")


def parted(day=DAY, display=Display.FEET_INCHES):
    return placed_layout(workshop_slab(), workshop_layout(), day, display)


@pytest.fixture(scope="module")
def plan():
    return planned()


def test_a_time_line_for_each_day(plan):
    """Three days, three time lines; each shows its own placement and holds its own hours."""
    lines = time_lines(plan.placement, 2.4, Display.FEET_INCHES)
    assert [line.heading for line in lines] == [f"Day {n} against the clock" for n in (1, 2, 3)]
    for number, line in enumerate(lines):
        names = [row.name for row in line.rows]
        assert f"placement {number + 1}" in names
        assert f"cut placement {number + 1}" in names
        assert any(name.startswith("saw 1") for name in names)
        assert 24 * number < line.start < line.end <= 24 * (number + 2)
    assert lines[0].curve
    assert not lines[2].curve


def test_without_weather_there_is_no_graph():
    """Nor a rate in the text."""
    bare = planned(replace(DAY, weather=()))
    assert not time_lines(bare.placement, 2.4, Display.FEET_INCHES)[0].curve
    assert "no weather given" in day_text(bare, Display.FEET_INCHES)
