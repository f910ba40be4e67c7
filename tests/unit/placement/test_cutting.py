"""Who cuts what when: saws, ends, stretches, lateness foot by foot, and the order in an emergency."""

from dataclasses import replace
from itertools import pairwise

import pytest
import shapely

from kerfline.model.day import SawChoice
from kerfline.placement.cutting import (
    SawNeed,
    SawPace,
    best_run,
    plan_cutting,
    sawing_time,
    schedule,
)
from kerfline.placement.window import LIKELY, WindowHours, line_windows
from poured import ALONG, AREA, HOURS, across, ageing, pour, sawn

PACE = SawPace(rate=120_000.0, move=0.1, blade_life=1e9, blade_change=0.25)
AREAS = {"1": AREA}


def windows(count, placed):
    step = 30000 / (count + 1)
    lines = [across(step * (i + 1), f"J{i + 1}") for i in range(count)]
    return [w for li in lines for w in line_windows(li, (placed,), ageing(placed), HOURS)]


def test_one_saw_is_enough_for_a_short_day():
    """Nine lines of 10 m in placing order, 11 min each."""
    plan = plan_cutting(windows(9, pour()), SawChoice(), PACE, AREAS)
    assert plan.need.likely == 1
    assert [c.window.sawn.joint for c in plan.cuts] == [f"J{i}" for i in range(1, 10)]
    assert not plan.late


def test_a_slow_saw_needs_company():
    """Each line takes an hour and six minutes; six hours of window, so two saws for nine lines."""
    slow = replace(PACE, rate=10_000.0)
    plan = plan_cutting(windows(9, pour()), SawChoice(), slow, AREAS)
    assert plan.need.likely == 2
    assert plan.need.warm >= 2 >= plan.need.cool
    assert not plan.late
    alone = plan_cutting(windows(9, pour()), SawChoice(count=1), slow, AREAS)
    assert alone.need.likely == 2
    assert alone.planned == 1
    assert alone.late_length == pytest.approx(sum(c.run.late for c in alone.cuts))
    assert alone.late_length > 10_000


def test_no_number_of_saws_helps_a_line_longer_than_its_window():
    """Ten hours for one line: what is cut in its six hours of window is in time, the rest is late."""
    crawl = replace(PACE, rate=1_000.0)
    plan = plan_cutting(windows(2, pour()), SawChoice(), crawl, AREAS)
    assert plan.need.likely is None
    assert plan.cuts[0].run.late == pytest.approx(4_000, abs=300)
    assert plan.cuts[0].run.late_by == pytest.approx(4.0, abs=0.1)


def test_a_saw_goes_along_a_line_from_the_end_that_was_placed_first():
    """Placed from left to right over 3 h; a saw of 10 m/h starts left however the line was drawn."""
    placed = pour(rate=10e9)
    wide = WindowHours(opens=6.0, closes=60.0)
    for line, backwards in ((ALONG, False), (sawn("J1", (30000, 5000), (0, 5000)), True)):
        (window,) = line_windows(line, (placed,), ageing(placed), wide)
        run = best_run(window, 13.0, 10_000.0, LIKELY)
        assert run.backwards is backwards
        assert run.start == pytest.approx(13.0, abs=0.06)
        assert run.end == pytest.approx(16.0, abs=0.06)


def test_a_saw_that_goes_behind_the_placing_is_told_to():
    """Along 1.5 h of placing it begins before the last point is open; across, all of a line opens at once."""
    along = line_windows(ALONG, (pour(),), ageing(pour()), HOURS)
    (behind,) = schedule(along, 1, replace(PACE, rate=10_000.0))
    assert behind.follows
    assert behind.start < behind.window.opens.likely
    (square,) = schedule(windows(1, pour()), 1, PACE)
    assert not square.follows


def test_a_saw_waits_for_concrete_that_is_not_ready():
    """It is fast, and the placing took 2.5 h: it comes through when the last point opens, none of it late."""
    placed = pour(rate=12e9)
    (window,) = line_windows(ALONG, (placed,), ageing(placed), HOURS)
    run = best_run(window, 0.0, 1e9, LIKELY)
    assert run.end == pytest.approx(7.0 + 2.5 + 6.0, abs=0.06)
    assert run.late == 0


