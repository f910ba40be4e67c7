"""Joints that are moved, drawn and taken away end on an edge or on another joint."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon
from shapely.geometry import box

from drawn_joints import HALL, joint, path_of
from kerfline.app import joint_edit as edit
from kerfline.app.joint_axis import line_of
from kerfline.app.joint_refit import refit
from kerfline.errors import InputRefused
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.model.layout import Reason
from kerfline.model.panelling import panels_of
from strategies import orthogonal_plans

ELL = Polygon([(0, 0), (9000, 0), (9000, 3000), (5000, 3000), (5000, 6000), (0, 6000)])


def test_a_joint_slides_square_to_itself_and_is_then_the_users_own():
    joints = [joint("J1", (3000, 0), (3000, 6000))]

    (moved,) = edit.slide(HALL, joints, "J1", (500, 777))

    assert moved.path == ((3500, 0), (3500, 6000))
    assert moved.pinned
    assert moved.reason is Reason.PINNED


def test_joints_that_end_on_a_moved_joint_follow_it_from_both_sides():
    joints = [
        joint("J1", (3000, 0), (3000, 6000)),
        joint("J2", (0, 2000), (3000, 2000)),
        joint("J3", (3000, 4000), (9000, 4000)),
    ]

    moved = edit.slide(HALL, joints, "J1", (700, 0))

    assert path_of(moved, "J2") == ((0, 2000), (3700, 2000))
    assert path_of(moved, "J3") == ((3700, 4000), (9000, 4000))


def test_a_moved_joint_keeps_to_the_joint_that_it_ends_on():
    joints = [joint("J1", (0, 3000), (9000, 3000)), joint("J2", (4000, 0), (4000, 3000))]

    moved = edit.slide(HALL, joints, "J2", (1200, 0))

    assert path_of(moved, "J2") == ((5200, 0), (5200, 3000))


def test_a_joint_that_leaves_the_joint_it_ended_on_goes_on_to_the_edge():
    joints = [joint("J1", (0, 3000), (5000, 3000)), joint("J2", (4000, 0), (4000, 3000))]

    moved = edit.slide(HALL, joints, "J2", (2000, 0))

    assert path_of(moved, "J2") == ((6000, 0), (6000, 6000))


@pytest.mark.parametrize(("by", "top"), [(0, 6000), (-1000, 6000), (1500, 3000)])
def test_a_joint_ends_on_the_edge_wherever_the_slab_steps(by, top):
    joints = [joint("J1", (4500, 0), (4500, 6000))]

    (moved,) = edit.slide(ELL, joints, "J1", (by, 0))

    assert moved.path == ((4500 + by, 0), (4500 + by, top))


def test_an_opening_in_the_way_makes_two_joints_of_one():
    concrete = HALL.difference(box(5000, 2000, 6000, 4000))
    joints = [joint("J1", (3000, 0), (3000, 6000))]

    moved = edit.slide(concrete, joints, "J1", (2500, 0))

    assert sorted(j.path for j in moved) == [
        ((5500, 0), (5500, 2000)),
        ((5500, 4000), (5500, 6000)),
    ]
    assert len({j.id for j in moved}) == 2


def test_a_follower_that_would_have_no_length_goes():
    joints = [joint("J1", (3000, 0), (3000, 6000)), joint("J2", (0, 2000), (3000, 2000))]

    assert [j.id for j in edit.slide(HALL, joints, "J1", (-2990, 0))] == ["J1"]


def test_off_the_slab_a_move_is_refused():
    with pytest.raises(InputRefused, match="no concrete"):
        edit.slide(HALL, [joint("J1", (3000, 0), (3000, 6000))], "J1", (-4000, 0))


def test_a_drawn_joint_is_carried_on_to_the_next_edge_or_joint():
    joints = [joint("J1", (3000, 0), (3000, 6000))]

    drawn = edit.draw(HALL, joints, (4000, 2000), (5000, 2000))

    assert drawn[-1].path == ((3000, 2000), (9000, 2000))
    assert drawn[-1].id == "J2"
    assert drawn[-1].pinned


def test_a_joint_drawn_off_the_slab_is_refused():
    with pytest.raises(InputRefused, match="no concrete"):
        edit.draw(HALL, [], (0, 7000), (9000, 7000))


def test_a_split_stays_within_its_panel():
    joints = [joint("J1", (3000, 0), (3000, 6000))]

    split = edit.split(HALL, joints, box(3000, 0, 9000, 6000), (1.0, 0.0), (5000, 2500))

    assert split[-1].path == ((3000, 2500), (9000, 2500))


def test_a_split_goes_on_beyond_an_opening_in_its_panel():
    """Its middle lies in the opening; a joint on one side alone would divide nothing."""
    hole = box(2000, 2000, 4000, 4000)
    panel = box(0, 0, 6000, 6000).difference(hole)

    split = edit.split(HALL.difference(hole), [], panel, (1.0, 0.0), (3000, 3000))

    assert [j.path for j in split] == [((0, 3000), (2000, 3000)), ((4000, 3000), (6000, 3000))]


def test_when_a_joint_goes_what_ended_on_it_is_carried_on():
    joints = [joint("J1", (3000, 0), (3000, 6000)), joint("J2", (0, 2000), (3000, 2000))]

    (left,) = edit.delete(HALL, joints, "J1")

    assert left.path == ((0, 2000), (9000, 2000))


def test_a_column_that_comes_cuts_the_joints_and_one_that_goes_lets_them_through():
    with_column = HALL.difference(box(2700, 2700, 3300, 3300))
    joints = (joint("J1", (3000, 0), (3000, 6000), pinned=False),)

    cut = refit(HALL, with_column, joints)
    back = refit(with_column, HALL, cut)

    assert sorted(j.path for j in cut) == [((3000, 0), (3000, 2700)), ((3000, 3300), (3000, 6000))]
    assert not any(j.pinned for j in cut)
    assert shapely.union_all([line_of(j) for j in back]).length == pytest.approx(6000)


@settings(max_examples=30)
@given(plan=orthogonal_plans(), data=st.data())
def test_whatever_is_drawn_and_moved_ends_on_something_and_panels_tile_the_slab(plan, data):
    """On any plan: no free ends, and the panels' areas add up to the concrete."""
    x0, y0, x1, y1 = plan.bounds
    joints = ()
    for _ in range(3):
        x, y = data.draw(st.floats(x0, x1)), data.draw(st.floats(y0, y1))
        end = (x + 500, y) if data.draw(st.booleans()) else (x, y + 500)
        try:
            joints = edit.draw(plan, joints, (x, y), end)
        except InputRefused:
            continue
    if not joints:
        return
    moved = data.draw(st.sampled_from([j.id for j in joints]))
    by = (data.draw(st.floats(-1500, 1500)), data.draw(st.floats(-1500, 1500)))
    try:
        joints = edit.slide(plan, joints, moved, by)
    except InputRefused:
        return

    lines = [line_of(j) for j in joints]
    assert all(e.kind is not EndKind.FREE for e in joint_ends(plan, lines))
    assert all(plan.buffer(0.5).covers(line) for line in lines)
    assert sum(p.area for p in panels_of(plan, lines)) == pytest.approx(plan.area, rel=1e-6)


def test_a_joint_at_an_angle_slides_square_to_itself():
    joints = [joint("J1", (0, 0), (6000, 6000))]

    (moved,) = edit.slide(HALL, joints, "J1", (1000, 0))

    line = LineString(moved.path)
    assert line.distance(Point(1000, 0)) < 0.01
    assert math.isclose(line.length, 6000 * math.sqrt(2), abs_tol=0.01)
