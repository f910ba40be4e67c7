"""Points that a candidate line should pass through, in the chart's own measures."""

import pytest
from shapely import LineString, Polygon, box

from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.lines.marks import ASKED, BESIDE, BESIDE_WEIGHT, LANDING, marks
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine, Target
from kerfline.model.layout import Reason, WorkingLimits

LIMITS = WorkingLimits(span=3000.0, aspect=1.5, width=600.0, angle=60.0)
HALL = box(0, 0, 9000, 6000)
ELL = Polygon([(0, 0), (9000, 0), (9000, 3000), (4000, 3000), (4000, 6000), (0, 6000)])


def found(concrete=HALL, axis=0, jog=100.0, turn=0.0, **more):
    problem = Problem(concrete=concrete, limits=LIMITS, **more)
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
    holed = HALL - box(4000, 2000, 5000, 3000)
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
    problem = Problem(concrete=HALL, limits=LIMITS, walls=(wall,))
    (mark,) = marks(problem, SquareChart(), 0, 100.0)
    assert (mark.at, mark.ends, mark.room) == ((4000, 500), ((4000, 5000),), 57.0)
    assert marks(problem, SquareChart(), 1, 100.0) == []


def test_a_turned_chart_has_the_same_marks_turned():
    """At 90 degrees the first axis runs up: (x, y) is at (y, -x)."""
    ((at, weight, _),) = found(ELL, turn=90.0)
    ((_, plain, _),) = found(ELL)
    assert at == (3000.0, -4000.0)
    assert weight == pytest.approx(plain)


def test_a_line_through_a_corner_follows_an_edge_that_all_but_runs_along_it():
    """The notch's upright edge leans by 100 mm over 3 m: a straight line beside it would leave a sliver."""
    leaning = Polygon([(0, 0), (9000, 0), (9000, 3000), (4000, 3000), (4100, 6000), (0, 6000)])
    problem = Problem(concrete=leaning, limits=LIMITS)
    away = [m.ends for m in marks(problem, SquareChart(), 0, 100.0)]
    back = Polygon([(0, 0), (9000, 0), (9000, 3000), (4000, 3000), (3900, 6000), (0, 6000)])
    over = [m.ends for m in marks(Problem(concrete=back, limits=LIMITS), SquareChart(), 0, 100.0)]
    assert away == [((4100.0, 6000.0),)]
    assert over == [()]
