"""Ends of joints, moved and stepped to what they may end on."""

import pytest

from drawn_joints import HALL, JOG, joint, path_of
from kerfline.app import joint_ends as ends
from kerfline.errors import InputRefused


def test_a_straight_joints_end_goes_to_the_stop_nearest_to_the_pointer():
    joints = [
        joint("J1", (0, 2000), (9000, 2000)),
        joint("J2", (3000, 0), (3000, 6000)),
        joint("J3", (6000, 0), (6000, 6000)),
    ]

    moved = ends.move_end(HALL, joints, "J1", 1, (6400, 100), 10)

    assert path_of(moved, "J1") == ((0, 2000), (6000, 2000))


def test_a_bent_joints_end_keeps_its_line_near_it_and_else_goes_along_the_edge():
    near = ends.move_end(HALL, [joint("J1", *JOG)], "J1", 1, (4080, 6020), 150)
    far = ends.move_end(HALL, [joint("J1", *JOG)], "J1", 1, (4800, 5900), 150)

    assert near[0].path == JOG
    assert far[0].path == (*JOG[:3], (4800, 6000))


def test_an_end_steps_to_the_next_stop_or_along_its_edge():
    joints = [joint("J1", *JOG), joint("J2", (0, 5000), (9000, 5000))]

    shorter = ends.step_end(HALL, joints, "J1", 1, (0, -25))
    longer = ends.step_end(HALL, shorter, "J1", 1, (0, 25))
    along = ends.step_end(HALL, joints, "J1", 1, (25, 0))

    assert path_of(shorter, "J1")[-1] == (4000, 5000)
    assert path_of(longer, "J1") == JOG
    assert path_of(along, "J1")[-1] == (4025, 6000)
    with pytest.raises(InputRefused, match="nothing further"):
        ends.step_end(HALL, joints, "J1", 1, (0, 25))
    with pytest.raises(InputRefused, match="add a bend"):
        ends.step_end(HALL, joints, "J2", 1, (0, 25))


def test_off_the_end_of_its_stretch_a_joint_keeps_what_it_can_end_on():
    """A pointer behind the joint's beginning asks for the first stop ahead of it."""
    joints = [joint("J1", (0, 2000), (9000, 2000)), joint("J2", (3000, 0), (3000, 6000))]
    moved = ends.move_end(HALL, joints, "J1", 1, (-5000, 2000))
    assert path_of(moved, "J1") == ((0, 2000), (3000, 2000))


def test_the_first_end_moves_as_the_last_does_and_the_joint_is_then_the_users_own():
    joints = [joint("J1", (0, 2000), (9000, 2000)), joint("J2", (3000, 0), (3000, 6000))]
    moved = ends.move_end(HALL, joints, "J1", 0, (2500, 2000))
    assert path_of(moved, "J1") == ((3000, 2000), (9000, 2000))
    assert next(j for j in moved if j.id == "J1").pinned


def test_a_joint_that_is_not_there_is_refused():
    with pytest.raises(InputRefused, match="J9: there is no such joint"):
        ends.move_end(HALL, [joint("J1", *JOG)], "J9", 0, (0, 0))
