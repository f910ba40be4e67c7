"""Where joints may lie in a chart."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from shapely import LineString, Polygon, box

from kerfline.engine.lines.candidates import (
    ASKED,
    BESIDE,
    BESIDE_WEIGHT,
    LANDING,
    CandidateLine,
    _mirror,
    _thinned,
    candidate_lines,
    marks,
    straight,
)
from kerfline.engine.lines.charts import RoundChart, SquareChart
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine, Target
from kerfline.engine.steps import Steps
from kerfline.model.layout import Reason, WorkingLimits

LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)
CORNER = (2600.0, 2600.0)


def notched(lean: float) -> Polygon:
    """A square of 4.4 m with a notch of 1.8 m by 1.6 m at one corner, whose upright edge leans outward."""
    return Polygon([(0, 0), (4400, 0), (4400, 2600), CORNER, (2600 + lean, 4200), (0, 4200)])


@pytest.mark.parametrize("lean", [20.0, 60.0, 200.0, 580.0])
def test_a_line_through_a_corner_runs_straight_on_beside_a_leaning_edge(lean):
    piece = notched(lean)
    lines = candidate_lines(Problem(concrete=piece, limits=LIMITS), SquareChart(), 0)
    curves = [SquareChart().curve(line.through) for line in lines]
    through = [c for c in curves if c.distance(shapely.Point(CORNER)) < 1e-6]
    assert [c.intersection(piece).bounds[0::2] for c in through] == [(2600.0, 2600.0)]


HALL = shapely.box(0, 0, 9000, 6000)
EL = Polygon([(0, 0), (9000, 0), (9000, 3000), (2600, 3000), (2600, 6000), (0, 6000)])


def places(piece, axis=0, others=(), **more):
    """The middles of the candidate lines of a piece."""
    problem = Problem(concrete=piece, limits=LIMITS, **more)
    found = candidate_lines(problem, SquareChart(), axis, others)
    return [sum(p[axis] for p in line.through) / len(line.through) for line in found]


@pytest.mark.parametrize(("across", "margin"), [((0.0, 5000.0), 50.0), ((0.0, 900.0), 10.0)])
def test_a_straight_line_reaches_beyond_both_sides_by_a_hundredth_or_ten_mm(across, margin):
    low, high = across[0] - margin, across[1] + margin
    assert straight(700.0, 0, across) == ((700.0, low), (700.0, high))
    assert straight(700.0, 1, across) == ((low, 700.0), (high, 700.0))


@pytest.mark.parametrize("axis", [0, 1])
def test_a_bent_line_is_read_between_its_points(axis):
    points = [(100.0, 0.0), (100.0, 1000.0), (140.0, 2000.0)]
    line = CandidateLine(tuple(p if axis == 0 else p[::-1] for p in points), Reason.CORNER)
    at = line.position(axis, np.array([500.0, 1000.0, 1500.0, 2000.0]))
    assert at.tolist() == [100.0, 100.0, 120.0, 140.0]


def test_lines_that_stay_take_the_place_of_even_divisions():
    """On a symmetric hall of 9 m each has its image; 5520 is 20 mm off that of 3500 and gives way to it."""
    skew = Polygon([(0, 0), (9000, 0), (9000, 6000), (0, 6300)])
    assert places(skew, stay=((3500.0, 7000.0), ())) == [3500.0, 7000.0]
    assert places(HALL, stay=((3500.0, 5520.0), ())) == [3500.0, 5500.0]
    assert places(HALL, stay=((2000.0,), ()), more=((3500.0,), ())) == [
        2000.0,
        3500.0,
        5500.0,
        7000.0,
    ]


def test_lines_that_stay_leave_features_and_bays_within_the_span():
    """The corner of the L keeps its line, and the 6.4 m beyond it are still divided."""
    found = places(EL, stay=((), ()))
    assert 2600.0 in found
    assert max(b - a for a, b in pairwise([0.0, *found, 9000.0])) <= LIMITS.span


def test_of_further_lines_beside_those_that_stay_no_more_are_taken_than_even_divisions_would_be():
    """9 m have six even divisions at 4.5 m; four further lines come in any case."""
    skew = Polygon([(0, 0), (9000, 0), (9000, 6000), (0, 6300)])
    more = (tuple(1000.0 + 700.0 * n for n in range(9)), ())
    assert len(places(skew, stay=((4500.0,), ()), more=more)) == 6
    stay = (tuple(500.0 + 1000.0 * n for n in range(8)), ())
    assert len(places(skew, stay=stay, more=more)) == 8 + 4


def test_a_hall_is_divided_by_the_fewest_bays_and_one_more():
    """9 m at 4.5 m: halves and thirds; 6 m likewise."""
    assert places(HALL, 0) == pytest.approx([3000, 4500, 6000])
    assert places(HALL, 1) == pytest.approx([2000, 3000, 4000])


def test_the_axes_of_a_piece_are_treated_alike():
    turned = Polygon([(y, x) for x, y in EL.exterior.coords])
    for axis in (0, 1):
        assert places(turned, 1 - axis) == pytest.approx(places(EL, axis))
    assert places(EL)[0] < 2600.0
    assert any(at == pytest.approx(2600.0) for at in places(EL))


@pytest.mark.parametrize(("wish", "own"), [(4520.0, False), (4521.0, True), (4479.0, True)])
def test_a_further_place_is_left_out_within_20_mm_of_a_line(wish, own):
    found = places(HALL, more=((wish,), ()))
    assert (wish in found) is own
    assert len(found) == (4 if own else 3)


@pytest.mark.parametrize(
    ("wish", "own"), [(2620.0, False), (2580.0, False), (2621.0, True), (2579.0, True)]
)
def test_a_further_place_is_left_out_beside_the_line_through_a_corner_too(wish, own):
    assert (wish in places(EL, more=((wish,), ()))) is own


def test_a_further_place_is_put_on_a_whole_step():
    inches = (Steps(0.0, 25.4), Steps(0.0, 25.4))
    found = places(HALL, more=((1000.0,), ()), steps=inches)
    assert any(at == pytest.approx(39 * 25.4) for at in found)
    assert 1000.0 not in found


@pytest.mark.parametrize("size", [(4500, 3000), (4501, 3000), (31000, 3000), (70000, 5000)])
def test_no_two_neighbours_are_farther_apart_than_the_span(size):
    found = [0.0, *places(shapely.box(0, 0, *size)), float(size[0])]
    assert found == sorted(found)
    assert max(b - a for a, b in pairwise(found)) <= LIMITS.span + 0.5


def test_the_bays_of_a_corridor_follow_its_aspect_and_are_even():
    """13 m by 0.8 m: 1.5 x 0.95 x 0.8 = 1.14 m to a bay at most, 12 bays.

    The outermost is one with that of 13 bays, 1000 mm, which has a third of its weight.
    """
    found = places(shapely.box(0, 0, 13000, 800))
    inner = [13000 * n / 12 for n in range(2, 11)]
    assert found == pytest.approx([1062.5, *inner, 11937.5])


def test_the_weightiest_divisions_stay_where_room_is_short():
    """The same corridor, its top aslant: 2.5 lines to a span of 4.5 m are 7.2, that is 8.

    First come the pooled ones at both ends and at the thirds, which the span alone asks for; then from the left.
    """
    found = places(Polygon([(0, 0), (13000, 0), (13000, 900), (0, 700)]))
    twelfths = [13000 * n / 12 for n in (2, 3, 4, 5, 6, 8)]
    assert found == pytest.approx([1062.5, *twelfths, 11937.5])


def test_the_lines_of_an_even_piece_are_even():
    tee = shapely.box(0, 0, 12000, 3000) | shapely.box(4000, 3000, 8000, 9000)
    found = places(tee)
    assert found == pytest.approx([12000 - at for at in reversed(found)], abs=1e-6)
    assert {4000.0, 8000.0} <= {round(at, 6) for at in found}


def test_rows_between_lines_of_the_other_axis_are_divided_too():
    """A top that slopes from 8 m to 2 m: between 6 m and 7 m its free span is 2.5 m at the middle, and that is halved."""
    piece = Polygon([(0, 0), (8000, 0), (8000, 1000), (2000, 7000), (0, 7000)])
    others = [CandidateLine(straight(at, 1, (0.0, 8000.0)), Reason.SPAN) for at in (6000.0, 7000.0)]
    assert min(places(piece)) == pytest.approx(5000 / 3)
    assert min(places(piece, others=others)) == pytest.approx(1250.0)


@pytest.mark.parametrize(
    ("second", "kept"),
    [(1099.0, [1024.75]), (1100.0, [1000.0]), (1400.0, [1000.0]), (1401.0, [1000.0, 1401.0])],
)
def test_places_are_pooled_within_a_quarter_of_the_crowd_and_the_weaker_dropped_within_it(
    second, kept
):
    """At 1000 mm with weight 3 and another with weight 1, a crowd of 400: pooled they lie a quarter on."""
    assert _thinned([(1000.0, 3.0), (second, 1.0)], [], 400.0, None) == pytest.approx(kept)


def test_the_weightier_of_two_crowded_places_stays_and_yields_to_a_line_that_is_taken():
    wanted = [(1000.0, 1.0), (1300.0, 3.0)]
    assert _thinned(wanted, [], 400.0, None) == [1300.0]
    assert _thinned(wanted, [1700.0], 400.0, None) == [1000.0]
    assert _thinned(wanted, [1200.0], 400.0, None) == []


def test_pooled_places_are_put_on_a_whole_step():
    found = _thinned([(1000.0, 3.0), (1099.0, 1.0)], [], 400.0, Steps(0.0, 50.0))
    assert found == [1000.0]


MARKED = WorkingLimits(span=3000.0, aspect=1.5, width=600.0, angle=60.0)
MARKED_HALL = box(0, 0, 9000, 6000)
ELL = Polygon([(0, 0), (9000, 0), (9000, 3000), (4000, 3000), (4000, 6000), (0, 6000)])


def found(concrete=MARKED_HALL, axis=0, jog=100.0, turn=0.0, **more):
    problem = Problem(concrete=concrete, limits=MARKED, **more)
    return [
        (tuple(round(v, 1) for v in m.at), m.weight, m.reason)
        for m in marks(problem, SquareChart(turn), axis, jog)
    ]


def test_a_plain_hall_has_no_marks():
    assert found() == []


def test_a_corner_that_points_inward_weighs_its_depth():
    """The corner at (4, 3) m lies 3 x 5 / sqrt(34) m inside the hull's diagonal."""
    ((at, weight, reason),) = found(ELL)
    assert (at, reason) == ((4000.0, 3000.0), Reason.CORNER)
    assert weight == pytest.approx(15e6 / (5000**2 + 3000**2) ** 0.5)


