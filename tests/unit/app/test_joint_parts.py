"""Joints renewed: their names, their ends, their place in the list."""

import pytest

from drawn_joints import JOG, joint
from kerfline.app.joint_parts import (
    find,
    in_place,
    inner_of,
    new_name,
    renamed,
    tip_of,
    with_end,
    without_end,
)
from kerfline.app.working import BY_HAND
from kerfline.errors import InputRefused
from kerfline.model.layout import Reason


def test_names_go_on_after_the_highest():
    assert new_name({"J2", "J10", "G3", "Jx"}) == "J11"


def test_the_first_name_is_j1_and_signs_that_look_like_digits_count_for_nothing():
    assert new_name(set()) == "J1"
    assert new_name({"J²", "J", "Q7"}) == "J1"


def test_the_longest_piece_keeps_the_name_and_the_others_take_new_ones():
    whole = joint("J1", (0, 0), (9000, 0))
    pieces = [((0, 0), (1000, 0)), ((2000, 0), (5000, 0)), ((6000, 0), (9000, 0))]
    parts = renamed(whole, pieces, [whole, joint("J4", (0, 1), (1, 1))])
    assert [p.id for p in parts] == ["J5", "J1", "J6"], "of two as long the first"
    assert [p.path for p in parts] == pieces
    assert {(p.pinned, p.reason, p.note) for p in parts} == {(True, Reason.PINNED, BY_HAND)}


def test_changed_joints_stand_in_their_old_place():
    joints = [joint(f"J{n}", (0, n), (9, n)) for n in range(3)]
    changed = {"J0": [], "J1": [joint("J1", (1, 1), (2, 2)), joint("J7", (3, 3), (4, 4))]}
    assert [j.id for j in in_place(joints, changed)] == ["J1", "J7", "J2"]


def test_an_end_moves_and_the_knees_stay():
    bent = joint("J1", *JOG)
    assert with_end(bent, 0, (1, 1)).path == ((1, 1), *JOG[1:])
    assert with_end(bent, 1, (1, 1)).path == (*JOG[:-1], (1, 1))
    assert (tip_of(bent, 0), tip_of(bent, 1)) == (JOG[0], JOG[-1])
    assert (inner_of(bent, 0), inner_of(bent, 1)) == (JOG[1], JOG[-2])


def test_a_bent_joint_may_lose_a_stretch_and_a_straight_one_may_not():
    assert without_end(joint("J1", *JOG), 0).path == JOG[1:]
    assert without_end(joint("J1", *JOG), 1).path == JOG[:-1]
    assert without_end(joint("J1", *JOG[:2]), 1) is None


def test_a_name_that_is_not_there_is_refused():
    joints = [joint("J1", *JOG)]
    assert find(joints, "J1") is joints[0]
    with pytest.raises(InputRefused, match="J2: there is no such joint"):
        find(joints, "J2")
