"""The whole plan: climate, cautions, hints, ends, and what is asked where nothing is given."""

import re
from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.day import (
    Concrete,
    CuringChoice,
    DayInput,
    PourChoice,
    SawChoice,
    SawMethod,
    WeatherHour,
)
from kerfline.model.layout import Reason
from kerfline.model.slab import Edge, EdgeKind, JointKind, KeepOut, Slab
from kerfline.placement.cut_ends import EndAt
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display, celsius
from shapes import feet, layout_of, workshop_layout, workshop_slab

RULES = SlabRules(rule_set=load("floor"))
DRY = WeatherHour(clock=0, air=32.0, humidity=0.2, wind=20.0, wind_height=500.0)


def hours(*readings, **changes):
    """Hourly weather, air temperatures given."""
    return tuple(
        replace(DRY, clock=float(i), air=float(air), **changes) for i, air in enumerate(readings)
    )


def plan(day=None, slab=None, layout=None):
    found = plan_day(
        slab or workshop_slab(), layout or workshop_layout(), RULES, day or DayInput(),
        Display.FEET_INCHES,
    )  # fmt: skip
    return found.placement


def said(placement):
    return " ".join((*placement.cautions, *placement.standing))


@pytest.mark.parametrize(
    ("concrete", "air", "words"),
    [(celsius(97), 25, "over 95"), (celsius(50), 15, "under 55"), (18, 2, "under 40")],
)
def test_hot_and_cold_limits(concrete, air, words):
    """Hot concrete, cold concrete, cold air."""
    day = DayInput(
        starts=(7.0,), weather=hours(*[air] * 40), concrete=Concrete(temperature=float(concrete))
    )
    assert words in said(plan(day))
    mild = DayInput(starts=(7.0,), weather=hours(*[20] * 40), concrete=Concrete(temperature=20.0))
    assert "over 95" not in said(plan(mild))
    assert "under 55" not in said(plan(mild))
    assert "under 40" not in said(plan(mild))


def test_a_slip_of_units_in_the_concrete_is_refused():
    """24 °F taken for 24 °C."""
    day = DayInput(weather=hours(20, 20), concrete=Concrete(temperature=celsius(24)))
    with pytest.raises(InputRefused, match="Celsius taken for Fahrenheit"):
        plan(day)


def test_a_slow_pass_is_a_cold_joint():
    """One yard an hour under a 10 ft screed: the side of a pass sets before the next comes."""
    slow = Concrete(temperature=25.0, rate=1.0 * MM3_PER_YD3)
    day = DayInput(concrete=slow, pours=PourChoice(screed=10 * MM_PER_FOOT))
    placement = plan(day)
    assert any(front.cold for front in placement.fronts)
    assert "front lies open" in said(placement)
    assert "front lies open" not in said(plan())


def test_hints_are_habits_with_thresholds_of_the_users():
    """The same day under the habit and under his own figures."""
    quiet = PourChoice(pump_above=1e12, ride_on_above=1e12, forms_up_to=1e6)
    eager = PourChoice(pump_above=1e9, ride_on_above=1e6, forms_up_to=100.0)
    assert plan(DayInput(pours=quiet)).hints == ()
    found = plan(DayInput(pours=eager)).hints
    assert len(found) == 3
    assert all("a habit, not a rule" in hint for hint in found)


def test_dust_is_told_by_the_saw():
    """Water for a walk-behind saw; a dry early-entry saw is on no table."""
    dry = plan(DayInput(saws=SawChoice(method=SawMethod.EARLY_ENTRY)))
    assert "must assess the exposure" in said(dry)
    assert "feed water" in said(plan())
    for placement in (dry, plan()):
        assert "trial cut" in said(placement)
        assert "hearing protection" in said(placement)
        assert "post-tensioned" in said(placement)


@pytest.mark.parametrize(("country", "own"), [("US", True), ("CA", False), ("", True)])
def test_safety_lines_are_those_of_the_country(country, own):
    """No federal clause of the United States on a Canadian job; a job in feet that names none is of there."""
    words = said(plan(DayInput(country=country)))
    assert ("29 CFR" in words) is own
    assert "water to the blade" in words
    assert "carbon monoxide" in words


def test_work_in_the_dark_is_told():
    """Placing before sunrise, finishing and sawing after sunset; a summer's day has none of it."""
    winter = {"sunrise": 7.5, "sunset": 16.5}
    words = said(plan(DayInput(starts=(6.0,), **winter)))
    assert "Placements 1 and 2 are placed in the dark (sunrise 07:30, sunset 16:30)" in words
    noon = said(plan(DayInput(starts=(12.0,), **winter)))
    assert "placed" not in noon
    assert "Placements 1 and 2 are partly finished in the dark" in noon
    assert "Every cut falls in the dark, from " in noon
    night = said(plan(DayInput(starts=(20.0,), **winter)))
    assert "Placements 1 and 2 are placed and finished in the dark" in night
    assert "dark" not in said(plan(DayInput(starts=(7.0,), sunrise=4.0, sunset=22.0)))