@pytest.mark.parametrize(("jog", "count"), [(2500.0, 1), (2600.0, 0)])
def test_a_shallow_corner_gets_no_line(jog, count):
    assert len(found(ELL, jog=jog)) == count


def test_the_corners_of_an_opening_weigh_by_its_size():
    holed = MARKED_HALL - box(4000, 2000, 5000, 3000)
    assert [weight for _, weight, _ in found(holed)] == pytest.approx([1000.0] * 4)
    assert found(holed, jog=1001.0) == []


def test_targets_and_the_ends_of_a_neighbours_joints_are_marks():
    column = Target(at=(3000, 2000), reason=Reason.COLUMN, weight=76_200.0)
    pipe = Target(at=(5000, 1000), reason=Reason.PENETRATION, weight=0.0)
    assert found(targets=(column, pipe), landings=((9000.0, 1500.0),)) == [
        ((3000, 2000), 76_200, Reason.COLUMN),
        ((5000, 1000), 1000, Reason.PENETRATION),
        ((9000, 1500), LANDING, Reason.SPAN),
    ]


def test_beside_a_barred_area_a_joint_goes_round_and_a_forbidden_line_needs_none():
    keep_out = box(2000, 1000, 3000, 2000)
    assert found(barred=keep_out) == [
        ((2000 - BESIDE, 1000 - BESIDE), BESIDE_WEIGHT, Reason.SPAN),
        ((3000 + BESIDE, 2000 + BESIDE), BESIDE_WEIGHT, Reason.SPAN),
    ]
    assert found(barred=box(2000, 0, 2001, 6000)) == []


