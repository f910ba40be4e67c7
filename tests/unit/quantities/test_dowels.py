"""Dowels by the table of a publication: which row serves a thickness, how many stand along a joint."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.model.slab import JointKind
from kerfline.quantities.dowels import (
    ACI_FLOOR,
    AIRFIELD,
    TABLES,
    TRADE_FLOOR,
    bar_weight,
    dowel_count,
    dowel_table,
    doweled,
    height_tolerance,
    hole_diameter,
    numbered_bar,
)
from shapes import workshop_layout

INCH, FOOT = 25.4, 304.8


def diameter(table, inches):
    dowel = table.dowel(inches * INCH)
    return dowel and dowel.diameter / INCH


@pytest.mark.parametrize(
    ("inches", "found"), [(7.98, 0.75), (8.0, 1.0), (11.98, 1.0), (12.0, 1.0), (21.0, 2.0), (26.0, 3.0), (60, 3.0)]
)  # fmt: skip
def test_a_row_of_the_airfield_table_ends_below_its_thickness(inches, found):
    """UFC 3-260-02 (2001), Table 12-8: "less than 8 in" 3/4 in, "8 to 11.5" 1 in, and so on."""
    assert diameter(AIRFIELD, inches) == pytest.approx(found)


@pytest.mark.parametrize(
    ("inches", "found"),
    [(4.98, None), (5.0, 0.625), (5.02, 0.75), (6.0, 0.75), (10.0, 1.25), (10.02, None)],
)
def test_a_row_of_the_floor_table_holds_at_its_thickness_and_there_is_none_beyond(inches, found):
    """A trade page: diameter about an eighth of the thickness, 5 to 10 in."""
    assert diameter(TRADE_FLOOR, inches) == (found and pytest.approx(found))


@pytest.mark.parametrize("table", TABLES.values(), ids=str)
def test_a_thicker_slab_never_has_a_thinner_dowel(table):
    known = [d for d in (table.dowel(t * INCH / 4) for t in range(12, 48)) if d]
    diameters = [d.diameter for d in known]
    assert diameters == sorted(diameters)
    assert all(d.diameter <= d.diameter_to for d in known)


def test_a_table_is_had_by_its_name():
    assert dowel_table("aci-302-1996") is ACI_FLOOR


def test_a_name_that_is_none_is_refused_with_those_that_are():
    with pytest.raises(InputRefused) as refused:
        dowel_table("best")
    assert str(refused.value) == (
        "day.steel.dowels: there is no dowel table of that name; found 'best'; "
        "allowed is ufc-3-260-02, floor-eighth, aci-302-1996."
    )


@pytest.mark.parametrize(
    ("length", "count"),
    [(0.0, 0), (0.99 * FOOT, 0), (FOOT, 1), (1.99 * FOOT, 1), (2 * FOOT, 2), (10 * FOOT, 10)],
)
def test_dowels_stand_half_a_foot_from_either_end_and_a_foot_apart(length, count):
    """n = floor((L - 2 x 6 in) / 12 in) + 1; a joint shorter than a foot has none."""
    assert dowel_count(length, FOOT) == count


@given(st.floats(0, 1e5), st.floats(50, 1000))
def test_the_last_dowel_is_clear_of_the_end_and_another_would_not_be(length, spacing):
    count = dowel_count(length, spacing, end=100.0)
    assert count == 0 or 100 + (count - 1) * spacing <= length - 100 + 1e-6 * spacing
    assert 100 + count * spacing > length - 100 - 1e-6 * spacing


def test_a_number_four_bar_weighs_two_thirds_of_a_pound_a_foot():
    """ASTM A615, table of bars: No. 4 is 1/2 in and 0.668 lb/ft, No. 8 is 1 in and 2.670 lb/ft."""
    for number, pounds in ((4, 0.668), (8, 2.670)):
        kg = bar_weight(numbered_bar(number)) * FOOT
        assert kg / 0.45359237 == pytest.approx(pounds, rel=2e-3)
    assert numbered_bar(8) == INCH


def test_a_dowel_weighs_as_long_as_it_is():
    dowel = AIRFIELD.dowel(6 * INCH)
    assert dowel.length == pytest.approx(16 * INCH)
    assert dowel.weight == pytest.approx(bar_weight(0.75 * INCH) * 16 * INCH)


def test_a_hole_is_an_eighth_wider_and_a_dowel_half_its_diameter_off_at_most():
    """TM 5-822-7; UFC 3-320-06A, 5-4."""
    assert hole_diameter(INCH) == pytest.approx(9 / 8 * INCH)
    assert height_tolerance(INCH) == INCH / 2


def test_construction_joints_alone_are_doweled():
    """The workshop's joint at its notch is 24 ft: floor(23 / 1) + 1 dowels at 12 in."""
    layout = doweled(workshop_layout(), 4 * INCH, "ufc-3-260-02")
    for joint in layout.joints:
        assert (joint.dowels is not None) is (joint.kind is JointKind.CONSTRUCTION)
    (dowels,) = (j.dowels for j in layout.joints if j.dowels)
    assert dowels.count == 24
    assert (dowels.diameter, dowels.length, dowels.spacing) == pytest.approx(
        (0.75 * INCH, 16 * INCH, 12 * INCH)
    )


@pytest.mark.parametrize("table", ["", "floor-eighth"])
def test_without_a_table_or_a_row_no_joint_is_doweled(table):
    layout = doweled(workshop_layout(), 4 * INCH, table)
    assert all(j.dowels is None for j in layout.joints)


def test_a_table_without_end_serves_any_thickness():
    assert math.isinf(AIRFIELD.rows[-1][0])
    assert not math.isinf(ACI_FLOOR.rows[-1][0])
