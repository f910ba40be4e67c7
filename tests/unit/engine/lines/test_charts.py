"""Charts: two coordinates for every point, and back."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, affinity, box

from kerfline.engine.lines.charts import (
    RoundChart,
    SquareChart,
    bounds_in,
    boxes_in,
    likely_charts,
    round_charts,
    seam_of,
)
from kerfline.engine.problem import Problem
from kerfline.engine.regions.arcs import arcs_of
from kerfline.geometry.ring import Ring
from kerfline.model.layout import WorkingLimits
from unit.engine.slabs import SHAPES, bent_walk

RADIUS = 5000.0
ROUND = RoundChart(centre=(1000.0, 2000.0), radius=RADIUS, seam=90.0)

places = st.floats(-1e5, 1e5)


def one(chart, *point):
    return tuple(chart.measure(np.array([point], dtype=float))[0].tolist())


def test_a_square_chart_that_is_not_turned_measures_x_and_y():
    assert one(SquareChart(), 12.0, -3.0) == (12.0, -3.0)


def test_a_turned_chart_turns_back():
    """At 90 degrees the first axis runs up: a point straight up is all along it."""
    assert one(SquareChart(90.0), 0.0, 700.0) == pytest.approx((700.0, 0.0), abs=1e-9)


@given(places, places, st.floats(-180, 180))
def test_a_curve_through_a_measured_point_comes_back_to_it(x, y, turn):
    chart = SquareChart(turn)
    line = chart.curve([one(chart, x, y), (0.0, 0.0)])
    assert line.coords[0] == pytest.approx((x, y), abs=1e-6)


@pytest.mark.parametrize(
    ("point", "around", "out"),
    [
        ((1000, 7000), 0, RADIUS),
        ((-4000, 2000), math.pi / 2 * RADIUS, RADIUS),
        ((1000, -3000), math.pi * RADIUS, RADIUS),
        ((6000, 2000), 1.5 * math.pi * RADIUS, RADIUS),
        ((1000, 3000), 0, 1000),
    ],
)
def test_a_round_chart_measures_the_way_around_from_its_seam_and_the_way_out(point, around, out):
    assert one(ROUND, *point) == pytest.approx((around, out), abs=1e-6)


def test_a_hair_before_the_seam_lies_on_it():
    """Rounding of a millionth of a millimetre does not put a point all the way round."""
    assert one(ROUND, 1000.0 + 1e-6, 7000.0)[0] == pytest.approx(0.0, abs=1e-3)
    assert one(ROUND, 1000.0 + 10.0, 7000.0)[0] > ROUND.round - 11


def test_rays_are_straight_and_arcs_keep_to_the_sagitta():
    ray = ROUND.curve([(1000.0, 500.0), (1000.0, 4000.0)])
    assert len(ray.coords) == 2
    assert ray.length == pytest.approx(3500)
    arc = ROUND.curve([(0.0, 3000.0), (math.pi * RADIUS, 3000.0)])
    assert arc.length == pytest.approx(math.pi * 3000, rel=1e-3)
    off = [abs(Point(p).distance(Point(ROUND.centre)) - 3000) for p in shapely.get_coordinates(arc)]
    assert max(off) < 1e-6
    assert arc.hausdorff_distance(Point(ROUND.centre).buffer(3000, quad_segs=512).exterior) > 2999


def test_nothing_runs_on_across_the_seam():
    line = ROUND.curve([(-500.0, 3000.0), (ROUND.round + 500.0, 3000.0)])
    assert line.length == pytest.approx(2 * math.pi * 3000, rel=1e-3)
    assert line.coords[0] == pytest.approx(line.coords[-1], abs=1e-6)


@given(st.floats(1.0, 2 * math.pi * RADIUS - 1), st.floats(1.0, 9000.0))
def test_the_round_chart_comes_back_too(around, out):
    spot = ROUND.curve([(around, out), (around, out + 1.0)]).coords[0]
    assert one(ROUND, *spot) == pytest.approx((around, out), abs=1e-5)


def test_the_box_of_a_shape_is_read_at_its_corners():
    assert bounds_in(SquareChart(), box(100, 200, 300, 500)) == (100, 200, 300, 500)
    diamond = Polygon([(0, -100), (100, 0), (0, 100), (-100, 0)])
    half = 100 / math.sqrt(2)
    assert bounds_in(SquareChart(45.0), diamond) == pytest.approx((-half, -half, half, half))


def test_a_round_floor_begins_at_its_centre():
    disc = Point(ROUND.centre).buffer(RADIUS, quad_segs=64)
    low, high = bounds_in(ROUND, disc)[1], bounds_in(ROUND, disc)[3]
    assert (low, high) == (0.0, pytest.approx(RADIUS))
    ring = disc.difference(Point(ROUND.centre).buffer(2000, quad_segs=64))
    assert bounds_in(ROUND, ring)[1] == pytest.approx(2000, rel=1e-3)


def test_corners_on_the_seam_count_from_the_side_that_the_shape_lies_on():
    """A wedge that ends on the seam from before it: without a hint its corner there would be at nought."""
    wedge = Polygon(
        [ROUND.curve([(a, r), (a, r + 1)]).coords[0] for a, r in ((28_000, 2000), (28_000, 4000))]
        + [ROUND.curve([(0, r), (0, r + 1)]).coords[0] for r in (4000, 2000)]
    )
    assert bounds_in(ROUND, wedge)[0] == pytest.approx(0.0, abs=1e-3)
    low, _, high, _ = bounds_in(ROUND, wedge, near=29_000.0)
    assert (low, high) == pytest.approx((28_000, ROUND.round), abs=1e-3)


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


@pytest.mark.parametrize("chart", [SquareChart(), SquareChart(30.0), ROUND])
def test_the_boxes_of_many_shapes_are_those_of_each(chart):
    shapes = [box(100, 200, 300, 500), Point(0, 0).buffer(2000), LineString([(5, 5), (900, 60)])]
    assert boxes_in(chart, shapes) == [bounds_in(chart, shape) for shape in shapes]
    first = chart.measure(np.asarray([[200.0, 300.0]]))[0, 0]
    near = np.full(3, first)
    assert boxes_in(chart, shapes, near) == [bounds_in(chart, shape, first) for shape in shapes]
