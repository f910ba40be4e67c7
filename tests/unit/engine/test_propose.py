"""The ways to lay out a piece, tried while there is effort, and the best kept."""

from dataclasses import replace

import pytest
from shapely import LineString, Point, Polygon, box

from kerfline.engine import propose
from kerfline.engine.bending import places_in_use
from kerfline.engine.effort import Effort
from kerfline.engine.lines.charts import RoundChart, SquareChart
from kerfline.engine.measure.score import Score
from kerfline.engine.partition.on_chart import charted
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.propose import (
    STRANGE,
    WAYS,
    Proposal,
    Task,
    along_charts,
    bent_at_ends,
    bent_before,
    beside_poor_bends,
    beside_poor_panels,
    best_layout,
    on_bent_lines,
)
from kerfline.engine.regions.region import Cut
from kerfline.geometry.span import span_of
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=3000.0, aspect=1.5, width=600.0, angle=60.0)


def problem(concrete, seconds=5.0):
    return Problem(concrete=concrete, limits=LIMITS, effort=Effort(seconds))


HALL = box(0, 0, 9000, 6000)
SKEW = Polygon([(0, 0), (9000, 0), (12_000, 6000), (0, 6000)])


def task(concrete=HALL, **more):
    return Task(problem=problem(concrete, **more), inside=())


@pytest.mark.parametrize("concrete", [HALL, SKEW, Point(0, 0).buffer(4000, quad_segs=16)])
def test_the_best_layout_tiles_the_piece_within_the_span(concrete):
    found = best_layout(problem(concrete), [])
    assert sum(p.area for p in found.panels) == pytest.approx(concrete.area, rel=1e-6)
    assert max(span_of(p) for p in found.panels) <= 3000.3


def test_without_effort_one_layout_is_carried_to_its_end():
    found = best_layout(problem(SKEW, seconds=0.0), [])
    assert found is not None
    assert sum(p.area for p in found.panels) == pytest.approx(SKEW.area)


def test_with_effort_it_is_no_worse_than_the_first_proposal():
    first = next(along_charts(task(SKEW), None))
    best = best_layout(problem(SKEW), [])
    score = problem(SKEW).score
    assert not score(first.pieces, []) < score(best, [])


def test_where_no_chart_gives_a_layout_there_is_none(monkeypatch):
    monkeypatch.setattr(propose, "charted", lambda *_: None)
    assert best_layout(problem(HALL), []) is None


def test_a_proposal_on_a_turned_chart_must_be_cheaper_by_its_strangeness():
    own = task()
    pieces = charted(own.problem, SquareChart(), [])
    straight, turned = (own.proposal(SquareChart(t), pieces).score for t in (0.0, 5.0))
    assert straight < turned
    assert turned == straight.with_cost(STRANGE)


def test_further_ways_propose_nothing_without_a_first():
    for way in WAYS[1:]:
        assert list(way(task(), None)) == []


def best_on(concrete):
    own = task(concrete)
    return own, next(along_charts(own, None))


def test_a_hall_without_faults_is_not_mended_and_not_bent():
    own, best = best_on(HALL)
    assert not best.score.faults
    assert list(beside_poor_panels(own, best)) == []
    assert list(bent_before(own, best)) == []
    (same,) = bent_at_ends(own, best)
    assert {c.path for c in same.pieces.cuts} == {c.path for c in best.pieces.cuts}


def test_joints_that_meet_a_slanted_side_too_flat_are_bent_beforehand():
    """A side at 45 degrees: straight joints come in at 45, bent ones at 60 or more."""
    steep = Polygon([(0, 0), (9000, 0), (15_000, 6000), (0, 6000)])
    own, best = best_on(steep)
    found = list(bent_before(own, best))
    assert found
    assert any(len(c.path) > 2 for p in found for c in p.pieces.cuts)
    assert min(p.score for p in found) < best.score


def test_a_ring_has_a_joint_where_it_is_counted_from():
    ring = Point(0, 0).buffer(5000, quad_segs=32) - Point(0, 0).buffer(3500, quad_segs=32)
    found = best_layout(problem(ring), [])
    rays = [c for c in found.cuts if LineString(c.path).length == pytest.approx(1500, abs=20)]
    assert len(rays) >= 10
    assert sum(p.area for p in found.panels) == pytest.approx(ring.area, rel=1e-6)


