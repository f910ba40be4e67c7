"""Arcs found in flattened boundaries."""

import math

import pytest
import shapely

from kerfline.engine.lines.charts import RoundChart, bounds_in
from kerfline.engine.lines.likely_charts import arcs_of, round_charts
from kerfline.geometry.ring import Ring

QUARTER_BULGE = math.tan(math.pi / 8)


def test_quarter_round_patio_has_its_centre_in_the_corner():
    patio = Ring(((0, 0), (6000, 0), (0, 6000)), (0, QUARTER_BULGE, 0)).polygon
    (arc,) = arcs_of(patio)
    assert math.dist(arc.centre, (0, 0)) < 1.0
    assert arc.radius == pytest.approx(6000, abs=1.0)
    assert arc.length == pytest.approx(6000 * math.pi / 2, rel=1e-3)


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
