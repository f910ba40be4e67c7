"""How temperature moves setting: speeds, habits, admixtures and the sum over a changing temperature."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.model.day import Finish, Ledger, MixSetting, SettingRule
from kerfline.placement.setting import (
    LONGEST,
    AgeCurve,
    Setting,
    age_speeds,
    halving_speeds,
    setting_of,
)
from kerfline.units import celsius

HALVING = Setting(initial_set=4, finishing=5, reference=20.0, rule=SettingRule.HALVING)


def speed(rule, degrees, **more):
    setting = Setting(initial_set=4, finishing=5, reference=20.0, rule=rule, **more)
    return float(setting.speeds(np.array([degrees]))[0])


@pytest.mark.parametrize("rule", SettingRule)
def test_at_the_reference_an_hour_is_an_hour(rule):
    assert speed(rule, 20.0) == pytest.approx(1.0)


def test_twenty_fahrenheit_more_double_the_speed():
    """National Frame Building Association magazine, October 2020, p. 17."""
    degrees = np.array([celsius(50), celsius(70), celsius(90)])
    assert halving_speeds(degrees, celsius(70)) == pytest.approx([0.5, 1.0, 2.0])


def test_arrhenius_by_hand():
    """ASTM C1074's form at 5000 K: exp(5000 x (1 / 293.15 - 1 / 303.15)) is exp(0.5626) = 1.755."""
    assert age_speeds(np.array([30.0]), 20.0, 5000.0)[0] == pytest.approx(1.755, abs=1e-3)
    assert speed(SettingRule.EQUIVALENT_AGE, 30.0, activation=0.0) == 1.0


@pytest.mark.parametrize(("degrees", "found"), [(10, 0.5), (0, 0.0), (-10, 0.0), (40, 2.0)])
def test_nurse_saul_is_linear_above_its_datum_and_nothing_below(degrees, found):
    assert speed(SettingRule.NURSE_SAUL, degrees, datum=0.0) == pytest.approx(found)


def test_a_datum_of_its_own_moves_the_line():
    assert speed(SettingRule.NURSE_SAUL, 5.0, datum=-10.0) == pytest.approx(0.5)


def curve(temperature, start=7.0, end=9.0, factor=1.0):
    return AgeCurve.of(temperature, HALVING, start, end, factor)


def steady(degrees):
    return curve(lambda clock: np.full_like(clock, degrees))


@given(st.floats(7, 9), st.floats(0.1, 10))
def test_at_the_reference_so_many_hours_pass_in_so_many(start, age):
    assert steady(20.0).until(age, start) == pytest.approx(start + age)
    assert steady(20.0).age_between(start, start + age) == pytest.approx(age)


def test_a_change_of_temperature_is_summed_up():
    """Two hours at the reference, then twice as fast: 4 hours of age are through after 3."""
    warmer = curve(lambda clock: np.where(clock < 9.0, 20.0, 20.0 + 20 / 1.8))
    assert warmer.until(4.0, 7.0) == pytest.approx(10.0, abs=0.03)
    assert warmer.age_between(8.0, 10.0) == pytest.approx(3.0, abs=0.06)


@given(st.floats(7, 9), st.floats(0, 4), st.floats(0, 4))
def test_ages_add_up_along_the_clock(start, one, two):
    changing = curve(lambda clock: 15.0 + clock / 2)
    middle = changing.until(one, start)
    assert changing.until(two, middle) == pytest.approx(changing.until(one + two, start), abs=1e-9)


def test_where_it_is_too_cold_it_is_never_through():
    """Half the speed for every 11.1 K less: at -60 degrees ten days are less than two hours."""
    assert math.isinf(steady(-60.0).until(4.0, 7.0))
    assert steady(20.0).until(LONGEST - 1, 7.0) < math.inf


