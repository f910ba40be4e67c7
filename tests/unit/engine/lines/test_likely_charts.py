"""Arcs found in flattened boundaries."""

import math

import pytest
import shapely
from shapely import Polygon, affinity

from kerfline.engine.lines.charts import RoundChart, SquareChart, bounds_in
from kerfline.engine.lines.likely_charts import (
    likely_charts,
    round_charts,
    seam_of,
)
from kerfline.engine.problem import Problem
from kerfline.engine.regions.arcs import arcs_of
from kerfline.geometry.ring import Ring
from kerfline.model.layout import WorkingLimits
from unit.engine.slabs import SHAPES, bent_walk

QUARTER_BULGE = math.tan(math.pi / 8)


def test_ring_walk_counts_its_way_on_the_outer_arc():
    walk = shapely.Point(0, 0).buffer(5000, quad_segs=30) - shapely.Point(0, 0).buffer(
        3500, quad_segs=30
    )
    (chart,) = round_charts(walk)
    assert chart.radius == pytest.approx(5000, rel=1e-3)


@pytest.mark.parametrize(
    "outline",
    [shapely.box(0, 0, 9000, 6000), shapely.Point(0, 0).buffer(3000, quad_segs=2)],
    ids=["hall", "octagon"],
)
def test_straight_outlines_have_no_arcs(outline):
    assert arcs_of(outline) == []
    assert round_charts(outline) == []


def test_round_chart_measures_rays_and_arcs():
    chart = RoundChart((0.0, 0.0), 1000.0, 0.0)
    ray = chart.curve([(500.0, 200.0), (500.0, 900.0)])
    assert len(ray.coords) == 2
    assert ray.length == pytest.approx(700.0)
    arc = chart.curve([(0.0, 800.0), (1000.0 * math.pi / 2, 800.0)])
    assert arc.length == pytest.approx(800.0 * math.pi / 2, rel=1e-3)
    low_u, low_v, high_u, high_v = bounds_in(chart, arc)
    assert (low_u, high_u) == pytest.approx((0.0, 500.0 * math.pi), abs=1e-6)
    assert (low_v, high_v) == pytest.approx((800.0, 800.0))


LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)


def test_a_bent_walk_has_the_round_chart_tried():
    (chart,) = round_charts(bent_walk(3000.0))
    assert math.dist(chart.centre, (3000, 8000)) < 5.0
    assert chart.radius == pytest.approx(8000.0, rel=1e-3)


@pytest.mark.parametrize(("length", "count"), [(1.6, 1), (1.7, 0)])
def test_a_round_end_calls_for_a_round_chart_from_a_quarter_of_the_boundary_on(length, count):
    """A quarter round of radius r on a hall l long: pi r / 2 is a quarter of all round it where l is 1.65 r."""
    far, half = length * 4000, 4000 / math.sqrt(2)
    hall = Ring(((0, -half), (far, -half), (far, half), (0, half)), (0, QUARTER_BULGE, 0, 0))
    found = round_charts(hall.polygon)
    assert len(found) == count
    for chart in found:
        assert chart.centre == pytest.approx((far - half, 0), abs=1.0)


def test_the_way_around_a_quarter_walk_is_counted_from_amid_the_gap():
    """The walk lies from 0 to 90 degrees: the middle of the other 270 is at 225."""
    (chart,) = round_charts(SHAPES["curved walk"].concrete)
    assert chart.seam == pytest.approx(225.0, abs=0.01)
    assert chart.radius == pytest.approx(36 * 304.8, abs=1.0)
    assert seam_of(SHAPES["curved walk"].concrete, chart) == []


def test_the_seam_of_a_closed_ring_is_a_joint_across_it():
    ring = shapely.Point(0, 0).buffer(5000, quad_segs=30) - shapely.Point(0, 0).buffer(
        3500, quad_segs=30
    )
    (chart,) = round_charts(ring)
    (part,) = seam_of(ring, chart)
    assert part.length == pytest.approx(1500.0, abs=0.5)


def charts(piece):
    return likely_charts(Problem(concrete=piece, limits=LIMITS))


def turns(piece):
    return [round(c.turn, 2) for c in charts(piece) if isinstance(c, SquareChart)]


def test_a_hall_has_one_chart():
    assert charts(shapely.box(0, 0, 9000, 6000)) == [SquareChart(0.0)]


def test_a_ring_has_the_square_chart_first_and_then_the_round_one():
    ring = shapely.Point(0, 0).buffer(5000, quad_segs=30) - shapely.Point(0, 0).buffer(3500)
    first, second = charts(ring)[:2]
    assert first == SquareChart(0.0)
    assert isinstance(second, RoundChart)


@pytest.mark.parametrize(("lean", "turn"), [(30.0, 15.0), (20.0, 10.0), (2.0, None), (44.0, None)])
def test_two_long_edges_from_3_to_40_degrees_apart_have_their_bisector_tried(lean, turn):
    """The upper edge leans by so much against the lower: half of it is the bisector's turn."""
    away = math.radians(lean)
    top = (8000 * math.cos(away), 2500 + 8000 * math.sin(away))
    found = turns(Polygon([(0, 0), (8000, 0), top, (0, 2500)]))
    assert found[0] == 0.0
    assert (lean / 2 in found) is (turn is not None)


def test_of_a_large_piece_no_more_than_two_charts_are_tried():
    """Twelve squares of the span are 243 m2."""
    away = math.radians(30.0)
    wing = Polygon(
        [(0, 0), (8000, 0), (8000 * math.cos(away), 2500 + 8000 * math.sin(away)), (0, 2500)]
    )
    assert wing.area < 12 * 4500**2
    assert len(charts(wing)) > 2
    larger = affinity.scale(wing, 4, 4, origin=(0, 0))
    assert larger.area > 12 * 4500**2
    assert charts(larger) == charts(wing)[:2]


def test_no_chart_is_turned_by_more_than_45_degrees():
    for shape in SHAPES.values():
        assert all(-45 <= turn <= 45 for turn in turns(shape.concrete))
        assert turns(shape.concrete)[0] == 0.0
