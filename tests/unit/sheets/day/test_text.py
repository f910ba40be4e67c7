"""The placement day as plain text."""

import math
import re
from types import SimpleNamespace

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
from kerfline.placement.window import Span
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.day.text import (
    NEVER,
    READY,
    base_line,
    clock,
    cutting_lines,
    day_text,
    finishing_lines,
    span,
    truck_lines,
    window_words,
)
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from parted import parted_day, parted_outcome
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


def test_the_text_has_every_section(plan):
    """In order, with its lines set in."""
    text = day_text(plan, Display.FEET_INCHES)
    heads = [line for line in text.splitlines() if line and not line.startswith(" ")]
    assert heads == [
        "Placement day Workshop 2026-06-14",
        "Mind today",
        "Concrete",
        "Trucks",
        "Placements",
        "Weather",
        "Cutting",
        "Fewer days or fewer bulkheads",
        "Take-off",
        "Setting out and acceptance",
        "Habits of the trade",
        "Safety",
        "Assumed",
        "To be asked",
    ]


def test_a_metric_day_is_told_in_metric():
    """No feet, yards, pounds or Fahrenheit in orders, placements and weather."""
    text = day_text(planned(display=Display.METRIC), Display.METRIC)
    own = text.split("Setting out")[0]
    for unit in (" yd3", " ft2", " ft ", "°F", " lb", " gal"):
        assert unit not in own.replace("0.1 lb/ft2/h", "")
    assert " m3" in own
    assert "kg/m2/h" in own


def window(opens, closes, ready=None, deadline=None):
    return SimpleNamespace(
        opens=SimpleNamespace(likely=opens),
        closes=SimpleNamespace(likely=closes),
        workable=ready is None,
        ready=ready,
        deadline=deadline,
    )


def test_times_are_told_on_the_clock_of_their_day_and_what_never_comes_is_said():
    assert clock(7.5, 1) == "07:30"
    assert clock(24 + 7.5, 2) == "07:30"
    assert clock(math.inf, 1) == NEVER
    assert span(Span(early=6.0, likely=7.0, late=8.5), 1) == "07:00 (06:00 to 08:30)"
    assert span(Span(early=6.0, likely=math.inf, late=math.inf), 1) == NEVER


def test_a_window_is_open_all_at_once_or_follows_the_placing():
    assert window_words(window(10.0, 14.0), 1) == "10:00 to 14:00"
    assert (
        window_words(window(10.0, 9.0, ready=8.0, deadline=15.0), 1)
        == "08:00 to 15:00, behind the placing"
    )


def test_every_line_of_the_day_is_told_in_order():
    plan = parted_day(parted_outcome())
    lines = cutting_lines(plan, Display.FEET_INCHES)
    numbered = [line for line in lines if re.match(r"\d+\. day", line)]
    assert [int(line.split(".")[0]) for line in numbered] == sorted(
        c.order for c in plan.placement.cutting.cuts
    )
    assert len(truck_lines(plan, Display.FEET_INCHES)) == sum(o.delivery.loads for o in plan.orders)
    assert len(finishing_lines(plan)) == len(plan.placement.hours) + 1
    assert finishing_lines(plan)[-1] == READY


def test_a_base_too_low_takes_its_share_of_the_thickness_more():
    """1/8 in under 4 in is a 32nd."""
    plan = parted_day(parted_outcome())
    assert base_line(plan, Display.FEET_INCHES).startswith(
        'a base 1/8" too low under 4" takes 3.1% more'
    )
