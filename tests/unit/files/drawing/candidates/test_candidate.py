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
