"""Sawing and squaring against published cases, federal tables and plain geometry.

Sources: a trade answer on cuts at walls (2 to 4 in left by walk-behind saws, about 1 in by a 4 in grinder); a
trade answer on a cold night (46 x 90 ft); 29 CFR 1926.1153, Table 1; 29 CFR 1926.52, Table D-2; NIOSH
criteria; a builders' magazine on tubing; ACI 117-06 and -10, 4.5.4, and ACI 117 in UFGS 03700, p. 26.
"""

import pytest
from shapely import box

from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.placement.acceptance import CORE_SHORT, JOINT_PLACE, MEAN_SHORT
from kerfline.placement.clock import front_speed
from kerfline.placement.kerf import cut_end
from kerfline.placement.relief import halving_order
from kerfline.placement.safety import (
    SawKind,
    niosh_hours,
    noise_hours,
    respirator,
)
from kerfline.placement.setting_out import chained_drift, diagonal, lean
from kerfline.rules.cover import Clearance, clearance, margin_over
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, MM_PER_INCH, feet_inches

FOOT, INCH = MM_PER_FOOT, MM_PER_INCH


def test_what_a_14_inch_blade_leaves():
    """By geometry: at 1-1/4 in deep it runs out over 3.992 in and leaves 3.008 in; published 2 to 4 in."""
    end = cut_end(14 * INCH, 1.25 * INCH)
    assert end.run_out / INCH == pytest.approx(3.992, abs=0.001)
    assert end.surface / INCH == pytest.approx(3.008, abs=0.001)
    assert end.full_depth / INCH == pytest.approx(7)
    assert 2 <= end.surface / INCH <= 4


def test_what_a_grinder_leaves():
    """By geometry: 4 in blade, 1 in deep: run-out 1.732, left 0.268 in; published "about 1 in"."""
    end = cut_end(4 * INCH, 1 * INCH)
    assert end.run_out / INCH == pytest.approx(1.732, abs=0.001)
    assert end.surface / INCH == pytest.approx(0.268, abs=0.001)
    assert end.surface / INCH < 1


def test_the_guard_comes_on_top():
    """Half an inch of guard leaves half an inch more, at the surface and at depth."""
    plain, guarded = cut_end(14, 1.25), cut_end(14, 1.25, 0.5)
    assert guarded.surface - plain.surface == pytest.approx(0.5)
    assert guarded.full_depth - plain.full_depth == pytest.approx(0.5)


def test_emergency_on_a_cold_night():
    """Trade answer: 46 x 90 ft with joints at 15, 30, 45, 60 and 75 ft: first 45 ft, halves 46 x 45."""
    places = [x * FOOT for x in (15, 30, 45, 60, 75)]
    assert halving_order(places, 0, 90 * FOOT) == [2]
    first = places[2]
    assert enclosing_rectangle(box(0, 0, first, 46 * FOOT)).aspect == pytest.approx(1.02, abs=0.01)
    assert enclosing_rectangle(box(first, 0, 90 * FOOT, 46 * FOOT)).aspect < 1.03


def test_relief_cuts_every_60_feet():
    """Trade article: relief joints about every 60 ft first; 240 ft is halved and halved again."""
    places = [x * FOOT for x in range(15, 240, 15)]
    order = [places[i] / FOOT for i in halving_order(places, 0, 240 * FOOT)]
    assert order == [120, 60, 180]


@pytest.mark.parametrize(
    ("level", "hours"), [(90, 8), (95, 4), (100, 2), (102, 1.5), (105, 1), (110, 0.5), (113, 0.330)]
)
def test_noise(level, hours):
    """29 CFR 1926.52, Table D-2 (1.5 h at 102 dBA is rounded there from 1.52)."""
    assert noise_hours(level) == pytest.approx(hours, abs=0.021)


@pytest.mark.parametrize(("level", "minutes"), [(85, 480), (90, 151), (100, 15)])
def test_noise_by_niosh(level, minutes):
    """NIOSH criteria: 2 h 31 min at 90 dBA, 15 min at 100 dBA."""
    assert niosh_hours(level) * 60 == pytest.approx(minutes, abs=0.5)


@pytest.mark.parametrize(
    ("saw", "outdoors", "hours", "factor"),
    [
        (SawKind.WALK_BEHIND, True, 3, 0),
        (SawKind.WALK_BEHIND, True, 6, 0),
        (SawKind.WALK_BEHIND, False, 3, 10),
        (SawKind.WALK_BEHIND, False, 6, 10),
        (SawKind.HANDHELD, True, 3, 0),
        (SawKind.HANDHELD, True, 6, 10),
        (SawKind.HANDHELD, False, 3, 10),
        (SawKind.DRIVABLE, True, 6, 0),
        (SawKind.DRIVABLE, False, 1, None),
    ],
)
def test_respirators_with_wet_sawing(saw, outdoors, hours, factor):
    """29 CFR 1926.1153, Table 1, rows (ii), (iv) and (v)."""
    assert respirator(saw, outdoors=outdoors, hours=hours) == factor


def test_tubing_under_a_cut():
    """Builders' magazine: about 1-1/4 in over tubing. A 1 in cut leaves nothing to spare, 1-1/4 in strikes."""
    cover = 1.25 * INCH
    assert margin_over(cover, 1 * INCH) == pytest.approx(0)
    assert clearance(cover, 1 * INCH) is Clearance.DOUBTFUL
    assert margin_over(cover, 1.25 * INCH) / INCH == pytest.approx(-0.25)
    assert clearance(cover, 1.25 * INCH) is Clearance.STRIKES
    assert clearance(3 * INCH, 1 * INCH) is Clearance.CLEAR


def test_front_speed():
    """By hand: 30 yd3/h over 30 ft at 4 in moves the front 81 ft an hour."""
    speed = front_speed(30 * MM3_PER_YD3, 30 * FOOT, 4 * INCH)
    assert speed / FOOT == pytest.approx(81)


def test_diagonals():
    """By hand: 40 x 30 ft has 50'-0"; 46 x 90 ft has 101'-0 7/8"."""
    assert feet_inches(diagonal(40 * FOOT, 30 * FOOT)) == "50'-0\""
    assert feet_inches(diagonal(90 * FOOT, 46 * FOOT)) == "101'-0 7/8\""


def test_lean():
    """By hand: half an inch between the diagonals of 40 x 30 ft is 0.3125 in over 30 ft."""
    assert lean(0.5, 40, 30) == pytest.approx(0.3125)


def test_chained_marks_drift():
    """By hand: eight chained marks 1/16 in off each end half an inch off; running ones 1/16 in."""
    assert chained_drift(8, 1 / 16) == pytest.approx(0.5)
    assert chained_drift(1, 1 / 16) == pytest.approx(1 / 16)


def test_what_the_finished_slab_is_held_against():
    """ACI 117, 4.5.4: mean not under t - 3/8 in, no core under t - 3/4 in; UFGS 03700, p. 26: joints 3/4 in."""
    inches = [each / INCH for each in (MEAN_SHORT, CORE_SHORT, JOINT_PLACE)]
    assert inches == pytest.approx([0.375, 0.75, 0.75])
