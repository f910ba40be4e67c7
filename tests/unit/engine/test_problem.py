"""One piece of concrete and what bears on its joints; layouts of it and of its parts."""

import pytest
from shapely import LineString, box

from kerfline.engine.measure.shape import rectangle_shape
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.region import Cut
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=3000.0, aspect=1.5, width=600.0, angle=60.0)
FLOOR = box(0, 0, 6000, 3000)
MIDDLE = Cut(path=((3000, 0), (3000, 3000)))
WALL = AskingLine(name="W1", path=LineString([(3000, 0), (3000, 3000)]), slack=50.0)


def problem(**more):
    return Problem(concrete=FLOOR, limits=LIMITS, **more)


def layout(cost=1000.0, bound=900.0, cuts=()):
    return PieceLayout(panels=(FLOOR,), cuts=cuts, cost=cost, bound=bound)


@pytest.mark.parametrize(
    ("long", "stretch", "holds"),
    [(3000.0, 1.0, True), (3000.4, 1.0, True), (3000.6, 1.0, False), (3150.4, 1.05, True), (3150.6, 1.05, False)],
)  # fmt: skip
def test_a_panel_holds_up_to_the_span_and_half_a_millimetre(long, stretch, holds):
    given = problem(stretch=stretch)
    assert given.greatest == pytest.approx(3000 * stretch)
    assert given.holds(rectangle_shape(long, 2500.0)) is holds


def test_a_square_panel_is_cheaper_than_a_long_one():
    given = problem()
    prices = [given.price(rectangle_shape(long, 2000.0)) for long in (2000.0, 2500.0, 3000.0)]
    assert prices == sorted(prices)
    assert prices[0] < prices[-1]


@pytest.mark.parametrize(("x", "hidden"), [(3000, True), (3050.4, True), (3050.6, False)])
def test_a_wall_hides_places_within_its_slack(x, hidden):
    assert problem(walls=(WALL,)).hides((x, 1000.0)) is hidden
    assert problem().hides((x, 1000.0)) is False


def test_a_firmed_piece_has_no_choice_of_walls_but_the_joints_under_them():
    firm, under = problem(walls=(WALL,), under=(MIDDLE,)).firmed()
    assert (firm.walls, firm.under) == ((), ())
    assert under == (MIDDLE,)
    assert [line.path.coords[:] for line in firm.lines] == [[(3000, 0), (3000, 3000)]]


def test_settled_joints_count_in_cost_and_bound_by_their_length():
    found = layout(cuts=(MIDDLE,)).with_cuts([MIDDLE])
    assert (found.cost, found.bound) == (4000.0, 3900.0)
    assert found.cuts == (MIDDLE, MIDDLE)


def test_where_nothing_is_proven_settled_joints_prove_nothing():
    assert layout(bound=0.0).with_cuts([MIDDLE]).bound == 0.0


def test_the_layout_of_a_piece_is_the_sum_of_those_of_its_parts():
    whole = PieceLayout.joined([layout(), layout(cost=500.0, bound=400.0, cuts=(MIDDLE,))])
    assert (whole.cost, whole.bound) == (1500.0, 1300.0)
    assert len(whole.panels) == 2
    assert whole.cuts == (MIDDLE,)
    assert PieceLayout.joined([]) == PieceLayout(panels=(), cuts=(), cost=0, bound=0)


def test_a_shorter_layout_that_keeps_the_limits_scores_better():
    halves = PieceLayout(
        panels=(box(0, 0, 3000, 3000), box(3000, 0, 6000, 3000)), cuts=(MIDDLE,), cost=3000.0
    )
    thirds = PieceLayout(
        panels=tuple(box(x, 0, x + 2000, 3000) for x in (0, 2000, 4000)),
        cuts=tuple(Cut(path=((x, 0), (x, 3000))) for x in (2000, 4000)),
        cost=6000.0,
    )
    given = problem()
    assert given.score(halves, []) < given.score(thirds, [])


def test_a_piece_remembers_the_lines_on_which_it_was_searched_where_it_is_asked_to():
    plain, remembering = problem(), problem(tried=set())
    assert [plain.is_new("chart", 1), plain.is_new("chart", 1)] == [True, True]
    asked = [remembering.is_new("chart", n) for n in (1, 2, 1, 2, 3)]
    assert asked == [True, True, False, False, True]