def test_a_round_chart_is_not_strange():
    own = task()
    pieces = charted(own.problem, SquareChart(), [])
    chart = RoundChart(centre=(0.0, 0.0), radius=5000.0, seam=0.0)
    assert own.proposal(chart, pieces).score == own.proposal(SquareChart(), pieces).score


def test_a_proposal_remembers_the_piece_as_it_was_looked_at():
    own = task()
    pieces = charted(own.problem, SquareChart(), [])
    more = replace(own.problem, more=((1000.0,), ()))
    assert own.proposal(SquareChart(), pieces, more).problem is more
    assert own.proposal(SquareChart(), pieces).problem is own.problem


PLAIN = PieceLayout(panels=(HALL,), cuts=(), cost=0.0)


def offered(given, cost):
    """A layout of some cost, and nothing else to it."""
    pieces = replace(PLAIN, cost=float(cost))
    return Proposal(chart=SquareChart(), pieces=pieces, score=Score(0, 0, cost), problem=given)


def ways(monkeypatch, given, *offers, spent=0.0):
    """Ways that propose layouts of given costs, each for so much effort; and what they were asked."""
    asked = []

    def way_of(number, costs):
        def way(task, best):
            for cost in costs:
                given.effort.left -= spent
                asked.append((number, cost, best.score.cost if best else None))
                yield offered(given, cost)

        return way

    monkeypatch.setattr(propose, "WAYS", tuple(way_of(*each) for each in enumerate(offers)))
    return asked


def test_each_way_is_told_the_best_so_far_and_the_least_of_all_is_kept(monkeypatch):
    given = problem(HALL)
    asked = ways(monkeypatch, given, [9, 7, 8], [7, 6], [6, 5])
    assert best_layout(given, []).cost == 5.0
    assert asked == [
        (0, 9, None),
        (0, 7, None),
        (0, 8, None),
        (1, 7, 7),
        (1, 6, 7),
        (2, 6, 6),
        (2, 5, 6),
    ]


def test_of_proposals_that_are_equal_the_first_is_kept(monkeypatch):
    given = problem(HALL)
    ways(monkeypatch, given, [5], [])
    first = offered(given, 5)
    later = replace(first, pieces=replace(PLAIN, cost=4.0))
    monkeypatch.setattr(propose, "WAYS", (lambda *_: iter([first]), lambda *_: iter([later])))
    assert best_layout(given, []) is first.pieces


def test_without_effort_each_way_still_makes_one_proposal_while_there_is_patience(monkeypatch):
    given = replace(problem(HALL), effort=Effort(0.0, patience=10.0))
    asked = ways(monkeypatch, given, [9, 8], [7, 6], [5, 4])
    assert best_layout(given, []).cost == 5.0
    assert [cost for _, cost, _ in asked] == [9, 7, 5]


@pytest.mark.parametrize(
    ("patience", "costs"), [(0.0, [9]), (1.0, [9]), (1.5, [9, 7]), (2.5, [9, 7, 5])]
)
def test_ways_go_on_as_long_as_the_patience_lasts(monkeypatch, patience, costs):
    """Each proposal takes a second, and there is none left to begin with."""
    given = replace(problem(HALL), effort=Effort(0.0, patience=patience))
    asked = ways(monkeypatch, given, [9, 8], [7, 6], [5, 4], spent=1.0)
    assert best_layout(given, []).cost == costs[-1]
    assert [cost for _, cost, _ in asked] == costs


def with_panels(panels, cuts=(), chart=None):
    own = task()
    pieces = PieceLayout(panels=tuple(panels), cuts=tuple(cuts), cost=0.0)
    return own, own.proposal(chart or SquareChart(), pieces)


def test_lines_that_might_mend_halve_and_third_a_panel_that_is_too_long():
    """A strip of 9 x 2 m at an aspect of 1.5: three bays of 3 m, or four of 2.25 m."""
    strip = box(0, 0, 9000, 2000)
    own, best = with_panels([strip])
    first, second = propose._mending(own.problem, best)
    assert first == pytest.approx((2250.0, 3000.0, 4500.0, 6000.0, 6750.0))
    assert second == ()


