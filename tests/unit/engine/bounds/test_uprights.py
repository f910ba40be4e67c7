"""Level chords and the upright chords that cross them, by hand; all figures in mm."""

from itertools import pairwise

import numpy as np
import pytest
from shapely import Polygon

from kerfline.engine.bounds.uprights import LevelChord, Uprights, level_chords, uprights_on

BOX = ((0, 0), (10, 0), (10, 6), (0, 6))
ELL = ((0, 0), (8, 0), (8, 3), (3, 3), (3, 7), (0, 7))
YOKE = ((0, 0), (9, 0), (9, 5), (6, 5), (6, 3), (3, 3), (3, 5), (0, 5))
WEDGE = ((0, 0), (10, 0), (8, 5), (0, 5))
ROOF = ((0, 0), (10, 0), (10, 4), (0, 6))
KEEL = ((0, 0), (10, -2), (10, 6), (0, 6))

INF = float("inf")


def pieces(ring, *joints):
    return np.array([*pairwise((*ring, ring[0])), *joints], dtype=float)


def chords(ring, height, *joints):
    found = level_chords(pieces(ring, *joints), Polygon(ring), height)
    assert all(chord.height == height for chord in found)
    return [(chord.start, chord.end) for chord in found]


def uprights(ring, chord, *joints, more=()):
    return uprights_on(LevelChord(*chord), pieces(ring, *joints), np.array(more, dtype=float))


def test_a_level_chord_has_a_length_and_ends():
    chord = LevelChord(2.0, 1.0, 4.5)
    assert chord.length == 3.5
    assert chord.ends.tolist() == [[1.0, 2.0], [4.5, 2.0]]


@pytest.mark.parametrize(
    ("height", "start", "end", "beside"),
    [
        (4.0, 2.0, 3.0, True),
        (0.0, 2.0, 3.0, True),
        (5.0, 2.0, 3.0, False),
        (-1.0, 2.0, 3.0, False),
        (4.0, 4.4, 9.0, True),
        (4.0, 4.5, 9.0, False),
        (4.0, -3.0, 1.0, False),
        (4.0, -3.0, 1.1, True),
    ],
)
def test_chords_lie_beside_one_another_nearer_than_a_distance(height, start, end, beside):
    one, other = LevelChord(2.0, 1.0, 4.5), LevelChord(height, start, end)
    assert one.beside(other, 3.0) is beside
    assert other.beside(one, 3.0) is beside


@pytest.mark.parametrize(
    ("ring", "height", "found"),
    [
        (BOX, 1, [(0, 10)]),
        (ELL, 1, [(0, 8)]),
        (ELL, 5, [(0, 3)]),
        (YOKE, 1, [(0, 9)]),
        (YOKE, 4, [(0, 3), (6, 9)]),
        (WEDGE, 2.5, [(0, 9)]),
        (WEDGE, 1.25, [(0, 9.5)]),
        (BOX, 7, []),
        (BOX, -1, []),
    ],
)
def test_level_chords_run_from_edge_to_edge_on_concrete(ring, height, found):
    assert chords(ring, height) == found


def test_level_chords_end_at_joints_that_they_meet():
    assert chords(BOX, 1, ((4, 0), (4, 3))) == [(0, 4), (4, 10)]
    assert chords(BOX, 4, ((4, 0), (4, 3))) == [(0, 10)]
    assert chords(BOX, 2, ((6, 0), (2, 4))) == [(0, 4), (4, 10)]


def test_uprights_change_where_the_edge_does():
    found = uprights(ELL, (1, 0, 8))
    assert found.places.tolist() == [0, 3, 8]
    assert found.below.tolist() == [[0, 0], [0, 0]]
    assert found.above.tolist() == [[7, 7], [3, 3]]
    assert found.lengths.tolist() == [[7, 7], [3, 3]]
    assert (found.from_below.tolist(), found.from_above.tolist()) == ([-INF], [3])
    assert found.at_places.tolist() == [3]


def test_uprights_end_at_the_nearest_joint_over_and_under():
    """In a box of 10 x 6 a chord at 3: joints at 4 and 5 over it and at 1 and 2 under it, from 2 to 5."""
    levels = [((2, y), (5, y)) for y in (1, 2, 4, 5)]
    found = uprights(BOX, (3, 0, 10), *levels)
    assert found.places.tolist() == [0, 2, 5, 10]
    assert found.below.tolist() == [[0, 0], [2, 2], [0, 0]]
    assert found.above.tolist() == [[6, 6], [4, 4], [6, 6]]
    assert (found.from_below.tolist(), found.from_above.tolist()) == ([2, 2], [4, 4])
    assert found.at_places.tolist() == [2, 2]


