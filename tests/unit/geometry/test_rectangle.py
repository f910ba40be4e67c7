"""Length and width of a panel: the smallest enclosing rectangle, held against shapely's own."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, affinity
from shapely.geometry import box

from kerfline.geometry.rectangle import enclosing_rectangle
from strategies import convex_plans, orthogonal_plans

plans = convex_plans() | orthogonal_plans()
turns = st.floats(0.0, 360.0)


@given(plans, turns)
def test_the_area_is_that_of_shapelys_smallest_rectangle(plan, turn):
    polygon = affinity.rotate(plan, turn)
    rectangle = enclosing_rectangle(polygon)
    oracle = shapely.minimum_rotated_rectangle(polygon)
    assert rectangle.length * rectangle.width == pytest.approx(oracle.area, rel=1e-6)


@given(plans, turns)
def test_turning_a_panel_changes_neither_length_nor_width(plan, turn):
    """Of equal rectangles the shorter is taken, so that ties do not depend on the angle."""
    before, after = (enclosing_rectangle(p) for p in (plan, affinity.rotate(plan, turn)))
    assert after.length == pytest.approx(before.length, rel=1e-6)
    assert after.width == pytest.approx(before.width, rel=1e-6)


@given(plans, st.integers(0, 20))
def test_it_does_not_depend_on_where_the_ring_starts(plan, start):
    points = list(plan.exterior.coords[:-1])
    start %= len(points)
    again = enclosing_rectangle(Polygon(points[start:] + points[:start]))
    assert again == enclosing_rectangle(plan)


@given(st.floats(600, 6000), st.floats(600, 6000), turns)
def test_a_turned_rectangle_has_its_own_sides(length, width, turn):
    rectangle = enclosing_rectangle(affinity.rotate(box(0, 0, length, width), turn))
    assert rectangle.length == pytest.approx(max(length, width))
    assert rectangle.width == pytest.approx(min(length, width))
    assert rectangle.aspect == pytest.approx(max(length, width) / min(length, width))


@pytest.mark.parametrize(("polygon", "angle"), [(box(0, 0, 9, 3), 0), (box(0, 0, 3, 9), 90)])
def test_the_angle_is_that_of_the_long_side(polygon, angle):
    assert enclosing_rectangle(polygon).angle == pytest.approx(angle)
    turned = affinity.rotate(polygon, 30)
    assert enclosing_rectangle(turned).angle == pytest.approx((angle + 30) % 180)


def test_a_hole_changes_nothing():
    pierced = box(0, 0, 9, 3).difference(box(1, 1, 2, 2))
    assert enclosing_rectangle(pierced) == enclosing_rectangle(box(0, 0, 9, 3))
