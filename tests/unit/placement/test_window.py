"""Windows of lines, point by point, and the stretches that long ones are cut in."""

from dataclasses import replace

import numpy as np
import pytest

from kerfline.model.day import Ledger, SawChoice, SawMethod, TrialCut
from kerfline.placement.window import WindowHours, calibrated, line_windows, window_hours
from poured import ALONG, HOURS, SETTING, across, ageing, pour, sawn


def windows(line, placed, temperature=21.0, nodes=()):
    return line_windows(line, (placed,), ageing(placed, temperature), HOURS, nodes)


def test_a_line_across_opens_6_hours_after_its_concrete_at_the_reference():
    """It closes 12 h after placing; placed at once."""
    (found,) = windows(across(15000), pour())
    assert found.placed == pytest.approx((7.75, 7.75))
    assert found.opens.likely == pytest.approx(7.75 + 6, abs=0.06)
    assert found.closes.likely == pytest.approx(7.75 + 12, abs=0.06)
    assert found.opens.early < found.opens.likely < found.opens.late


def test_each_point_of_a_line_along_has_its_own_window():
    """Placed from 7:00 to 8:30; as a whole it is open an hour and a half less than a point."""
    (found,) = windows(ALONG, pour())
    opens, closes = found.stations.opens[1], found.stations.closes[1]
    assert opens[0] == pytest.approx(13.0, abs=0.06)
    assert opens[-1] == pytest.approx(14.5, abs=0.06)
    assert closes - opens == pytest.approx(np.full(len(opens), 6.0), abs=0.06)
    assert found.closes.likely - found.opens.likely == pytest.approx(6 - 1.5, abs=0.1)
    assert found.ready == pytest.approx(13.0, abs=0.06)
    assert found.deadline == pytest.approx(20.5, abs=0.06)


def test_a_line_placed_over_hours_is_cut_in_stretches():
    """7.5 h of placing against windows of 6 h: three stretches, each placed in 2.5 h and open for 3.5 h."""
    found = windows(ALONG, pour(rate=4e9))
    assert len(found) == 3
    assert sum(w.sawn.line.length for w in found) == pytest.approx(30000)
    assert all(w.workable for w in found)
    assert all(w.closes.likely - w.opens.likely == pytest.approx(3.5, abs=0.1) for w in found)


def test_stretches_part_at_a_joint_that_crosses_nearby():
    """The thirds lie at 10 and 20 m; joints cross at 9 and 21 m."""
    first, second, third = windows(ALONG, pour(rate=4e9), nodes=(3000.0, 9000.0, 21000.0))
    assert first.sawn.line.length == pytest.approx(9000)
    assert second.sawn.line.length == pytest.approx(12000)
    assert third.sawn.line.length == pytest.approx(9000)


def test_a_line_between_two_lanes_opens_by_the_second_and_closes_by_the_first():
    """Two passes of 5 m, 0.75 h each: a point's window is a pass shorter than elsewhere."""
    (found,) = windows(ALONG, pour(screed=5100.0))
    opens, closes = found.stations.opens[1], found.stations.closes[1]
    assert closes - opens == pytest.approx(np.full(len(opens), 6 - 0.75), abs=0.06)


def test_a_line_elsewhere_has_no_window():
    """Nor has one that only ends at the placement."""
    assert windows(sawn("J1", (0, 20000), (9, 20000)), pour()) == []
    assert windows(sawn("J1", (5000, 10000), (5000, 15000)), pour()) == []


def test_the_hours_of_both_saws_and_what_finishing_moves():
    """Early-entry waits 2 h after finishing and a conventional saw is never sooner than that."""

    def hours(method, finishing):
        setting = replace(SETTING, finishing=finishing)
        return window_hours(SawChoice(), method, setting, Ledger())

    early, late = SawMethod.EARLY_ENTRY, SawMethod.CONVENTIONAL
    assert hours(early, 1.0) == WindowHours(opens=3.0, closes=6.0)
    assert hours(early, 3.0) == WindowHours(opens=5.0, closes=7.0)
    assert hours(early, 5.0) == WindowHours(opens=7.0, closes=9.0)
    assert hours(late, 3.0) == WindowHours(opens=6.0, closes=12.0)
    assert hours(late, 5.0) == WindowHours(opens=7.0, closes=12.0)


def test_the_users_own_hours_come_first():
    saws, ledger = SawChoice(opens=8.0, closes=14.0), Ledger()
    assert window_hours(saws, SawMethod.CONVENTIONAL, SETTING, ledger) == WindowHours(
        opens=8.0, closes=14.0
    )
    assert not ledger.assumptions


@pytest.mark.parametrize(
    ("temperature", "opens"), [(None, 8.0), (21.0, 8.0), (21.0 + 20 / 1.8, 16.0)]
)
def test_a_trial_cut_moves_the_rest_of_the_day(temperature, opens):
    """It stood 8 h after placing at 21 °C: opening and closing move by 8 / 6; 8 h at 20 °F more are 16 h."""
    trial = TrialCut(placed=7.0, cut=15.0, temperature=temperature)
    moved = calibrated(HOURS, trial, ageing(pour()), SETTING)
    assert moved.opens == pytest.approx(opens, abs=0.06)
    assert moved.closes == pytest.approx(2 * opens, abs=0.12)
    assert calibrated(HOURS, None, ageing(pour()), SETTING) == HOURS