def test_uprights_follow_an_edge_on_the_slant():
    over = uprights(ROOF, (1, 0, 10), more=[5])
    assert over.above.tolist() == [[6, 5], [5, 4]]
    assert over.at_places.tolist() == [5]
    under = uprights(KEEL, (1, 0, 10), more=[5])
    assert under.below.tolist() == [[0, -1], [-1, -2]]
    assert under.lengths.tolist() == [[6, 7], [7, 8]]
    assert under.at_places.tolist() == [7]


def test_the_end_of_an_upright_joint_is_in_the_way_at_its_own_place():
    """Joints from the lower edge to 2 and from the upper edge to 5, the chord at 3 between them."""
    found = uprights(BOX, (3, 0, 10), ((4, 0), (4, 2)), ((7, 6), (7, 5)))
    assert found.places.tolist() == [0, 4, 7, 10]
    assert found.lengths.tolist() == [[6, 6]] * 3
    assert (found.from_below.tolist(), found.from_above.tolist()) == ([2, -INF], [INF, 5])
    assert found.at_places.tolist() == [4, 5]


@pytest.mark.parametrize(("place", "shortest"), [(3.0, 5), (3.2, 5), (2.8, 6)])
def test_a_corner_within_a_touch_is_in_the_way(place, shortest):
    """The end of a joint at 3.5, half a millimetre from a place told besides, or more."""
    found = uprights(BOX, (3, 0, 10), ((3.5, 6), (3.5, 5)), more=[place])
    assert found.places.tolist() == [0, place, 3.5, 10]
    assert found.at_places.tolist() == [shortest, 5]


def test_places_at_the_ends_or_beyond_are_none():
    found = uprights(BOX, (3, 0, 10), more=[-1, 0.005, 0.02, 9.98, 9.995, 12])
    assert found.places.tolist() == [0, 0.02, 9.98, 10]


def test_there_is_never_less_than_nothing_at_a_place():
    """Uprights that shrink to a point from both sides, and by rounding beyond."""
    below = np.array([[0.0, 5.0], [5.0, 0.0]])
    above = np.array([[9.0, 4.0], [6.0, 9.0]])
    none = np.array([INF])
    found = Uprights(np.array([0.0, 4.0, 8.0]), below, above, -none, none)
    assert found.at_places.tolist() == [0]


@pytest.mark.parametrize(
    ("side", "value", "shortest"),
    [
        (("below", 0, 1), 2, 6),
        (("below", 1, 0), 3, 5),
        (("above", 0, 1), 6, 6),
        (("above", 1, 0), 5, 5),
        (("below", 0, 0), 3, 8),
        (("above", 1, 1), 3, 8),
    ],
)
def test_the_shortest_at_a_place_is_what_both_sides_leave(side, value, shortest):
    """Uprights from 0 to 8 but for one end of a stretch; those far from the place do not count."""
    ends = {"below": np.zeros((2, 2)), "above": np.full((2, 2), 8.0)}
    ends[side[0]][side[1:]] = value
    none = np.array([INF])
    found = Uprights(np.array([0.0, 4.0, 8.0]), **ends, from_below=-none, from_above=none)
    assert found.at_places.tolist() == [shortest]


@pytest.mark.parametrize(
    ("chord", "crossed"),
    [
        ((2, 0, 8), [True, True]),
        ((5, 0, 3), [True, False]),
        ((3, 0, 8), [True, False]),
        ((7, 0, 8), [False, False]),
        ((0, 0, 8), [False, False]),
        ((2, 3, 8), [False, True]),
        ((2, 0, 3), [True, False]),
        ((2, 2, 4), [True, True]),
    ],
)
def test_uprights_cross_another_chord_that_lies_between_their_ends(chord, crossed):
    assert uprights(ELL, (1, 0, 8)).crossing(LevelChord(*chord)).tolist() == crossed


def test_some_uprights_of_a_stretch_on_the_slant_are_enough():
    found = uprights(ROOF, (1, 0, 10))
    assert found.crossing(LevelChord(5.5, 0, 10)).tolist() == [True]
    low = uprights(KEEL, (1, 0, 10))
    assert low.crossing(LevelChord(-1.5, 0, 10)).tolist() == [True]
