"""Charts: two coordinates for every point, and back."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon, box

from kerfline.engine.lines.charts import RoundChart, SquareChart, bounds_in

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
