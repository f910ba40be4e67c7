"""How long a front lies open."""

import pytest
import shapely

from kerfline.model.day import SettingRule
from kerfline.placement.climate import Ageing, Climate
from kerfline.placement.clock import placing_clock
from kerfline.placement.front import check_front, front_cautions
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import Setting
from kerfline.units import MM_PER_FOOT

SETTING = Setting(initial_set=6, finishing=3, reference=21.0, rule=SettingRule.HALVING)
HOUSE = shapely.box(0, 0, 48 * MM_PER_FOOT, 32 * MM_PER_FOOT)


def checked(hours, screed, interval=0.25):
    """A placement of 48 x 32 ft that takes some hours."""
    rate = HOUSE.area * 100 / hours
    clock = placing_clock(HOUSE, 0.0, 7.0, rate, screed, lambda r: float(r.area) * 100)
    pour = Pour(
        id="1", panels=("P1",), area=HOUSE, volume=HOUSE.area * 100, reach=0.0, corners=(), day=1,
        start=7.0, end=7.0 + hours, clock=clock,
    )  # fmt: skip
    climate = Climate(hours=(), concrete=21.0, known=True)
    return check_front(pour, interval, Ageing.of(climate, SETTING, 7.0, 7.0 + hours), SETTING)


def test_two_passes_wait_one_for_the_other():
    """Six hours in two passes: three hours open."""
    assert checked(6.0, 16 * MM_PER_FOOT).open_for == pytest.approx(3.0)


def test_a_front_across_the_width_waits_for_a_screeds_reach():
    """16 ft of 48 in six hours: two hours."""
    assert checked(6.0, float("inf")).open_for == pytest.approx(2.0)


def test_no_front_is_covered_before_the_next_truck():
    """A fast placement waits for the truck."""
    assert checked(0.1, float("inf"), interval=0.5).open_for == pytest.approx(0.5)


def test_allowed_is_initial_set_at_the_warmest_less_an_hour():
    """6 h over 1.2, the spread of the rules, less 1 h: 4 h."""
    found = checked(6.0, float("inf"))
    assert found.allowed == pytest.approx(4.0, abs=0.05)
    assert not found.cold
    assert front_cautions([found]) == []


def test_a_cold_front_is_told_with_both_times():
    """Ten hours in two passes."""
    found = checked(10.0, 16 * MM_PER_FOOT)
    assert found.cold
    assert "5.0 h" in front_cautions([found])[0]