def test_a_late_saw_is_late_on_the_part_that_has_closed():
    """At 19:45 the points placed before 7:45 are closed: half of a line that was placed from 7:00 to 8:30."""
    (window,) = line_windows(ALONG, (pour(),), ageing(pour()), HOURS)
    run = best_run(window, 19.75, 1e9, LIKELY)
    assert run.late == pytest.approx(15_000, abs=600)
    assert run.late_by == pytest.approx(0.75, abs=0.06)


def test_two_saws_share_the_stretches_of_one_line():
    """7.5 h of placing, three stretches: two saws cut them in turn."""
    placed = pour(rate=4e9)
    stretches = line_windows(ALONG, (placed,), ageing(placed), HOURS)
    cuts = schedule(stretches, 2, replace(PACE, rate=5_000.0))
    assert [c.saw for c in cuts] == [1, 2, 1]
    assert not any(c.late for c in cuts)


def test_blades_are_changed_when_they_are_used_up():
    """35 m a blade, 10 m a line: every fourth line begins with a new one, which takes its time."""
    pace = replace(PACE, blade_life=35_000.0)
    cuts = schedule(windows(8, pour(rate=1e12)), 1, pace)
    assert [c.new_blade for c in cuts] == [False] * 3 + [True] + [False] * 2 + [True, False]
    waits = [after.start - before.end for before, after in pairwise(cuts)]
    assert waits[2] == pytest.approx(0.25 + PACE.move)


def test_late_sawing_puts_relief_cuts_first_and_says_so():
    """From 19:00 on a 30 m slab: the joint nearest the middle first, marked, then placing order."""
    plan = plan_cutting(windows(5, pour()), SawChoice(late_from=19.0), PACE, AREAS)
    assert plan.emergency
    assert plan.cuts[0].window.sawn.joint == "J3"
    assert [c.relief for c in plan.cuts] == [True, False, False, False, False]
    assert all(c.start >= 19.0 for c in plan.cuts)
    usual = plan_cutting(windows(5, pour()), SawChoice(late_from=10.0), PACE, AREAS)
    assert not usual.emergency
    assert not any(c.relief for c in usual.cuts)
    assert usual.relief == ()


def test_an_emergency_never_mixes_placements_nor_lets_a_saw_idle_a_night():
    """Two placements a day apart: all of the first is cut before the second's relief cut."""
    right = shapely.affinity.translate(AREA, 30000)
    first, second = pour(), pour(start=31.0, name="2", area=right)
    ages = ageing(replace(first, end=second.end))
    lines = [across(x, f"J{x}") for x in (5000, 15000, 25000, 35000, 45000, 55000)]
    found = [w for li in lines for w in line_windows(li, (first, second), ages, HOURS)]
    plan = plan_cutting(found, SawChoice(late_from=19.0), PACE, {"1": AREA, "2": right})
    assert plan.emergency
    assert [c.window.pours[-1] for c in plan.cuts] == ["1"] * 3 + ["2"] * 3
    assert [c.window.sawn.joint for c in plan.cuts] == [
        "J15000", "J5000", "J25000", "J35000", "J45000", "J55000",
    ]  # fmt: skip
    assert all(c.end < 24 for c in plan.cuts[:3])


def test_the_need_for_saws_in_words():
    assert SawNeed(warm=2, likely=1, cool=1).shown == "1 to 2"
    assert SawNeed(warm=1, likely=1, cool=1).shown == "1"
    assert SawNeed(warm=None, likely=2, cool=1).shown == "1 or more"
    assert SawNeed(warm=None, likely=None, cool=None).shown == "no number of saws will do"


def test_sawing_time():
    """By hand: 120 m at 2 m/min is an hour, ten lines at 6 min another."""
    assert sawing_time(120_000, 10, PACE) == pytest.approx(2.0)
