"""The panels that joints cut a slab into, their ends brought together."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box

from kerfline.geometry.tolerance import TOUCH
from kerfline.model.panelling import joined, panels_of
from strategies import orthogonal_plans

FLOOR = box(0, 0, 6000, 4000)


def line(*points):
    return LineString(points)


def cut(*lines):
    return panels_of(FLOOR, lines)


def test_no_joint_leaves_one_panel():
    (panel,) = cut()
    assert (panel.id, panel.area) == ("P1", FLOOR.area)
    assert joined(FLOOR, []) == []


def test_panels_are_numbered_in_reading_order():
    found = cut(line((3000, 0), (3000, 4000)), line((0, 2000), (6000, 2000)))
    assert [p.id for p in found] == ["P1", "P2", "P3", "P4"]
    centres = [(p.polygon.centroid.x, p.polygon.centroid.y) for p in found]
    assert centres == [(1500, 1000), (4500, 1000), (1500, 3000), (4500, 3000)]


@pytest.mark.parametrize(("short", "count"), [(0.0, 2), (0.4, 2), (0.6, 1), (500.0, 1)])
def test_a_joint_that_stops_within_half_a_millimetre_of_the_edge_closes_a_panel(short, count):
    assert len(cut(line((3000, short), (3000, 4000 - short)))) == count


@pytest.mark.parametrize(("short", "count"), [(0.4, 3), (0.6, 2)])
def test_so_does_one_that_stops_short_of_another_joint(short, count):
    level = line((0, 2000), (6000, 2000))
    assert len(cut(level, line((3000, 0), (3000, 2000 - short)))) == count


@pytest.mark.parametrize(("aside", "start"), [(0.4, (0, 0)), (0.6, (0.6, 0))])
def test_an_end_that_near_to_a_corner_is_moved_into_it(aside, start):
    """And then straight on by half a millimetre, back along a joint of 3, 4 and 5."""
    (found,) = joined(FLOOR, [line((aside, 0), (aside + 3, 4))])
    x, y = found.coords[0]
    way = math.hypot(aside + 3 - start[0], 4)
    assert x == pytest.approx(start[0] - TOUCH * (aside + 3 - start[0]) / way)
    assert y == pytest.approx(-TOUCH * 4 / way)


def test_ends_that_near_to_each_other_meet_in_a_start_before_an_end():
    first, second = line((0, 2000), (3000, 2000)), line((3000.3, 2000.3), (3000.3, 4000))
    ahead, up = joined(FLOOR, [first, second])
    assert ahead.coords[-1] == pytest.approx((3000.8, 2000.3), abs=1e-3)
    assert up.coords[0] == pytest.approx((3000.3, 1999.8))


def test_ends_go_straight_on_by_half_a_millimetre_and_bends_stay():
    (found,) = joined(FLOOR, [line((1000, 1000), (2000, 1000), (2000, 3000))])
    assert list(found.coords) == [(999.5, 1000), (2000, 1000), (2000, 3000.5)]


@given(orthogonal_plans(), st.data())
def test_panels_tile_the_concrete_whatever_the_joints_are(plan, data):
    x0, y0, x1, y1 = plan.bounds
    xs = st.floats(x0, x1)
    lines = [line((x, y0 - 10), (x, y1 + 10)) for x in data.draw(st.lists(xs, max_size=3))]
    found = panels_of(plan, lines)
    assert sum(p.area for p in found) == pytest.approx(plan.area)
    whole = shapely.union_all([p.polygon for p in found])
    assert whole.symmetric_difference(plan).area < 1.0
