"""Late feet of 200 random days, each point of each line reckoned by itself in plain steps of time.

The day's plan says which line a saw cuts when, and from which end. Everything else is worked out here a
second time: when the concrete came to a point, how it aged since, when it may be cut, and where the saw is.
Nothing is shared with ``kerfline.placement`` but the figures that go in.
"""

import math
import random

import pytest
from shapely import LineString

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.model.day import (
    Concrete,
    DayInput,
    MixSetting,
    PourChoice,
    SawChoice,
    SettingRule,
    Side,
    WeatherHour,
)
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from shapes import layout_of

RULES = SlabRules(rule_set=load("floor"))
DAYS = 200
THICK = 150.0
POINT = 250.0
TICK = 1 / 60
"""Step (hours) in which the oracle's concrete ages."""

OPENS, CLOSES = 6.0, 12.0
"""Conventional saw, hours after placing at 21 °C."""


def random_day(seed):
    """A slab in bays, placed along one or two placements, its weather and its saws."""
    dice = random.Random(seed)
    bays_long, bays_wide = dice.randint(4, 22), dice.randint(2, 4)
    bay = dice.choice([4000.0, 4500.0, 5000.0])
    length, width = bay * bays_long, bay * bays_wide
    slab = Slab(
        outline=Ring(((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))), thickness=THICK
    )
    lines = [((bay * i, 0.0), (bay * i, width)) for i in range(1, bays_long)]
    lines += [((0.0, bay * i), (length, bay * i)) for i in range(1, bays_wide)]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, line) for line in lines])
    volume = length * width * THICK
    mean, swing = dice.uniform(8, 30), dice.uniform(0, 8)
    weather = tuple(
        WeatherHour(
            clock=float(h),
            air=mean + swing * math.sin((h - 9) / 24 * math.tau),
            humidity=0.6,
            wind=8.0,
            wind_height=500.0,
        )
        for h in range(97)
    )
    hours = dice.uniform(0.8, 11.0)
    day = DayInput(
        starts=(dice.uniform(4, 10),),
        weather=weather,
        concrete=Concrete(temperature=dice.uniform(13, 30), rate=volume / hours),
        setting=MixSetting(initial_set=4, finishing=3, reference=21.0, rule=SettingRule.HALVING),
        pours=PourChoice(
            access=(dice.choice([Side.LEFT, Side.RIGHT]),),
            volume=dice.choice([None, volume * 0.55]),
        ),
        saws=SawChoice(
            count=dice.randint(1, 3),
            rate=dice.uniform(6_000, 60_000),
            move=0.1,
            blade_life=1e9,
            blade_change=0.25,
        ),
    )
    return slab, layout, day


def placed_at(spot, pours, rate):
    """First and last concrete at a point: the front runs evenly along each placement's long side."""
    times = []
    for pour in pours:
        x0, y0, x1, y1 = pour.area.bounds
        if not (x0 - 1 <= spot[0] <= x1 + 1 and y0 - 1 <= spot[1] <= y1 + 1):
            continue
        along, low, high = (0, x0, x1) if x1 - x0 >= y1 - y0 else (1, y0, y1)
        share = (spot[along] - low) / (high - low)
        turned = pour.clock.angle % 360
        if min(abs(turned - 180), abs(turned - 270)) < 1:
            share = 1 - share
        whole = (x1 - x0) * (y1 - y0) * THICK / rate
        times.append(pour.start + min(max(share, 0.0), 1.0) * whole)
    return min(times), max(times)


class Aged:
    """Reference hours of concrete since the first truck, halfway between its own temperature and the air's."""

    def __init__(self, day, start):
        air = [hour.air for hour in day.weather]
        self.start, self.ages = start, [0.0]
        for tick in range(int(110 / TICK)):
            clock = start + (tick + 0.5) * TICK
            hour = clock if clock < 96 else 72 + clock % 24
            below = int(hour)
            here = air[below] + (air[below + 1] - air[below]) * (hour - below)
            mean = (here + day.concrete.temperature) / 2
            self.ages.append(self.ages[-1] + TICK * 2 ** ((mean - 21.0) / (20 / 1.8)))

    def age(self, clock):
        place = (clock - self.start) / TICK
        below = int(place)
        return self.ages[below] + (self.ages[below + 1] - self.ages[below]) * (place - below)


def late_length(cut, pours, day, aged):
    """How much of a cut its saw passes too late, and how much there is of it, mm."""
    line: LineString = cut.window.sawn.line
    count = max(1, math.ceil(line.length / POINT))
    step = line.length / count
    clock, late = cut.start, 0.0
    for number in range(count):
        along = (number + 0.5) * step
        spot = line.interpolate(line.length - along if cut.run.backwards else along)
        first, last = placed_at((spot.x, spot.y), pours, day.concrete.rate)
        clock += step / 2 / day.saws.rate
        while aged.age(clock) - aged.age(last) < OPENS - 1e-6:
            clock += TICK / 4
        if aged.age(clock) - aged.age(first) > CLOSES:
            late += step
        clock += step / 2 / day.saws.rate
    return late, line.length


@pytest.mark.parametrize("block", range(4))
def test_late_feet_of_random_days(block):
    """Within 1 % of what is cut, day by day; many days have late feet and many have none."""
    late_days = 0
    for seed in range(block, DAYS, 4):
        slab, layout, day = random_day(seed)
        parted = placed_layout(slab, layout, day, Display.METRIC)
        plan = plan_day(slab, parted, RULES, day, Display.METRIC).placement
        aged = Aged(day, plan.pours.pours[0].start)
        late, whole = 0.0, 0.0
        for cut in plan.cutting.cuts:
            here, length = late_length(cut, plan.pours.pours, day, aged)
            late, whole = late + here, whole + length
        assert plan.cutting.late_length == pytest.approx(late, abs=0.01 * whole), seed
        assert whole == pytest.approx(
            sum(j.length for j in parted.joints if j.kind is JointKind.CONTROL)
        )
        late_days += late > 0
    assert 5 <= late_days <= 45