@pytest.mark.parametrize(("axis", "count"), [(0, 2), (1, 0)])
def test_the_ends_of_a_settled_joint_are_asked_for_on_its_own_axis(axis, count):
    joint = AskingLine(name="G1", path=LineString([(4000, 0), (4000, 6000)]), reason=Reason.PINNED)
    got = found(lines=(joint,), axis=axis)
    assert got == [((4000, y), ASKED, Reason.PINNED) for y in (0, 6000)][:count]


@pytest.mark.parametrize(("lean", "count"), [(0, 2), (250, 2), (550, 0)])
def test_a_settled_joint_may_lean_by_five_degrees(lean, count):
    """The tangent of 5 degrees is 0.0875: 525 mm over 6 m."""
    joint = AskingLine(name="G1", path=LineString([(4000, 0), (4000 + lean, 6000)]))
    assert len(found(lines=(joint,))) == count


def test_a_short_joint_draws_no_line_and_a_bend_is_a_mark():
    short = AskingLine(name="G1", path=LineString([(4000, 0), (4000, 299)]))
    assert found(lines=(short,)) == []
    bent = AskingLine(name="G2", path=LineString([(4000, 0), (4000, 3000), (9000, 4000)]))
    assert ((4000, 3000), LANDING, Reason.SPAN) in found(lines=(bent,))


def test_a_wall_whose_joint_is_chosen_is_one_mark_with_room_beside_it():
    wall = AskingLine(name="W1", path=LineString([(4000, 500), (4000, 5000)]), slack=57.0)
    problem = Problem(concrete=MARKED_HALL, limits=MARKED, walls=(wall,))
    (mark,) = marks(problem, SquareChart(), 0, 100.0)
    assert (mark.at, mark.ends, mark.room) == ((4000, 500), ((4000, 5000),), 57.0)
    assert marks(problem, SquareChart(), 1, 100.0) == []


def test_a_turned_chart_has_the_same_marks_turned():
    """At 90 degrees the first axis runs up: (x, y) is at (y, -x)."""
    ((at, weight, _),) = found(ELL, turn=90.0)
    ((_, plain, _),) = found(ELL)
    assert at == (3000.0, -4000.0)
    assert weight == pytest.approx(plain)


def mirror(taken=(), piece=HALL, chart=SquareChart()):  # noqa: B008
    return _mirror(Problem(concrete=piece, limits=LIMITS), chart, 0, taken)


def test_lines_are_mirrored_between_the_ends_of_a_piece():
    assert mirror() == (0.0, 9000.0)
    assert mirror([2000.0, 7030.0]) == (0.0, 9000.0)


def test_lines_stay_where_they_are_on_uneven_pieces_beside_uneven_lines_and_in_round_charts():
    assert mirror([2000.0, 7031.0]) is None
    assert mirror(piece=EL) is None
    assert mirror(chart=RoundChart((0.0, 0.0), 5000.0, 0.0)) is None
