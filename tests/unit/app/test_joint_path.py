"""Bent joints as lines: their knees, their stretches, their parts in concrete."""

import math

import pytest
from shapely.geometry import box

from drawn_joints import HALL, JOG
from kerfline.app.joint_path import knees_of, length_of, longest_stretch, within
from kerfline.geometry.ring import flatten_arc


def test_the_points_of_a_flattened_arc_are_no_knees():
    arc = tuple(flatten_arc((0.0, 0.0), (4000.0, 0.0), 0.4))

    assert len(arc) > 9
    assert knees_of(arc) == []
    assert knees_of((*arc, (4500.0, 2000.0))) == [len(arc) - 1]
    assert knees_of(JOG) == [1, 2]
    assert knees_of(((0, 0), (1000, 0), (2000, 0))) == [1]
    assert knees_of(JOG[:2]) == []
    assert longest_stretch(JOG) == 1


def test_a_path_is_as_long_as_its_stretches():
    assert length_of(((0, 0), (300, 400), (300, 1000))) == pytest.approx(1100)
    assert length_of(((5, 5),)) == 0


def test_the_first_of_two_longest_stretches_is_taken():
    assert longest_stretch(((0, 0), (1000, 0), (1000, 1000))) == 0
    assert longest_stretch(((0, 0), (1000, 0), (1000, 1001))) == 1


def test_two_small_turns_are_knees_and_three_the_same_way_are_a_curve():
    """Chords turn by no more than 5 degrees each where an arc is flattened."""
    turned = [(0.0, 0.0)]
    for n in range(5):
        x, y = turned[-1]
        turn = math.radians(4.0 * n)
        turned.append((x + 500 * math.cos(turn), y + 500 * math.sin(turn)))
    assert knees_of(turned) == []
    assert knees_of(turned[:4]) == [1, 2]


def test_a_bent_line_is_cut_to_the_concrete_in_order_along_it():
    pitted = HALL.difference(box(2500, 500, 3500, 1500))
    assert within(HALL, JOG) == [JOG]
    assert within(pitted, JOG) == [((3000, 0), (3000, 500)), ((3000, 1500), *JOG[1:])]
    assert within(pitted, JOG[::-1]) == [
        (*JOG[:0:-1], (3000, 1500)),
        ((3000, 500), (3000, 0)),
    ]
    assert within(HALL, ((0, -9), (9000, -9))) == []


def test_a_curve_that_turns_over_has_its_knee_where_it_does():
    """Three small turns to the left and two to the right: an arc, and two knees."""
    headings = [0, 4, 8, 12, 8, 4]
    path = [(0.0, 0.0)]
    for heading in headings:
        x, y = path[-1]
        turn = math.radians(heading)
        path.append((x + 500 * math.cos(turn), y + 500 * math.sin(turn)))
    assert knees_of(path) == [4, 5]