def test_where_it_is_not_known_when_it_is_dark_that_is_asked():
    found = plan_day(workshop_slab(), workshop_layout(), RULES, DayInput(), Display.FEET_INCHES)
    assert any("When is it light?" in question for question in found.questions)


def hall():
    """120 x 40 ft in bays of 15 x 10 ft."""
    slab = Slab(outline=Ring(feet((0, 0), (120, 0), (120, 40), (0, 40))), thickness=101.6)
    lines = [feet((x, 0), (x, 40)) for x in range(15, 120, 15)]
    lines += [feet((0, y), (120, y)) for y in (10, 20, 30)]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])


def test_an_emergency_is_marked_and_names_its_relief_cuts():
    """Sawing from 21:00 on: the joint at mid-length first."""
    slab, layout = hall()
    words = said(plan(DayInput(starts=(6.0,), saws=SawChoice(late_from=21.0)), slab, layout))
    assert "EMERGENCY ORDER: sawing starts late, so relief cuts (J4) come first" in words
    assert "EMERGENCY" not in said(plan(DayInput(starts=(6.0,)), slab, layout))


def test_with_too_few_saws_the_lost_lines_and_what_is_done_then_are_named():
    """One crawling saw: feet, hours, a second saw, early-entry saws, relief cuts; no tooling of hard concrete."""
    slab, layout = hall()
    slow = SawChoice(count=1, rate=15_000.0)
    words = said(plan(DayInput(starts=(6.0,), saws=slow), slab, layout))
    assert "Cut too late with 1 saw: J" in words
    assert re.search(r"Bring \d+ more saws?;", words)
    assert "arly-entry saws are ready sooner" in words
    assert "cut J4 first as relief" in words
    assert "tool the late" not in words


def test_frost_after_placing_asks_for_protection():
    """-6 °C in the night after: blankets before the first truck; frost three days later is not spoken of."""
    night = hours(*[6] * 20, *[-6] * 10, *[6] * 40)
    words = said(plan(DayInput(starts=(8.0,), weather=night, concrete=Concrete(temperature=18.0))))
    assert "Frost on placement 1: below freezing from 20:00, down to 21 °F at 20:00" in words
    assert "blankets" in words
    late = hours(*[8] * 90, *[-6] * 6)
    assert "Frost" not in said(plan(DayInput(starts=(8.0,), weather=late)))


def test_no_saw_works_in_frost_without_a_word():
    night = hours(*[8] * 18, *[-6] * 40)
    words = said(plan(DayInput(starts=(8.0,), weather=night, concrete=Concrete(temperature=18.0))))
    assert "in frost, the coldest" in words
    assert "in frost" not in said(plan(DayInput(starts=(8.0,), weather=hours(*[15] * 60))))


def test_blankets_keep_the_concrete_at_work():
    """Kept at 13 °C the lines open sooner than in the frost."""
    frost = DayInput(starts=(8.0,), weather=hours(*[-5] * 90), concrete=Concrete(temperature=15.0))
    kept = replace(frost, curing=CuringChoice(kept_at=13.0))
    cold, warm = (plan(day).windows[0].opens for day in (frost, kept))
    assert warm.likely < cold.likely
    assert warm.late < cold.late


def test_heat_stress_is_spoken_of_from_90_fahrenheit():
    hot = said(plan(DayInput(starts=(8.0,), weather=hours(*[35] * 40))))
    assert "Heat stress: air up to 95 °F" in hot
    assert "Heat stress" not in said(plan(DayInput(starts=(8.0,), weather=hours(*[28] * 40))))


def test_gaps_and_the_end_of_the_weather_table_are_told():
    """Readings at 0, 3 and 8 o'clock and none after 20: the gap of five hours, and the end."""
    day = hours(*[20] * 21)
    gap = tuple(h for h in day if h.clock in (0, 3, 8) or h.clock > 8)
    words = said(plan(DayInput(starts=(7.0,), weather=gap)))
    assert "No reading between 03:00 and 08:00" in words
    assert "between 00:00 and 03:00" not in words
    late = said(plan(DayInput(starts=(12.0,), weather=day)))
    assert "The weather table ends at 20:00" in late
    assert "unknown" in late
    begun = said(plan(DayInput(starts=(5.0,), weather=day[8:])))
    assert "begins at 08:00, after the first truck" in begun


