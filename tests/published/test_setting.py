"""Setting and maturity against a trade magazine's rule, a trade table and ASTM C1074.

Sources: National Frame Building Association magazine, October 2020, p. 17 (the rule of 20 °F); a page that
quotes a trade table of setting times; ASTM C1074 (forms), a page with a worked example of Nurse-Saul.
"""

import numpy as np
import pytest

from kerfline.model.day import SettingRule
from kerfline.placement.setting import AgeCurve, Setting, age_speeds
from kerfline.units import celsius


def hours_to_set(rule, fahrenheit, **others):
    """Hours until a mix that takes 6 h at 70 °F has set."""
    setting = Setting(initial_set=6.0, finishing=3.0, reference=celsius(70), rule=rule, **others)
    curve = AgeCurve.of(lambda clock: np.full_like(clock, celsius(fahrenheit)), setting, 7.0, 8.0)
    return curve.until(setting.initial_set, 7.0) - 7.0


@pytest.mark.parametrize(("fahrenheit", "hours"), [(50, 12.0), (70, 6.0), (90, 3.0)])
def test_twenty_degrees_halve_or_double(fahrenheit, hours):
    """NFBA magazine, October 2020, p. 17: 6 h at 70 °F is 12 h at 50 °F and 3 h at 90 °F."""
    assert hours_to_set(SettingRule.HALVING, fahrenheit) == pytest.approx(hours, abs=0.01)


@pytest.mark.parametrize(("fahrenheit", "hours"), [(90, 8 / 3), (80, 4), (70, 6), (60, 8)])
def test_the_rules_come_near_the_trade_table(fahrenheit, hours):
    """Trade table: 90 °F 2-2/3 h, 80 °F 4 h, 70 °F 6 h, 60 °F 8 h; halving and Arrhenius within a quarter."""
    assert hours_to_set(SettingRule.HALVING, fahrenheit) == pytest.approx(hours, rel=0.25)
    assert hours_to_set(SettingRule.EQUIVALENT_AGE, fahrenheit) == pytest.approx(hours, rel=0.25)


def test_rules_compared_at_50_and_90():
    """By hand from 6 h at 70 °F: Arrhenius 11.7 and 3.23 h, Nurse-Saul from 0 °C 12.7 and 3.93 h."""
    assert hours_to_set(SettingRule.EQUIVALENT_AGE, 50) == pytest.approx(11.7, abs=0.05)
    assert hours_to_set(SettingRule.EQUIVALENT_AGE, 90) == pytest.approx(3.23, abs=0.01)
    assert hours_to_set(SettingRule.NURSE_SAUL, 50) == pytest.approx(12.7, abs=0.05)
    assert hours_to_set(SettingRule.NURSE_SAUL, 90) == pytest.approx(3.93, abs=0.01)


def test_nurse_saul_example():
    """Published example: 28 days at 15 °C with a datum of -11 °C is 728 degree-days: as 28 at 26 K above it."""
    setting = Setting(
        initial_set=4, finishing=3, reference=0.0, rule=SettingRule.NURSE_SAUL, datum=-11.0
    )
    speed = float(setting.speeds(np.array([15.0]))[0])
    assert 28 * speed * (0.0 + 11.0) == pytest.approx(728)


def test_nurse_saul_stops_at_the_datum():
    """ASTM C1074: nothing at or below it; by hand, 20 and 25 °C from 0 °C are as 1 to 1.25."""
    setting = Setting(
        initial_set=4, finishing=3, reference=20.0, rule=SettingRule.NURSE_SAUL, datum=0.0
    )
    assert setting.speeds(np.array([-5.0, 0.0, 20.0, 25.0])) == pytest.approx([0, 0, 1, 1.25])


@pytest.mark.parametrize(
    ("reference", "factors"),
    [
        (23, {10: 0.461, 20: 0.841, 30: 1.477, 35: 1.930}),
        (20, {10: 0.548, 20: 1.000, 30: 1.755, 35: 2.294}),
    ],
)
def test_equivalent_age_factors(reference, factors):
    """By hand from ASTM C1074's form with Q = 5000 K (from memory)."""
    for temperature, factor in factors.items():
        assert age_speeds(np.array(temperature), reference, 5000) == pytest.approx(
            factor, abs=0.001
        )
