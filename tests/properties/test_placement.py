"""What holds for the placements, windows and cuts of every slab."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import (
    Concrete,
    DayInput,
    Ledger,
    MixSetting,
    PourChoice,
    SawChoice,
    SawMethod,
    SettingRule,
    Side,
    WeatherHour,
)
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.placement.pours import plan_pours
from kerfline.placement.setting import AgeCurve, Setting
from kerfline.placement.window import WindowHours
from kerfline.quantities.concrete import concrete_body
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_M3, Display, celsius
from shapes import layout_of
from strategies import CELL, orthogonal_plans

FEW = settings(max_examples=25)
RULES = SlabRules(rule_set=load("floor"))
RATE = 15 * MM3_PER_M3


@st.composite
def jointed(draw):
    """An orthogonal slab with a joint on every second line of its grid, and on every corner's line."""
    plan = draw(orthogonal_plans())
    slab = Slab(outline=Ring.of(plan), thickness=100.0)
    x0, y0, x1, y1 = plan.bounds
    corners = [c.at for c in slab.reentrant_corners]
    xs = sorted({*_steps(x0, x1), *(round(x, 3) for x, _ in corners)} - {x0, x1})
    ys = sorted({*_steps(y0, y1), *(round(y, 3) for _, y in corners)} - {y0, y1})
    lines = [((x, y0), (x, y1)) for x in xs] + [((x0, y), (x1, y)) for y in ys]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, path) for path in lines])


def _steps(low, high):
    count = max(1, round((high - low) / (2 * CELL)))
    return [low + i * (high - low) / count for i in range(1, count)]


choices = st.builds(
    PourChoice,
    volume=st.floats(2, 12).map(lambda m3: m3 * MM3_PER_M3),
    screed=st.one_of(st.none(), st.floats(3000, 6000)),
    access=st.lists(st.sampled_from(list(Side)), min_size=1, max_size=2, unique=True).map(tuple),
)


def poured(slab, layout, choice):
    day, body = DayInput(pours=choice), concrete_body(slab)
    parted = placed_layout(slab, layout, day, Display.METRIC)
    return plan_pours(slab, parted, day, RATE, body.volume, Ledger())


@FEW
@given(jointed(), choices)
def test_pours_tile_the_slab(case, choice):
    """Their areas and volumes sum to the slab's and no two overlap."""
    slab, layout = case
    pours = poured(slab, layout, choice).pours
    areas = [p.area for p in pours]
    assert sum(a.area for a in areas) == pytest.approx(slab.concrete.area, rel=1e-6)
    assert shapely.union_all(areas).area == pytest.approx(slab.concrete.area, rel=1e-6)
    assert sum(p.volume for p in pours) == pytest.approx(concrete_body(slab).volume(), rel=1e-6)
    assert sorted(n for p in pours for n in p.panels) == sorted(p.id for p in layout.panels)


@FEW
@given(jointed(), choices)
def test_every_construction_joint_lies_on_a_planned_joint(case, choice):
    """And each separates two placements."""
    slab, layout = case
    plan = poured(slab, layout, choice)
    planned = shapely.union_all([j.line.buffer(TOUCH) for j in layout.joints])
    for joint in plan.joints:
        line = joint.line
        assert line.difference(planned).length <= TOUCH
        middle = line.interpolate(0.5, normalized=True)
        assert sum(p.area.distance(middle) <= TOUCH for p in plan.pours) >= 2
    between = sum(p.area.length for p in plan.pours) - slab.concrete.length
    assert sum(joint.length for joint in plan.joints) == pytest.approx(between / 2, abs=10.0)


@FEW
@given(jointed(), choices)
def test_no_day_is_overrun_unless_one_panel_is_too_large(case, choice):
    """The placements of a day stay within its limit."""
    slab, layout = case
    pours = poured(slab, layout, choice).pours
    for day in {p.day for p in pours}:
        today = [p for p in pours if p.day == day]
        alone = len(today) == 1 and len(today[0].panels) == 1
        assert alone or sum(p.volume for p in today) <= choice.volume * (1 + 1e-6)


@FEW
@given(jointed(), choices)
def test_no_placement_wraps_a_corner_that_has_joints(case, choice):
    """Every re-entrant corner here has both its joints, so a slab of several days wraps none."""
    slab, layout = case
    plan = poured(slab, layout, choice)
    whole = concrete_body(slab).volume() <= choice.volume
    assert whole or all(not p.corners for p in plan.pours)


@FEW
@given(jointed(), choices)
def test_placing_runs_on_by_the_clock(case, choice):
    """In a day one placement ends where the next begins; time is volume over rate; lanes follow on."""
    slab, layout = case
    pours = poured(slab, layout, choice).pours
    for pour in pours:
        assert pour.end - pour.start == pytest.approx(pour.volume / RATE, rel=1e-6)
        for lane, following in zip(pour.clock.lanes, pour.clock.lanes[1:], strict=False):
            assert following.times[0] == pytest.approx(lane.times[-1])
        for lane in pour.clock.lanes:
            assert list(lane.times) == sorted(lane.times)
    for before, after in pairwise(pours):
        assert before.day <= after.day
        if before.day == after.day:
            assert after.start == pytest.approx(before.end)