def test_a_forecast_wind_is_brought_down_with_a_word():
    """10 m over open ground: ln(500/30) / ln(10000/30) = 0.484."""
    day = DayInput(weather=hours(20, 20, wind_height=10_000.0))
    found = plan_day(workshop_slab(), workshop_layout(), RULES, day, Display.FEET_INCHES)
    assert any("times 0.48" in a.value for a in found.assumptions)
    near = replace(day, weather=hours(20, 20))
    plain = plan_day(workshop_slab(), workshop_layout(), RULES, near, Display.FEET_INCHES)
    assert not any("brought down" in a.text for a in plain.assumptions)


def walled():
    """A room of 20 x 10 ft against a wall at its left, one line into the wall."""
    slab = Slab(
        outline=Ring(feet((0, 0), (20, 0), (20, 10), (0, 10))),
        thickness=101.6,
        edges=(Edge(ring=0, segment=3, kind=EdgeKind.ISOLATED),),
        keep_outs=(
            KeepOut(
                id="K1",
                outline=Ring(feet((1, 1), (3, 1), (3, 3), (1, 3))),
                what="tubing",
                cover=31.75,
            ),
        ),
    )
    lines = [feet((0, 5), (20, 5)), feet((10, 0), (10, 10))]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])


def test_what_stays_uncut_at_a_wall():
    """14 in blade at 1 in: 3.39 in at the surface and 7 in at depth, the guard of 1 in on top."""
    slab, layout = walled()
    placement = plan(DayInput(saws=SawChoice(guard=25.4)), slab, layout)
    by_kind = {kind: [e for e in placement.ends if e.meets is kind] for kind in EndAt}
    assert len(by_kind[EndAt.WALL]) == 1
    assert len(by_kind[EndAt.FREE_EDGE]) == 3
    assert by_kind[EndAt.WALL][0].cut.surface / 25.4 == pytest.approx(1 + 7 - 13**0.5, abs=0.001)
    assert by_kind[EndAt.WALL][0].cut.full_depth / 25.4 == pytest.approx(8)
    assert '4 3/8"' in said(placement)


def test_shallow_tubing_is_told():
    """1-1/4 in of cover over tubing and a cut of 1 in: nothing to spare."""
    slab, layout = walled()
    assert "hold the depth strictly" in said(plan(DayInput(), slab, layout))


def test_a_boxout_and_an_opening_are_ends_of_their_own():
    """The workshop's lines end on boxouts of columns."""
    meets = [end.meets for end in plan().ends]
    assert EndAt.BOXOUT in meets
    assert EndAt.WALL not in meets


def test_the_same_day_twice_is_the_same_plan():
    """Nothing depends on chance or on the order of sets."""
    day = DayInput(
        starts=(7.0,), weather=hours(*range(10, 40)), pours=PourChoice(volume=12 * MM3_PER_YD3)
    )
    first, second = plan(day), plan(day)
    assert first.cautions == second.cautions
    assert [c.window.sawn.joint for c in first.cutting.cuts] == [
        c.window.sawn.joint for c in second.cutting.cuts
    ]
    assert [p.panels for p in first.pours.pours] == [p.panels for p in second.pours.pours]


def test_a_wrapped_corner_is_told():
    """An L of one placement, its joint running from the corner."""
    slab = Slab(
        outline=Ring(feet((0, 0), (20, 0), (20, 10), (10, 10), (10, 20), (0, 20))), thickness=101.6
    )
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.CORNER, feet((10, 0), (10, 10)))])
    assert "wraps a re-entrant corner" in said(plan(DayInput(), slab, layout))


def test_tubing_that_a_cut_strikes():
    """Half an inch of cover under a cut of 1 in."""
    slab, layout = walled()
    shallow = replace(slab.keep_outs[0], cover=12.7)
    found = plan(DayInput(), replace(slab, keep_outs=(shallow,)), layout)
    assert "lower it or move the joint" in said(found)
    deep = replace(shallow, cover=75.0)
    assert "K1" not in said(plan(DayInput(), replace(slab, keep_outs=(deep,)), layout))


def test_a_line_may_end_at_an_opening():
    """A pit in the middle of a room."""
    slab = Slab(
        outline=Ring(feet((0, 0), (20, 0), (20, 10), (0, 10))),
        thickness=101.6,
        openings=(Ring(feet((9, 4), (11, 4), (11, 6), (9, 6))),),
    )
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.OPENING, feet((0, 5), (20, 5)))])
    meets = [end.meets for end in plan(DayInput(), slab, layout).ends]
    assert meets.count(EndAt.OPENING) == 2


def test_lines_under_walls_are_cut_before_walls_stand():
    """A joint that a wall hides."""
    slab, layout = walled()
    hidden = tuple(replace(j, hidden=500.0) if j.id == "J2" else j for j in layout.joints)
    assert plan(DayInput(), slab, replace(layout, joints=hidden)).under_walls == ("J2",)
