"""The ways to lay out a piece, tried while there is effort, and the best kept."""

from dataclasses import replace

import pytest
from shapely import LineString, Point, Polygon, box

from kerfline.engine import propose
from kerfline.engine.effort import Effort
from kerfline.engine.lines.charts import RoundChart, SquareChart
from kerfline.engine.partition.on_chart import charted
from kerfline.engine.problem import Problem
from kerfline.engine.propose import (
    STRANGE,
    Task,
    along_charts,
    bent_at_ends,
    bent_before,
    beside_poor_panels,
    best_layout,
)
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
    for way in (bent_at_ends, beside_poor_panels, bent_before):
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
