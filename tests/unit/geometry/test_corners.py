"""Corners and the angles at them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity
from shapely.geometry import box

from kerfline.geometry.corners import (
    ahead,
    angle_between,
    corners,
    direction,
    reentrant_corners,
    runs_of,
    seen_along,
    sine_between,
    turn_between,
)
from kerfline.geometry.ring import Ring, circle
from strategies import convex_plans, orthogonal_plans

ELL = Polygon([(0, 0), (6, 0), (6, 4), (3, 4), (3, 8), (0, 8)])


@given(orthogonal_plans())
def test_an_orthogonal_outline_has_four_more_outer_than_re_entrant_corners(plan):
    """All turns of a closed line add up to 360 degrees (any geometry text)."""
    found = corners(plan)
    inner = reentrant_corners(plan)
    assert len(found) == len(plan.exterior.coords) - 1
    assert len(found) - 2 * len(inner) == 4
    assert {round(c.angle) for c in found} <= {90, 270}


@given(orthogonal_plans() | convex_plans(), st.floats(0, 360))
def test_the_angles_add_up_and_do_not_turn_with_the_plan(plan, turn):
    found = corners(affinity.rotate(plan, turn, origin=(0, 0)))
    if len(found) == len(plan.exterior.coords) - 1:
        assert sum(180 - c.angle for c in found) == pytest.approx(360)
    assert sorted(round(c.angle, 3) for c in found) == pytest.approx(
        sorted(round(c.angle, 3) for c in corners(plan)), abs=0.01
    )


@given(convex_plans())
def test_a_convex_outline_has_no_re_entrant_corner(plan):
    assert reentrant_corners(plan) == []


def test_the_corner_of_an_ell():
    (corner,) = reentrant_corners(ELL)
    assert corner.at == (3, 4)
    assert corner.angle == pytest.approx(270)
    assert corner.before == (1, 0)
    assert corner.after == (0, 1)
    assert corner.reentrant


def test_every_corner_of_an_opening_is_re_entrant():
    pierced = box(0, 0, 9, 9).difference(box(3, 3, 5, 5))
    assert sorted(c.at for c in reentrant_corners(pierced)) == [(3, 3), (3, 5), (5, 3), (5, 5)]


def test_a_clockwise_ring_has_the_same_corners():
    assert {c.at for c in reentrant_corners(ELL.reverse())} == {(3, 4)}


def test_curves_have_no_corners():
    round_hole = box(0, 0, 9000, 9000).difference(circle((4000, 4000), 1000).polygon)
    assert reentrant_corners(round_hole) == []
    assert corners(circle((0, 0), 3000).polygon) == []


def test_a_swelling_side_has_re_entrant_corners_only_where_it_turns_inward():
    bay = Ring(((0, 0), (9000, 0), (9000, 6000), (0, 6000)), (0.0, 1.0, 0.0, 0.0))
    assert reentrant_corners(bay.polygon) == []  # a half circle leaves its side square on
    notch = Ring(((0, 0), (9000, 0), (9000, 6000), (0, 6000)), (0.0, -1.0, 0.0, 0.0))
    assert reentrant_corners(notch.polygon) == []


@pytest.mark.parametrize(
    ("first", "second", "turn", "angle"),
    [
        ((1, 0), (0, 1), 90, 90),
        ((0, 1), (1, 0), 270, 90),
        ((1, 0), (-1, 0), 180, 180),
        ((1, 0), (1, 0), 0, 0),
        ((1, 0), (-1, -1), 225, 135),
    ],
)
def test_turns_and_angles(first, second, turn, angle):
    assert turn_between(first, second) == pytest.approx(turn)
    assert angle_between(first, second) == pytest.approx(angle)


def test_direction_is_a_unit_vector_or_nothing():
    assert direction((1, 1), (4, 5)) == pytest.approx((0.6, 0.8))
    assert direction((1, 1), (1, 1)) == (0, 0)


@pytest.mark.parametrize(
    ("first", "second", "sine"),
    [((1, 0), (1, 0), 0), ((1, 0), (-1, 0), 0), ((1, 0), (0, -1), 1), ((0.6, 0.8), (1, 0), 0.8)],
)
def test_the_sine_between_lines_knows_no_sense(first, second, sine):
    assert sine_between(first, second) == pytest.approx(sine)


def test_ahead_of_a_point_and_behind_it():
    assert ahead((1, 2), (0.6, 0.8), 5) == pytest.approx((4, 6))
    assert ahead((1, 2), (0.6, 0.8), -5) == pytest.approx((-2, -2))


def test_how_far_along_a_line_a_point_lies_and_how_far_to_its_right():
    assert seen_along((1, 1), (0, 1), (4, 3)) == (2, 3)
    assert seen_along((1, 1), (1, 0), (0, 3)) == (-1, -2)


@pytest.mark.parametrize(
    ("points", "count"),
    [
        (((0, 0), (1000, 0)), 1),
        (((0, 0), (1000, 0), (1000, 1000)), 2),
        (((0, 0), (1000, 0), (2000, 1000 * math.tan(math.radians(9)))), 1),
        (((0, 0), (1000, 0), (2000, 1000 * math.tan(math.radians(11)))), 2),
        (((0, 0), (1000, 0), (1000, 1000), (0, 1000), (0, 0)), 4),
    ],
)
def test_a_line_is_cut_at_its_bends_of_more_than_10_degrees(points, count):
    runs = runs_of(LineString(points))
    assert len(runs) == count
    assert sum(r.length for r in runs) == pytest.approx(LineString(points).length)
