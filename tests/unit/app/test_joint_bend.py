"""Bent joints: moved whole, by their knees and by their ends; everything still ends on something."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely.geometry import box

from drawn_joints import HALL, JOG, joint, path_of
from kerfline.app import joint_bend as bend
from kerfline.app import joint_edit as edit
from kerfline.app import joint_ends as ends
from kerfline.app.joint_axis import line_of
from kerfline.app.joint_refit import refit
from kerfline.errors import InputRefused
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.model.layout import Reason
from kerfline.model.panelling import panels_of
from strategies import orthogonal_plans


def test_a_bent_joint_moves_parallel_to_itself_and_its_ends_stay_on_the_edges():
    (moved,) = edit.slide(HALL, [joint("J1", *JOG)], "J1", (500, 300))

    assert moved.path == ((3500, 0), (3500, 2300), (4500, 4300), (4500, 6000))
    assert moved.pinned
    assert moved.reason is Reason.PINNED


def test_joints_that_end_on_a_bent_one_follow_its_new_line():
    joints = [
        joint("J1", *JOG),
        joint("J2", (0, 1000), (3000, 1000)),
        joint("J3", (3500, 3000), (9000, 3000)),
    ]

    moved = edit.slide(HALL, joints, "J1", (500, 0))

    assert path_of(moved, "J2") == ((0, 1000), (3500, 1000))
    assert path_of(moved, "J3") == ((4000, 3000), (9000, 3000))


def test_a_bent_joint_that_ended_on_a_moved_one_follows_along_its_last_stretch():
    joints = [
        joint("J1", (6000, 0), (6000, 6000)),
        joint("J2", (0, 1000), (4000, 1000), (6000, 3000)),
    ]

    further = edit.slide(HALL, joints, "J1", (500, 0))
    past_its_knee = edit.slide(HALL, joints, "J1", (-3000, 0))

    assert path_of(further, "J2") == (
        (0, 1000),
        (4000, 1000),
        (pytest.approx(6500), pytest.approx(3500)),
    )
    assert path_of(past_its_knee, "J2") == ((0, 1000), (3000, 1000))


def test_an_opening_in_the_way_makes_two_of_a_bent_joint():
    concrete = HALL.difference(box(4500, 4400, 5500, 5000))

    moved = edit.slide(concrete, [joint("J1", *JOG)], "J1", (1000, 0))

    assert sorted(j.path for j in moved) == [
        ((4000, 0), (4000, 2000), (5000, 4000), (5000, 4400)),
        ((5000, 5000), (5000, 6000)),
    ]


def test_off_the_slab_a_bent_joint_is_refused():
    with pytest.raises(InputRefused, match="no concrete"):
        edit.slide(HALL, [joint("J1", *JOG)], "J1", (9000, 0))


def test_a_knee_moves_and_the_ends_stay():
    joints = [joint("J1", *JOG), joint("J2", (0, 1000), (3000, 1000))]

    moved = bend.move_knee(HALL, joints, "J1", 1, (3500, 2000))

    assert path_of(moved, "J1") == ((3000, 0), (3500, 2000), (4000, 4000), (4000, 6000))
    assert path_of(moved, "J2") == ((0, 1000), (pytest.approx(3250), 1000))


def test_a_knee_put_on_its_neighbour_goes():
    (moved,) = bend.move_knee(HALL, [joint("J1", *JOG)], "J1", 1, (3995, 3990))

    assert moved.path == ((3000, 0), (4000, 4000), (4000, 6000))


@pytest.mark.parametrize(
    ("index", "to", "says"),
    [
        (1, (-500, 2000), "must lie on the concrete"),
        (1, (6000, 5000), "cross itself"),
        (0, (3000, 100), "no such bend"),
        (4, (3000, 100), "no such bend"),
    ],
)
def test_a_knee_that_cannot_lie_there_is_refused(index, to, says):
    hook = ((3000, 0), (3000, 2000), (8000, 2000), (5000, 4000), (5000, 6000))

    with pytest.raises(InputRefused, match=says):
        bend.move_knee(HALL, [joint("J1", *hook)], "J1", index, to)


def test_a_knee_is_added_where_it_was_tapped_or_in_the_middle_of_a_stretch():
    joints = [joint("J1", (3000, 0), (3000, 6000))]

    (tapped,) = bend.add_knee(joints, "J1", (3100, 1500))
    (middle,) = bend.add_knee(joints, "J1")
    (last,) = bend.add_knee([tapped], "J1", stretch=1)

    assert tapped.path == ((3000, 0), (3000, 1500), (3000, 6000))
    assert middle.path == ((3000, 0), (3000, 3000), (3000, 6000))
    assert last.path == ((3000, 0), (3000, 1500), (3000, 3750), (3000, 6000))
    assert tapped.pinned


@pytest.mark.parametrize(("at", "stretch"), [((3000, 5), None), (None, 1), ((3000, 9000), None)])
def test_no_knee_is_added_on_an_end_or_a_stretch_that_is_not_there(at, stretch):
    with pytest.raises(InputRefused):
        bend.add_knee([joint("J1", (3000, 0), (3000, 6000))], "J1", at, stretch)


def test_a_knee_is_taken_away_and_the_joint_runs_straight_past_it():
    (left,) = bend.remove_knee(HALL, [joint("J1", *JOG)], "J1", 2)
    (straight,) = bend.remove_knee(HALL, [left], "J1", 1)

    assert left.path == ((3000, 0), (3000, 2000), (4000, 6000))
    assert straight.path == ((3000, 0), (4000, 6000))


def test_bent_joints_are_cut_and_carried_on_with_the_concrete():
    joints = (joint("J1", *JOG, pinned=False),)

    cut = refit(HALL, HALL.difference(box(3500, 4500, 4500, 5000)), joints)
    lower = refit(HALL, box(0, 0, 9000, 5000), joints)
    back = refit(box(0, 0, 9000, 5000), HALL, lower)

    assert sorted(j.path for j in cut) == [
        (*JOG[:3], (4000, 4500)),
        ((4000, 5000), (4000, 6000)),
    ]
    assert not any(j.pinned for j in cut)
    assert lower[0].path == (*JOG[:3], (4000, 5000))
    assert back[0].path == JOG


def changed(todo, plan, joints, name, at):
    """The joints after one of the things that can be done to a bent one."""
    match todo:
        case "add":
            return bend.add_knee(joints, name, at)
        case "move":
            return bend.move_knee(plan, bend.add_knee(joints, name), name, 1, at)
        case "remove":
            return bend.remove_knee(plan, joints, name, 1)
        case "slide":
            return edit.slide(plan, joints, name, (at[0] - plan.bounds[0], at[1] - plan.bounds[1]))
        case _:
            return ends.move_end(plan, joints, name, 1, at, 100)


@settings(max_examples=40)
@given(plan=orthogonal_plans(), data=st.data())
def test_whatever_is_bent_and_moved_ends_on_something_and_panels_tile_the_slab(plan, data):
    """On any plan: no free ends, nothing off the slab, and the panels' areas add up to the concrete."""
    x0, y0, x1, y1 = plan.bounds
    spot = st.tuples(st.floats(x0, x1), st.floats(y0, y1))
    joints = ()
    for _ in range(2):
        x, y = data.draw(spot)
        end = (x + 500, y) if data.draw(st.booleans()) else (x, y + 500)
        try:
            joints = edit.draw(plan, joints, (x, y), end)
        except InputRefused:
            continue
    whole = True
    for _ in range(3):
        if not joints:
            return
        name = data.draw(st.sampled_from([j.id for j in joints]))
        at = data.draw(spot)
        todo = data.draw(st.sampled_from(["add", "move", "remove", "slide", "end"]))
        try:
            joints = changed(todo, plan, joints, name, at)
        except InputRefused:
            continue

        lines = [line_of(j) for j in joints]
        assert all(plan.buffer(0.5).covers(line) for line in lines)
        assert sum(p.area for p in panels_of(plan, lines)) == pytest.approx(plan.area, rel=1e-6)
        # a joint that is cut back may leave another's end bare, which the rule on free ends then tells
        whole = whole and todo not in ("end", "remove")
        if whole:
            assert all(e.kind is not EndKind.FREE for e in joint_ends(plan, lines))


def test_a_bent_joint_is_as_long_after_it_moved_between_parallel_edges():
    (moved,) = edit.slide(HALL, [joint("J1", *JOG)], "J1", (1234.5, 0))

    assert math.isclose(line_of(moved).length, LineString(JOG).length, abs_tol=0.01)