@FEW
@given(
    st.floats(0, 45),
    st.floats(0.1, 10),
    st.sampled_from(list(SettingRule)),
    st.sampled_from(list(SawMethod)),
)
def test_windows_open_before_they_close_and_warmth_brings_them_forward(
    coolest, warmer, rule, method
):
    """At one point, at any temperature, by any rule and for either saw."""
    setting = Setting(initial_set=6, finishing=3, reference=celsius(70), rule=rule)
    cool = AgeCurve.of(lambda clock: np.full_like(clock, coolest), setting, 7, 9)
    warm = AgeCurve.of(lambda clock: np.full_like(clock, coolest + warmer), setting, 7, 9)
    early = method is SawMethod.EARLY_ENTRY
    hours = WindowHours(opens=5.0 if early else 6.0, closes=7.0 if early else 12.0)
    cool_opens, cool_closes = (cool.until(age, 8.0) for age in (hours.opens, hours.closes))
    warm_opens, warm_closes = (warm.until(age, 8.0) for age in (hours.opens, hours.closes))
    assert cool_opens <= cool_closes
    assert 8.0 < warm_opens <= warm_closes
    assert warm_opens <= cool_opens + 1e-9 or math.isinf(cool_opens)
    assert warm_closes <= cool_closes + 1e-9 or math.isinf(cool_closes)
    later_opens = warm.until(hours.opens, 8.5)
    assert later_opens >= warm_opens - 1e-9


weather = st.builds(
    lambda air, damp, wind: tuple(
        WeatherHour(
            clock=float(h),
            air=air + 6 * math.sin((h - 9) / 24 * 2 * math.pi),
            humidity=damp,
            wind=wind,
            wind_height=10_000.0,
        )
        for h in range(49)
    ),
    st.floats(5, 35),
    st.floats(0.1, 1.0),
    st.floats(0, 40),
)


@settings(max_examples=12)
@given(jointed(), choices, weather, st.integers(1, 3))
def test_cuts_follow_their_windows(case, choice, hours, saws):
    """No cut starts before its line is ready, saws do one thing at a time, ranges hold the likely time."""
    slab, layout = case
    day = DayInput(
        starts=(7.0,),
        weather=hours,
        concrete=Concrete(temperature=22.0),
        pours=choice,
        saws=SawChoice(count=saws),
    )
    parted = placed_layout(slab, layout, day, Display.METRIC)
    placement = plan_day(slab, parted, RULES, day, Display.METRIC).placement
    cutting = placement.cutting
    assert [c.order for c in cutting.cuts] == list(range(1, len(cutting.cuts) + 1))
    for cut in cutting.cuts:
        window = cut.window
        assert cut.start >= window.ready - 1e-9
        assert window.opens.early <= window.opens.likely <= window.opens.late
        assert window.closes.early <= window.closes.likely <= window.closes.late
        assert window.placed[0] <= window.placed[1] < window.opens.likely
    for saw in range(1, saws + 1):
        own = [c for c in cutting.cuts if c.saw == saw]
        assert all(a.end <= b.start + 1e-9 for a, b in pairwise(own))
    if cutting.need.likely is not None and saws >= cutting.need.likely:
        assert not cutting.late
    sawn = sum(c.window.sawn.line.length for c in cutting.cuts)
    formed = sum(joint.length for joint in placement.pours.joints)
    assert sawn + formed == pytest.approx(layout.joint_length, abs=50.0)


@settings(max_examples=8)
@given(jointed(), choices)
def test_feet_and_metres_tell_one_day(case, choice):
    """The same input shown in feet or in metres: same placements, same clock, same windows, same cuts.

    The saw's pace is given, for a habit is a round figure in either unit: 6 ft a minute, or 1.8 m.
    """
    slab, layout = case
    day = DayInput(
        starts=(6.5,),
        concrete=Concrete(
            temperature=20.0, allowance=0.05, truck=7e9, rate=RATE, cycle=1.0, discharge_limit=1.5
        ),
        setting=MixSetting(initial_set=5, finishing=3, reference=20.0),
        pours=replace(choice, pump_above=2e10, ride_on_above=4e8, forms_up_to=5000.0),
        saws=SawChoice(rate=110_000.0, blade_life=600_000.0),
    )
    feet, metres = (
        plan_day(slab, placed_layout(slab, layout, day, display), RULES, day, display).placement
        for display in (Display.FEET_INCHES, Display.METRIC)
    )
    assert [p.panels for p in feet.pours.pours] == [p.panels for p in metres.pours.pours]
    assert [p.end for p in feet.pours.pours] == [p.end for p in metres.pours.pours]
    assert [w.opens for w in feet.windows] == [w.opens for w in metres.windows]
    assert [c.start for c in feet.cutting.cuts] == [c.start for c in metres.cutting.cuts]