def test_lines_may_mend_panels_that_are_warned_of_too_and_broken_ones_come_first():
    """A bay of 2.8 x 2 m at an advised aspect of 1.25: halved, cut in three, and halved with its neighbour."""
    advised = replace(LIMITS, aspect=1.25)
    own, best = with_panels([box(0, 0, 2800, 2000), box(2800, 0, 5000, 2000)])
    lenient = replace(own.problem, advised=LIMITS)
    strict = replace(own.problem, advised=advised)
    assert propose._mending(lenient, best) == ((), ())
    first, second = propose._mending(strict, best)
    assert first == pytest.approx((2800 / 3, 1400.0, 5600 / 3, 2500.0), abs=0.1)
    assert second == ()
    own, best = with_panels([box(0, 0, 2800, 2000), box(0, 2000, 9000, 4000)])
    broken = propose._mending(replace(own.problem, advised=LIMITS), best)
    both = propose._mending(replace(own.problem, advised=advised), best)
    assert both[0][: len(broken[0])] == broken[0]
    assert len(both[0]) > len(broken[0])


def test_the_lines_in_use_are_those_along_the_axes():
    """A joint that bends at its end counts where it runs straight; one shorter than a row is none."""
    paths = [
        ((3000.0, 0.0), (3000.0, 5000.0), (3300.0, 6000.0)),
        ((0.0, 2000.0), (9000.0, 2000.0)),
        ((4000.0, 2000.0), (4000.0, 2250.0)),
    ]
    _, best = with_panels([HALL], cuts=[Cut(path=p) for p in paths])
    assert propose._runs(best) == ((3000.0,), (2000.0,))


def found_again(monkeypatch, *costs):
    """The costs of what is proposed beside poor panels where one search after another gives a layout of a cost."""
    _, best = with_panels([box(0, 0, 9000, 2000)])
    answers = iter(costs)
    asked = []

    def again(_, problem, like):
        asked.append((problem.stay, problem.more))
        cost = next(answers)
        return None if cost is None else replace(like, score=Score(0, 0, cost))

    monkeypatch.setattr(propose, "_again", again)
    own = task()
    given = replace(best, score=Score(0, 0, 1000))
    return [p.score.cost for p in beside_poor_panels(own, given)], asked


@pytest.mark.parametrize(
    ("costs", "proposed"),
    [
        ([900, 800, 795], [900, 800, 795]),
        ([995], [995]),
        ([1100], [1100]),
        ([900, None], [900]),
        ([None], []),
    ],
)
def test_it_is_searched_again_as_long_as_that_betters_the_layout_by_a_hundredth(
    monkeypatch, costs, proposed
):
    found, asked = found_again(monkeypatch, *costs)
    assert found == proposed
    assert len(asked) == len(costs)
    assert all(stay == ((), ()) and any(more) for stay, more in asked)


def test_a_layout_bent_before_is_searched_again_with_its_bends_and_others_are_not():
    steep = Polygon([(0, 0), (9000, 0), (15_000, 6000), (0, 6000)])
    own, plain = best_on(steep)
    assert list(beside_poor_bends(own, plain)) == []
    bent_one = next(bent_before(own, plain))
    assert bent_one.bends
    found = list(beside_poor_bends(own, bent_one))
    assert found
    assert all(p.bends for p in found)
    assert any(len(c.path) > 2 for p in found for c in p.pieces.cuts)
    assert min(p.score for p in found) < bent_one.score


def test_a_layout_bent_before_is_searched_again_on_the_very_lines_that_were_bent(monkeypatch):
    steep = Polygon([(0, 0), (9000, 0), (15_000, 6000), (0, 6000)])
    own, plain = best_on(steep)
    assert list(on_bent_lines(own, plain)) == []
    bent_one = next(bent_before(own, plain))
    asked = []
    monkeypatch.setattr(propose, "_again", lambda _, problem, __: asked.append(problem.stay))
    assert list(on_bent_lines(own, bent_one)) == []
    cuts = bent_one.pieces.cuts
    assert asked == [places_in_use(bent_one.problem, bent_one.chart, own.inside, cuts)]
    assert all(asked[0])


def test_lines_are_bent_on_those_in_use_and_then_on_all(monkeypatch):
    steep = Polygon([(0, 0), (9000, 0), (15_000, 6000), (0, 6000)])
    own, plain = best_on(steep)
    asked = []
    monkeypatch.setattr(propose, "squared", lambda given, *_: asked.append(given))
    assert list(bent_before(own, plain)) == []
    assert asked == [own.problem]
    asked.clear()
    few = replace(own.problem, stay=((), ()))
    assert list(bent_before(own, replace(plain, problem=few))) == []
    assert [given.stay for given in asked] == [((), ()), None]


