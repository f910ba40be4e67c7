"""The best candidate is taken where it is clearly ahead, and nothing is taken where it is not."""

import pytest
from shapely import box

from kerfline.files.drawing.candidates.candidate import Candidate, Sign, Source
from kerfline.files.drawing.candidates.decide import chosen_at, decide, side_by_side
from kerfline.geometry.ring import Ring

M = 1000.0


def candidate(bounds, points, *, layer="1", source=Source.CLOSED, around=False, alike=False):
    """A rectangle in metres that so many points speak for."""
    ring = Ring.of(box(*(c * M for c in bounds)))
    signs = (Sign(points=points), *([Sign(points=0.0, around=True)] if around else []))
    return Candidate(ring=ring, layers=(layer,), source=source, signs=signs, alike=alike)


HOUSE = (0, 0, 12, 8)
BESIDE = (20, 0, 30, 8)


def test_the_best_is_taken_where_it_is_clearly_ahead():
    decision = decide([candidate((1, 1, 5, 5), 0.0), candidate(HOUSE, 4.0)])
    assert decision.slab
    assert decision.slab.polygon.area == pytest.approx(96 * M * M)
    assert [c.number for c in decision.candidates] == [1, 2]
    assert decision.slab.number == 1
    assert not decision.why


@pytest.mark.parametrize(("points", "taken"), [(1.49, False), (1.5, True)])
def test_a_slab_needs_enough_points(points, taken):
    decision = decide([candidate(HOUSE, points)])
    assert bool(decision.slab) is taken
    assert taken or "nothing says plainly" in decision.why


@pytest.mark.parametrize(("behind", "taken"), [(1.49, False), (1.5, True)])
def test_it_must_be_ahead_of_every_other(behind, taken):
    decision = decide([candidate(HOUSE, 4.0), candidate((0, 0, 12, 6), 4.0 - behind)])
    assert bool(decision.slab) is taken
    assert taken or "more than one slab" in decision.why


def test_two_slabs_side_by_side_are_asked_about():
    decision = decide([candidate(HOUSE, 5.0), candidate(BESIDE, 2.0)])
    assert decision.slab is None
    assert "side by side" in decision.why
    assert len(side_by_side(decision.candidates)) == 2


@pytest.mark.parametrize(
    ("points", "around", "words"),
    [
        ((0.9, 0.8), False, "side by side"),
        ((0.9, 0.0), False, "nothing says plainly"),
        ((0.9, 0.8), True, "nothing says plainly"),
    ],
)
def test_plans_alike_side_by_side_that_little_speaks_for_are_told_as_such(points, around, words):
    first, second = points
    best = candidate(HOUSE, first, around=around)
    assert words in decide([best, candidate(BESIDE, second)]).why


def test_a_pad_beside_the_slab_is_said_and_not_asked_about():
    decision = decide([candidate(HOUSE, 5.0), candidate((14, 0, 17, 3), 4.0)])
    assert decision.slab
    assert [c.polygon.bounds[0] for c in decision.others] == [14 * M]


@pytest.mark.parametrize(("side", "asked"), [(6.3, False), (6.4, True)])
def test_beside_a_large_hall_a_building_of_its_own_is_asked_about_too(side, asked):
    """40 square metres are a garage, however little of a hall's area they are."""
    hall, other = candidate((0, 0, 60, 40), 6.0), candidate((70, 0, 70 + side, side), 5.0)
    assert (decide([hall, other]).slab is None) is asked


def test_a_figure_drawn_otherwise_beside_the_slab_needs_points_of_its_own():
    weak = candidate(BESIDE, 1.0, layer="2")
    assert decide([candidate(HOUSE, 5.0), weak]).slab
    assert not decide([candidate(HOUSE, 5.0), candidate(BESIDE, 1.0, layer="1")]).slab


def test_a_line_not_far_around_the_walls_is_asked_about():
    walls = candidate(HOUSE, 6.0, source=Source.WALLS)
    near, far = (-1, -1, 13, 9), (-6, -6, 20, 16)
    assert decide([walls, candidate(near, -1.0, layer="2")]).slab is None
    assert decide([walls, candidate(far, -1.0, layer="2")]).slab


def test_a_ledge_around_the_walls_is_the_slab():
    walls = candidate((0, 0, 12, 8), 4.0, source=Source.WALLS)
    ledge = candidate((-0.1, -0.1, 12.1, 8.1), 4.5)
    decision = decide([walls, ledge])
    assert decision.slab
    assert decision.slab.source is Source.CLOSED


@pytest.mark.parametrize(("layer", "taken"), [("1", False), ("S-SLAB-EDGE", True)])
def test_a_line_around_a_building_is_the_slab_by_its_name_only(layer, taken):
    decision = decide([candidate(HOUSE, 6.0, layer=layer, around=True)])
    assert bool(decision.slab) is taken


def test_two_ways_around_the_same_walls_are_asked_about():
    one = candidate(HOUSE, 5.0, source=Source.WALLS, alike=True)
    other = candidate((0, 0, 12, 7.5), 4.9, source=Source.WALLS, alike=True)
    assert decide([one, other]).slab is None
    parts = candidate((0, 0, 12, 7.5), 4.9, source=Source.WALLS)
    assert decide([candidate(HOUSE, 5.0, source=Source.WALLS), parts]).slab


def test_only_what_is_worth_it_is_listed_and_no_more_than_nine():
    many = [candidate((n, 0, n + 5, 5 + n), n / 10) for n in range(14)]
    decision = decide([*many, candidate(HOUSE, -3.0), candidate(HOUSE, -20.0)])
    assert [c.number for c in decision.candidates] == list(range(1, 10))
    assert decide([candidate(HOUSE, -3.0)]).candidates == ()
    assert "nothing that is drawn closes" in decide([]).why


def test_the_candidate_around_a_point():
    decision = decide([candidate(HOUSE, 5.0), candidate(BESIDE, 2.0)])
    found = chosen_at(decision.candidates, (25 * M, 4 * M))
    assert found
    assert found.polygon.bounds[0] == 20 * M
    assert chosen_at(decision.candidates, (16 * M, 4 * M)) is None
