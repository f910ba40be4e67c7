"""Joint opening, drag steel and stiffness: laws of the formulas; the published figures stand in tests/published."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.quantities.movement import (
    drag_steel,
    joint_opening,
    relative_stiffness,
    seal_width,
    shrinkage_by_strength,
    steel_ratio,
    thickened_edge,
    tie_bar_area,
    tie_bar_length,
    tie_bar_spacing,
)

lengths = st.floats(1000, 20_000)


def test_an_opening_by_hand():
    """6 m, C 0.8, 10e-6 /K over 30 K and 300e-6 of shrinkage: 0.8 x 6000 x 600e-6 = 2.88 mm."""
    assert joint_opening(6000, 0.8, 10e-6, 30, 300e-6) == pytest.approx(2.88)


@given(lengths, lengths)
def test_openings_add_up_with_the_length(one, two):
    def opening(length):
        return joint_opening(length, 0.65, 9.9e-6, 40, 2e-4)

    assert opening(one + two) == pytest.approx(opening(one) + opening(two))


@pytest.mark.parametrize(
    ("psi", "share"),
    [(200, 8e-4), (300, 8e-4), (350, 7e-4), (400, 6e-4), (450, 5.25e-4), (700, 2e-4), (900, 2e-4)],
)
def test_shrinkage_is_by_proportion_between_rows_and_of_the_last_row_beyond(psi, share):
    """FHWA T 5040.30 (1990), Table 2; the first row from memory."""
    assert shrinkage_by_strength(psi) == pytest.approx(share)


@given(st.floats(0.5, 20))
def test_a_seal_lies_between_its_two_compressions(opening):
    """At its widest the joint leaves the seal 20 % compressed, at its narrowest 55 %."""
    width = seal_width(opening)
    narrowest = width * (1 - 0.55)
    assert (width - (narrowest + opening)) / width == pytest.approx(0.20)


def test_stiffness_by_hand():
    """E 30 000 N/mm2, 100 mm, k 0.0512 N/mm3 and no Poisson: (3e4 x 1e6 / (12 x 0.0512)) ** 0.25."""
    assert relative_stiffness(3e4, 100, 0.0512, 0.0) == pytest.approx(
        math.sqrt(math.sqrt(3e10 / 0.6144))
    )


def test_concrete_has_a_poissons_ratio_of_0_15():
    """1 - 0.15 ** 2 is 0.9775."""
    whole, none = (relative_stiffness(3e4, 100, 0.05, mu) for mu in (0.15, 0.0))
    assert relative_stiffness(3e4, 100, 0.05) == whole
    assert (none / whole) ** 4 == pytest.approx(0.9775)


@given(st.floats(80, 400))
def test_stiffness_grows_with_the_power_of_three_quarters_of_the_thickness(thickness):
    one, two = (relative_stiffness(3e4, t, 0.05) for t in (thickness, 16 * thickness))
    assert two / one == pytest.approx(8)


def test_twice_the_stress_takes_half_the_steel():
    """1.5 x 6000 mm x 0.0024 N/mm2 / (2 x 200 N/mm2) = 0.054 mm2/mm."""
    assert drag_steel(1.5, 6000, 0.0024, 200) == pytest.approx(0.054)
    assert drag_steel(1.5, 6000, 0.0024, 400) == pytest.approx(0.027)


def test_tie_bars_hold_the_whole_lane_where_drag_steel_drags_half_a_slab():
    tied = tie_bar_area(100, 6000, 2.4e-5, 1.5, 200)
    assert tied == pytest.approx(2 * drag_steel(1.5, 6000, 100 * 2.4e-5, 200))


def test_a_tie_bar_is_long_enough_for_its_bond_on_both_sides():
    """12 mm, 200 and 2 N/mm2: each half of 300 mm holds pi x 12 x 300 x 2 N = pi / 4 x 12^2 x 200 N."""
    length = tie_bar_length(12, 200, 2)
    assert length == 600
    assert math.pi * 12 * length / 2 * 2 == pytest.approx(math.pi / 4 * 12**2 * 200)


@pytest.mark.parametrize(("needed", "spacing"), [(0.2, 500), (0.21, 475), (0.1999, 500), (5.0, 0)])
def test_spacing_is_rounded_down_so_that_no_steel_is_lost(needed, spacing):
    """100 mm2 a bar in steps of 25 mm."""
    assert tie_bar_spacing(100, needed, 25) == spacing


def test_half_a_percent_by_hand():
    """A bar of 100 mm2 every 200 mm in 100 mm."""
    assert steel_ratio(100, 200, 100) == 0.005


def test_a_thickened_edge_is_a_quarter_deeper():
    """UFC 3-260-02 (2001), ch. 12."""
    assert thickened_edge(200) == 250