def test_without_patience_no_lines_are_bent_before(monkeypatch):
    steep = Polygon([(0, 0), (9000, 0), (15_000, 6000), (0, 6000)])
    own, plain = best_on(steep)
    monkeypatch.setattr(own.problem.effort, "left", -1.0)
    monkeypatch.setattr(own.problem.effort, "patience", 0.5)
    monkeypatch.setattr(propose, "squared", lambda *_: pytest.fail("lines were bent"))
    assert list(bent_before(own, plain)) == []


def test_nothing_is_to_mend_where_all_panels_are_good_or_lines_are_round():
    own, best = with_panels([box(0, 0, 3000, 3000), box(3000, 0, 6000, 3000)])
    assert propose._mending(own.problem, best) == ((), ())
    chart = RoundChart(centre=(0.0, 0.0), radius=5000.0, seam=0.0)
    own, best = with_panels([box(0, 0, 9000, 2000)], chart=chart)
    assert propose._mending(own.problem, best) == ((), ())


@pytest.mark.parametrize(("lean", "flat"), [(1150.0, False), (1160.0, True), (3000.0, True)])
def test_meetings_are_flat_where_panels_have_sharper_corners_than_the_piece(lean, flat):
    """A joint that leans by 1155 over 2000 mm stands at 60 degrees."""
    left = Polygon([(0, 0), (3000, 0), (3000 + lean, 2000), (0, 2000)])
    right = Polygon([(3000, 0), (9000, 0), (9000, 2000), (3000 + lean, 2000)])
    whole = box(0, 0, 9000, 2000)
    own = task(whole)
    pieces = PieceLayout(panels=(left, right), cuts=(), cost=0.0)
    assert propose._has_flat_meetings(own, own.proposal(SquareChart(), pieces)) is flat


def test_a_sharp_corner_of_the_piece_itself_is_no_flat_meeting():
    triangle = Polygon([(0, 0), (3000, 0), (0, 2000)])
    own = task(triangle)
    pieces = PieceLayout(panels=(triangle,), cuts=(), cost=0.0)
    assert not propose._has_flat_meetings(own, own.proposal(SquareChart(), pieces))


def test_the_joint_of_a_seam_is_added_to_a_layout_and_costs_its_length(monkeypatch):
    """From 3500 to 5000 mm out along x: 1500 mm more than what the chart costs."""
    chart = RoundChart(centre=(0.0, 0.0), radius=5000.0, seam=0.0)
    seam, own = LineString([(3500, 0), (5000, 0)]), Cut(path=((0.0, 3500.0), (0.0, 5000.0)))
    told = []
    answer = replace(PLAIN, cuts=(own,), cost=100.0)
    monkeypatch.setattr(propose, "seam_of", lambda *_: [seam])
    monkeypatch.setattr(propose, "charted", lambda *given: told.append(given[2]) or answer)
    found = propose._on_chart(problem(HALL), chart, [])
    assert told == [[seam]]
    assert [c.path for c in found.cuts] == [((3500.0, 0.0), (5000.0, 0.0)), own.path]
    assert found.cost == 1600.0
    assert propose._on_chart(problem(HALL), SquareChart(), []) is answer
    assert told[-1] == []


def charts_tried(monkeypatch, faults, spent, left=5.0):
    """The turns of charts on which a piece is laid out, each search for so much effort; and its effort."""
    own = Task(problem=replace(problem(HALL), effort=Effort(left)), inside=())
    tried = []

    def found_on(given, chart, _):
        tried.append(chart.turn)
        given.effort.left -= spent
        return PLAIN

    monkeypatch.setattr(
        propose, "likely_charts", lambda _: [SquareChart(t) for t in (0.0, 9.0, 18.0)]
    )
    monkeypatch.setattr(propose, "_on_chart", found_on)
    score = Score(0, faults, 5)
    monkeypatch.setattr(Task, "proposal", lambda *_: replace(offered(own.problem, 5), score=score))
    list(along_charts(own, None))
    return tried, own.problem.effort


@pytest.mark.parametrize(
    ("faults", "spent", "turns"),
    [
        (0, 1.0, [0.0, 9.0, 18.0]),
        (0, 2.5, [0.0, 9.0]),
        (0, 2.6, [0.0]),
        (1, 2.6, [0.0, 9.0, 18.0]),
    ],
)
def test_of_a_sound_layout_no_chart_is_tried_that_would_take_more_than_is_left(
    monkeypatch, faults, spent, turns
):
    """Of five seconds; what is left undone is remembered."""
    tried, effort = charts_tried(monkeypatch, faults, spent)
    assert tried == turns
    assert effort.cut is (len(turns) < 3)
