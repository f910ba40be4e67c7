"""A summer's day on which the workshop's floor is placed in three parts."""

import math

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.model.day import Concrete, DayInput, PourChoice, Side, SteelChoice, WeatherHour
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
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
    """The plan of a day."""
    return plan_day(workshop_slab(), parted(day, display), RULES, day, display, job="Workshop")


def parted(day=DAY, display=Display.FEET_INCHES):
    """The layout with the construction joints of a day."""
    return placed_layout(workshop_slab(), workshop_layout(), day, display)