def test_many_starts_at_once_are_as_one_by_one():
    made = curve(lambda clock: 15.0 + clock / 3)
    starts = np.array([7.0, 7.5, 9.0])
    assert made.until_all(3.0, starts) == pytest.approx([made.until(3.0, s) for s in starts])


def test_a_factor_makes_it_faster():
    fast = curve(lambda clock: np.full_like(clock, 20.0), factor=1.2)
    assert fast.until(6.0, 7.0) == pytest.approx(12.0)


def given_all(**changes):
    fields = {
        "initial_set": 5.0,
        "floating": 3.0,
        "finishing": 6.0,
        "reference": 20.0,
        "rule": SettingRule.HALVING,
        "finish": Finish.TROWEL,
    }
    return MixSetting(**{**fields, **changes})


def test_what_is_given_is_taken_without_a_word():
    ledger = Ledger()
    setting = setting_of(given_all(), ledger)
    assert (setting.initial_set, setting.floating, setting.finishing) == (5.0, 3.0, 6.0)
    assert (setting.reference, setting.rule, setting.finish) == (
        20.0,
        SettingRule.HALVING,
        Finish.TROWEL,
    )
    assert (ledger.assumptions, ledger.questions) == ([], [])


def test_what_is_not_is_noted_and_the_finish_is_asked():
    ledger = Ledger()
    setting = setting_of(MixSetting(), ledger)
    assert (setting.initial_set, setting.floating, setting.finishing) == (4.0, 2.75, 5.0)
    assert setting.reference == pytest.approx(celsius(70))
    assert len(ledger.assumptions) == 6
    assert ledger.questions == [
        "How is the surface finished? Give day.setting.finish: float, broom or trowel."
    ]


@pytest.mark.parametrize(
    ("finish", "hours"), [(Finish.FLOAT, 3.0), (Finish.BROOM, 3.0), (Finish.TROWEL, 5.0)]
)
def test_a_float_or_a_broom_is_sooner_done_than_a_trowel(finish, hours):
    """Common practice."""
    assert setting_of(given_all(finish=finish, finishing=None), Ledger()).finishing == hours


def test_own_hours_of_finishing_make_the_question_needless():
    ledger = Ledger()
    setting_of(given_all(finish=None), ledger)
    assert ledger.questions == []


@pytest.mark.parametrize(
    ("shift", "word", "hours"),
    [
        (2.0, "later by the retarder", (7.0, 5.0, 8.0)),
        (-1.5, "sooner by the accelerator", (3.5, 1.5, 4.5)),
    ],
)
def test_an_admixture_moves_all_of_it_and_is_noted(shift, word, hours):
    ledger = Ledger()
    setting = setting_of(given_all(shift=shift), ledger)
    assert (setting.initial_set, setting.floating, setting.finishing) == hours
    assert word in ledger.assumptions[0].text
    assert ledger.assumptions[0].value == f"{abs(shift):g} h at the reference temperature"


def test_no_admixture_brings_setting_below_half_an_hour():
    setting = setting_of(given_all(shift=-9.0), Ledger())
    assert (setting.initial_set, setting.floating, setting.finishing) == (0.5, 0.5, 0.5)


def test_nothing_is_floated_after_it_is_finished():
    assert setting_of(given_all(floating=9.0), Ledger()).floating == 6.0


@pytest.mark.parametrize(
    ("rule", "key"),
    [
        (SettingRule.EQUIVALENT_AGE, "day.setting.activation"),
        (SettingRule.NURSE_SAUL, "day.setting.datum"),
    ],
)
def test_a_rule_asks_for_its_own_figure_alone(rule, key):
    ledger = Ledger()
    setting_of(given_all(rule=rule), ledger)
    (noted,) = ledger.assumptions
    assert key in noted.text
    own = setting_of(given_all(rule=rule, activation=4000.0, datum=-5.0), Ledger())
    used = own.activation if rule is SettingRule.EQUIVALENT_AGE else own.datum
    assert used in (4000.0, -5.0)
