"""Relief cuts: the slab is first halved, then halved again."""

from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from kerfline.placement.relief import RELIEF_SPACING, halving_order, relief_first
from kerfline.placement.window import line_windows
from poured import AREA, HOURS, ageing, pour, sawn

FOOT = 304.8


def order(places, end):
    return [places[i] for i in halving_order([p * FOOT for p in places], 0.0, end * FOOT)]


def test_the_longest_stretch_is_halved_first_and_the_first_of_equal_ones():
    """240 ft in bays of 15: 120, then 60 and 180; stretches of 60 ft may wait."""
    assert order(list(range(15, 240, 15)), 240) == [120, 60, 180]


@pytest.mark.parametrize(("end", "cuts"), [(60.0, []), (60.1, [30])])
def test_a_stretch_of_60_feet_may_wait_and_a_longer_one_may_not(end, cuts):
    """Trade article: relief joints about every 60 ft."""
    assert order([10, 30, 50], end) == cuts


def test_of_two_as_near_the_middle_the_first_is_taken():
    assert order([40, 60], 100) == [40]


def test_lines_in_one_line_are_cut_together():
    places = [50 * FOOT, 50 * FOOT + 0.9, 50 * FOOT + 1.1]
    assert halving_order(places, 0.0, 100 * FOOT)[:2] == [0, 1]


def test_lines_at_the_ends_or_beyond_halve_nothing():
    assert order([0, 100, 120], 100) == []


@given(st.lists(st.floats(0, 500), max_size=20), st.floats(10, 500))
def test_no_stretch_is_left_over_60_feet_that_a_line_could_halve(places, end):
    cut = sorted({0.0, end, *order(places, end)})
    for low, high in pairwise(cut):
        inside = [p for p in places if low * FOOT < p * FOOT < high * FOOT]
        assert (high - low) * FOOT <= RELIEF_SPACING + 1e-6 or not inside


def windows(*lines):
    placed = pour()
    return [w for li in lines for w in line_windows(li, (placed,), ageing(placed), HOURS)]


def test_lines_across_the_long_side_come_first_and_the_rest_keep_their_order():
    """30 x 10 m: the line at mid-length; one along the slab and one near its end wait."""
    along = sawn("J1", (0, 5000), (30_000, 5000))
    end = sawn("J2", (27_000, 0), (27_000, 10_000))
    middle = sawn("J3", (15_000, 0), (15_000, 10_000))
    ordered, relief = relief_first(windows(along, end, middle), AREA)
    names = list(dict.fromkeys(w.sawn.joint for w in ordered))
    assert names == ["J3", "J1", "J2"]
    assert relief == {"J3"}


@pytest.mark.parametrize(("lean", "is_relief"), [(5700, True), (5900, False)])
def test_a_line_within_30_degrees_of_square_cuts_across(lean, is_relief):
    """10 m deep: the tangent of 30 degrees is 5774 mm in 10 000."""
    line = sawn("J1", (15_000, 0), (15_000 + lean, 10_000))
    _, relief = relief_first(windows(line), AREA)
    assert relief == ({"J1"} if is_relief else frozenset())


def test_a_short_placement_has_no_relief_cuts():
    small = shapely.box(0, 0, 18_000, 10_000)
    ordered, relief = relief_first(windows(sawn("J1", (9000, 0), (9000, 10_000))), small)
    assert relief == frozenset()
    assert [w.sawn.joint for w in ordered] == ["J1"]
