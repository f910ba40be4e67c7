"""A closed figure that may be the slab, and what speaks for it."""

import pytest
from shapely import Point, box

from drawn_curves import box_ring
from kerfline.files.drawing.candidates.candidate import Candidate, Sign, Source, on_ledge


def candidate(*signs, courts=()):
    ring = box_ring(0, 0, 9000, 6000)
    return Candidate(ring=ring, layers=("A",), source=Source.CLOSED, signs=signs, courts=courts)


def test_its_points_are_the_sum_of_its_signs():
    assert candidate().points == 0.0
    assert candidate(Sign(points=0.1), Sign(points=0.2), Sign(points=-1.0)).points == -0.7


def test_the_gravest_doubt_and_the_weightiest_reason_come_first():
    signs = [
        Sign(points=1.0, words="some"),
        Sign(points=3.0, words="much"),
        Sign(points=-1.0, words="a little"),
        Sign(points=-2.0, words="badly"),
        Sign(points=5.0),
        Sign(points=-5.0),
        Sign(points=0.0, words="nothing"),
    ]
    one = candidate(*signs)
    assert one.reasons == ("much", "some")
    assert one.doubts == ("badly", "a little")


def test_its_floor_is_what_courts_leave_and_its_number_stands_there():
    court = box_ring(1000, 500, 7000, 5000)
    one = candidate(courts=(court,))
    assert one.polygon.area == 54e6
    assert one.floor.area == 54e6 - 35e6
    assert one.floor.contains(Point(one.label))
    assert not court.polygon.contains(Point(one.label))


@pytest.mark.parametrize(("out", "ledge"), [(0, True), (200, True), (201, False), (-2, False)])
def test_an_edge_within_a_hands_breadth_around_walls_is_a_ledge(out, ledge):
    walls = box(0, 0, 9000, 6000)
    assert on_ledge(walls, box(-out, -out, 9000 + out, 6000 + out)) is ledge


@pytest.mark.parametrize(
    ("wide", "deep", "ledge"),
    [(1_900, 330, True), (2_000, 330, False), (900, 1_200, True), (900, 1_300, False)],
)
def test_a_ledge_goes_straight_on_across_a_small_recess(wide, deep, ledge):
    """Of 31 m around 57.7 m2 what is farther than 200 mm from walls is at most 1.55 m long and 0.577 m2."""
    walls = box(0, 0, 9000, 6000).difference(box(4000, 0, 4000 + wide, deep))
    assert on_ledge(walls, box(-120, -120, 9120, 6120)) is ledge
