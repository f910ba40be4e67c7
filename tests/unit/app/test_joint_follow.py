"""Joints that ended on one that moves or goes."""

import pytest

from drawn_joints import HALL, joint
from kerfline.app.joint_follow import follow, met

BEFORE = joint("J1", (3000, 0), (3000, 6000))
AFTER = joint("J1", (4000, 0), (4000, 6000))
LEFT = joint("J2", (0, 2000), (3000, 2000))
RIGHT = joint("J3", (3000, 4000), (9000, 4000))
ACROSS = joint("J4", (0, 5000), (9000, 5000))


def paths(found):
    return {name: [j.path for j in joints] for name, joints in found.items()}


def test_joints_are_carried_on_and_cut_back_to_the_line_and_others_left():
    assert paths(follow(HALL, [LEFT, RIGHT, ACROSS], BEFORE, [AFTER])) == {
        "J2": [((0, 2000), (4000, 2000))],
        "J3": [((4000, 4000), (9000, 4000))],
    }


def test_a_joint_that_lost_what_it_ended_on_goes_on_to_the_next_joint_or_edge():
    other = joint("J5", (6000, 0), (6000, 3000))
    assert paths(follow(HALL, [LEFT, RIGHT, other], BEFORE, [])) == {
        "J2": [((0, 2000), (6000, 2000))],
        "J3": [((0, 4000), (9000, 4000))],
    }


def test_a_joint_that_is_passed_over_goes_and_a_bent_one_loses_its_last_stretch():
    short = joint("J6", (2500, 1000), (3000, 1000))
    bent = joint("J7", (2000, 0), (2000, 3000), (3000, 3000))
    gone = joint("J1", (1000, 0), (1000, 6000))
    found = paths(follow(HALL, [short, bent], BEFORE, [gone]))
    assert found["J6"] == []
    assert found["J7"] == [((2000, 0), (2000, 6000))]


def test_a_joint_with_both_ends_on_the_moved_one_does_not_follow():
    bow = joint("J8", (3000, 1000), (4000, 2000), (3000, 3000))
    assert follow(HALL, [bow], BEFORE, [AFTER]) == {}


@pytest.mark.parametrize(("off", "found"), [(0.0, ["J2", "J4"]), (3.0, ["J4"])])
def test_joints_that_pass_a_point_or_end_there_meet_it(off, found):
    crossing = joint("J4", (3000, 1000), (3000, 5000))
    assert [j.id for j in met([LEFT, RIGHT, crossing], (3000, 2000 + off))] == found
