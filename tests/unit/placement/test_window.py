"""Windows of lines, and who cuts what when."""

from dataclasses import replace
from itertools import pairwise

import pytest
import shapely
from shapely import LineString

from kerfline.model.day import SawChoice, SawMethod, SettingRule
from kerfline.model.joint_lines import SawnLine
from kerfline.placement.climate import Ageing, Climate
from kerfline.placement.clock import placing_clock
from kerfline.placement.cutting import SawPace, plan_cutting, sawing_time, schedule
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import Setting
from kerfline.placement.window import HABITS, line_window

SETTING = Setting(initial_set=6, finishing=3, reference=21.0, rule=SettingRule.HALVING)
AREA = shapely.box(0, 0, 30000, 10000)
PACE = SawPace(rate=120_000.0, move=0.1, blade_life=1e9, blade_change=0.25)


def pour(rate=20e9, start=7.0, name="1"):
    """A placement of 30 x 10 m at 100 mm."""
    clock = placing_clock(AREA, 0.0, start, rate, float("inf"), lambda r: float(r.area) * 100)
    end = clock.lanes[-1].times[-1]
    return Pour(
        id=name, panels=("P1",), area=AREA, volume=3e10, corners=(), day=1, start=start,
        end=end, clock=clock,
    )  # fmt: skip


def sawn(name, *points):
    return SawnLine(joint=name, line=LineString(points), depth=25.0, hidden=False)


def window(line, placed, temperature=21.0, method=SawMethod.CONVENTIONAL):
    climate = Climate(hours=(), concrete=temperature, known=True)
    ageing = Ageing.of(climate, SETTING, placed.start, placed.end)
    return line_window(line, (placed,), ageing, SETTING, HABITS[method])


def across(x, name="J1"):
    return sawn(name, (x, 0), (x, 10000))


def test_a_line_across_opens_9_hours_after_its_concrete_at_the_reference():
    """Finishing 3 h, then 6 h; it closes 12 h after finishing; placed at once."""
    found = window(across(15000), pour())
    assert found.placed == pytest.approx((7.75, 7.75))
    assert found.opens.likely == pytest.approx(7.75 + 9, abs=0.06)
    assert found.closes.likely == pytest.approx(7.75 + 15, abs=0.06)
    assert found.opens.early < found.opens.likely < found.opens.late


def test_a_line_along_opens_by_its_last_and_closes_by_its_first():
    """Placed from 7:00 to 8:30: the window is an hour and a half shorter than a point's."""
    found = window(sawn("J1", (0, 5000), (30000, 5000)), pour())
    assert found.placed == pytest.approx((7.0, 8.5))
    assert found.closes.likely - found.opens.likely == pytest.approx(6 - 1.5, abs=0.1)


def test_a_slow_placement_leaves_a_line_to_be_followed():
    """7.5 h of placing against a window of 6 h: the saw follows, each point in its own window."""
    found = window(sawn("J1", (0, 5000), (30000, 5000)), pour(rate=4e9))
    assert not found.workable
    assert found.follow is not None
    assert found.ready == pytest.approx(7.0 + 9, abs=0.06)
    assert found.deadline == pytest.approx(14.5 + 15, abs=0.06)


def test_openings_keep_to_what_is_published():
    """Conventional 4 to 12 h, early-entry 1 to 4 h after finishing, at any temperature."""
    for method, least, most in (
        (SawMethod.CONVENTIONAL, 4, 12),
        (SawMethod.EARLY_ENTRY, 1, 4),
    ):
        hot, cold = (window(across(0), pour(), t, method) for t in (45.0, 5.0))
        hot_finish = 3 / 2 ** ((45 - 21) / (20 / 1.8))
        assert hot.opens.likely - 7.0 - hot_finish == pytest.approx(least, abs=0.1)
        cold_finish = 3 / 2 ** ((5 - 21) / (20 / 1.8))
        assert cold.opens.likely - 7.0 - cold_finish <= most + 0.1


def test_a_line_elsewhere_has_no_window():
    """Nor has one that only ends at the placement."""
    assert window(sawn("J1", (0, 20000), (9, 20000)), pour()) is None
    assert window(sawn("J1", (5000, 10000), (5000, 15000)), pour()) is None


def windows(count, placed):
    step = 30000 / (count + 1)
    return [window(across(step * (i + 1), f"J{i + 1}"), placed) for i in range(count)]


def test_one_saw_is_enough_for_a_short_day():
    """Nine lines of 10 m in placing order, 11 min each."""
    plan = plan_cutting(windows(9, pour()), SawChoice(), PACE, AREA)
    assert plan.one_enough
    assert plan.saws == 1
    assert [c.window.sawn.joint for c in plan.cuts] == [f"J{i}" for i in range(1, 10)]
    assert not plan.late


def test_a_slow_saw_needs_company():
    """Each line takes an hour and six minutes; six hours of window, so two saws for nine lines."""
    slow = replace(PACE, rate=10_000.0)
    plan = plan_cutting(windows(9, pour()), SawChoice(), slow, AREA)
    assert not plan.one_enough
    assert plan.saws == 2
    assert not plan.late
    alone = plan_cutting(windows(9, pour()), SawChoice(count=1), slow, AREA)
    assert alone.saws == 2
    assert alone.late
    assert alone.planned == 1


def test_no_number_of_saws_helps_a_line_longer_than_its_window():
    """Ten hours for one line."""
    crawl = replace(PACE, rate=1_000.0)
    plan = plan_cutting(windows(2, pour()), SawChoice(), crawl, AREA)
    assert plan.saws is None
    assert plan.late


def test_blades_are_changed_when_they_are_used_up():
    """35 m a blade, 10 m a line: every fourth line begins with a new one, which takes its time."""
    pace = replace(PACE, blade_life=35_000.0)
    cuts = schedule(windows(8, pour(rate=1e12)), 1, pace)
    assert [c.new_blade for c in cuts] == [False] * 3 + [True] + [False] * 2 + [True, False]
    waits = [after.start - before.end for before, after in pairwise(cuts)]
    assert waits[2] == pytest.approx(0.25)


def test_late_sawing_puts_relief_cuts_first_and_says_so():
    """From 22:00 on a 30 m slab: the joint nearest the middle first, marked, then placing order."""
    plan = plan_cutting(windows(5, pour()), SawChoice(late_from=22.0), PACE, AREA)
    assert plan.emergency
    assert plan.cuts[0].window.sawn.joint == "J3"
    assert [c.relief for c in plan.cuts] == [True, False, False, False, False]
    assert all(c.start >= 22.0 for c in plan.cuts)
    usual = plan_cutting(windows(5, pour()), SawChoice(late_from=10.0), PACE, AREA)
    assert not usual.emergency
    assert not any(c.relief for c in usual.cuts)


def test_sawing_time():
    """By hand: 120 m at 2 m/min is an hour, ten lines at 6 min another."""
    assert sawing_time(120_000, 10, PACE) == pytest.approx(2.0)
