"""Placing against publications: stops, access, setting in heat and frost, finishing, dowels at joints, shrinkage.

Sources are named beside each row.
"""

import numpy as np
import pytest

from kerfline.model.day import Finish, Habit, Ledger, MixSetting, SettingRule
from kerfline.placement.front import STOP
from kerfline.placement.pour_hours import FINISHED_IN_AN_HOUR, finishers
from kerfline.placement.pours import CHUTE, CONVEYOR
from kerfline.placement.setting import AgeCurve, Setting, setting_of
from kerfline.quantities.dowels import CORNER_CLEARANCE, height_tolerance, hole_diameter
from kerfline.quantities.movement import shrinkage_by_strength
from kerfline.quantities.order import CYCLE, DISCHARGE, EDGE_ALLOWANCE, PLAIN_ALLOWANCE
from kerfline.quantities.take_off import CURING_COVER, CURING_DAYS
from kerfline.units import MM3_PER_GALLON, MM_PER_FOOT, MM_PER_INCH, celsius

FOOT, INCH = MM_PER_FOOT, MM_PER_INCH


def test_a_stop_of_thirty_minutes_is_a_construction_joint():
    """UFGS 02753, and a masonry handbook: when placing stops for 30 minutes."""
    assert pytest.approx(30) == STOP * 60


def hours_to_set(fahrenheit, rule=SettingRule.HALVING):
    """Hours in which a mix has set that takes 6 h at 70 °F."""
    setting = Setting(initial_set=6.0, finishing=3.0, reference=celsius(70), rule=rule)
    curve = AgeCurve.of(lambda clock: np.full_like(clock, celsius(fahrenheit)), setting, 0, 1)
    return curve.until(6.0, 0.0)


@pytest.mark.parametrize(("fahrenheit", "hours"), [(100, 5 / 3), (33, 19)])
def test_the_ends_of_the_trade_table_of_setting(fahrenheit, hours):
    """General page on the trade's table: about 1-2/3 h at 100 °F, about 19 h just above freezing."""
    assert hours_to_set(fahrenheit) == pytest.approx(hours, rel=0.3)


@pytest.mark.parametrize(("fahrenheit", "hours"), [(50, 4.25), (70, 2.75), (90, 1.75)])
def test_the_wait_for_the_float(fahrenheit, hours):
    """ASCC Position Statement 15: contractors wait 4-1/4 h at 50 °F, 2-3/4 h at 70 °F and 1-3/4 h at 90 °F."""
    setting = setting_of(MixSetting(finish=Finish.TROWEL), Ledger())
    curve = AgeCurve.of(lambda clock: np.full_like(clock, celsius(fahrenheit)), setting, 0, 1)
    found = curve.until(setting.floating, 0.0)
    assert found == pytest.approx(hours, rel=0.01 if fahrenheit == 70 else 0.3)
    assert found < curve.until(setting.initial_set, 0.0) < curve.until(setting.finishing, 0.0)


def test_the_set_that_is_assumed_is_two_thirds_of_the_table():
    """Trade table: 6 h at 70 °F; initial set is taken at two thirds of it, so a front is covered sooner."""
    assumed = setting_of(MixSetting(), Ledger())
    assert assumed.initial_set == pytest.approx(6 * 2 / 3)
    assert assumed.reference == pytest.approx(celsius(70))


@pytest.mark.parametrize(("habit", "feet"), [(CHUTE, 20), (CONVEYOR, 30)])
def test_reach_of_chute_and_conveyor(habit: Habit, feet):
    """Trade article: a truck within about 20 ft of the point of deposit; a conveyor to about 30 ft."""
    assert habit.amount / FOOT == pytest.approx(feet)


def test_one_hour_finishes_100_square_feet():
    """Estimating textbook, fig. 10.30: a machine trowel does 100 ft2 (9.3 m2) in a labour hour."""
    assert pytest.approx(9.3, abs=0.01) == FINISHED_IN_AN_HOUR / 1e6
    assert finishers(1600 * FOOT**2, 3.0, 5.5, 0.0) == 4
    assert finishers(1601 * FOOT**2, 3.0, 5.5, 0.0) == 5


@pytest.mark.parametrize(("inches", "hole"), [(0.75, 0.875), (1.0, 1.125), (1.25, 1.375)])
def test_a_drilled_hole_is_an_eighth_wider_at_most(inches, hole):
    """TM 5-822-7: no more than the dowel and 1/8 in (3 mm)."""
    assert hole_diameter(inches * INCH) / INCH == pytest.approx(hole)


@pytest.mark.parametrize(("inches", "off"), [(0.75, 0.375), (1.0, 0.5)])
def test_a_dowel_lies_within_half_its_diameter_of_mid_depth(inches, off):
    """UFC 3-320-06A, 5-4."""
    assert height_tolerance(inches * INCH) / INCH == pytest.approx(off)


def test_dowels_keep_clear_of_corners():
    """Airports textbook, p. 279: 12 in (305 mm) along one edge, 10 in (254 mm) along the other."""
    assert [round(c) for c in CORNER_CLEARANCE] == [305, 254]


@pytest.mark.parametrize(
    ("psi", "shrinkage"),
    [(300, 0.0008), (400, 0.0006), (450, 0.000525), (500, 0.00045), (600, 0.0003), (700, 0.0002)],
)
def test_shrinkage_by_strength(psi, shrinkage):
    """FHWA T 5040.30 (1990), Table 2, by indirect tensile strength; a 2019 edition exists. 450 is half-way."""
    assert shrinkage_by_strength(psi) == pytest.approx(shrinkage)


def test_shrinkage_beyond_the_table_is_that_of_its_ends():
    """The table says 300 psi or less, and 700 psi or more."""
    assert shrinkage_by_strength(200) == 0.0008
    assert shrinkage_by_strength(900) == 0.0002


@pytest.mark.parametrize(
    ("habit", "low", "high"), [(PLAIN_ALLOWANCE, 0.04, 0.10), (EDGE_ALLOWANCE, 0.04, 0.10)]
)
def test_allowances_lie_within_what_is_printed(habit, low, high):
    """NRMCA CIP 8: 4 to 10 % over plan dimensions; an estimating handbook, 2018, p. 42: 5 % for slabs."""
    assert low <= habit.amount <= high
    assert PLAIN_ALLOWANCE.amount == 0.05


def test_ninety_minutes_are_the_limit_of_older_editions():
    """ASTM C94 to 2021: 1.5 h; C94/C94M-21 leaves it to purchaser or producer, and the habit's source says so."""
    assert DISCHARGE.amount * 60 == 90
    assert "C94/C94M-21" in DISCHARGE.source
    assert CYCLE.amount <= DISCHARGE.amount


def test_seven_days_of_curing():
    """Construction estimating textbook: 3 to 14 days, 7 for slabs on grade in common practice."""
    assert 3 <= CURING_DAYS.amount <= 14
    assert CURING_DAYS.amount == 7


def test_curing_compound_covers_200_square_feet_a_gallon():
    """AASHTO M148 / ASTM C309 in an NCHRP synthesis, 2023, app. C: 200 ft2/gal, 5 m2/L."""
    assert CURING_COVER.amount * MM3_PER_GALLON / FOOT**2 == pytest.approx(200)
    assert pytest.approx(5, abs=0.1) == CURING_COVER.amount
