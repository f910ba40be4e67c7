"""Arcs found in flattened boundaries."""

import math

import numpy as np
import pytest
import shapely
from shapely import Polygon, affinity

from kerfline.engine.lines.charts import RoundChart, SquareChart, bounds_in
from kerfline.engine.lines.likely_charts import (
    _between_sides,
    arcs_of,
    likely_charts,
    round_charts,
    seam_of,
)
from kerfline.engine.problem import Problem
from kerfline.geometry.ring import Ring
from kerfline.model.layout import WorkingLimits
from unit.engine.slabs import SHAPES, regular

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


LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)


def sector(sweep, chords, radius=5000.0):
    """A piece of cake of that sweep in degrees, its rim in so many chords."""
    angles = [math.radians(sweep * n / chords) for n in range(chords + 1)]
    return Polygon([(0, 0), *((radius * math.cos(a), radius * math.sin(a)) for a in angles)])


@pytest.mark.parametrize(("sides", "count"), [(29, 0), (31, 1)])
def test_chords_that_turn_by_less_than_12_degrees_are_an_arc(sides, count):
    """Of 29 sides each turns by 12.4 degrees, of 31 by 11.6."""
    found = arcs_of(Polygon([(5000 * x, 5000 * y) for x, y in regular(sides, 1)]))
    assert len(found) == count
    for arc in found:
        assert arc.centre == pytest.approx((0, 0), abs=0.01)
        assert arc.radius == pytest.approx(5000, abs=0.01)
        assert arc.length == pytest.approx(sides * 2 * 5000 * math.sin(math.pi / sides), abs=0.01)


@pytest.mark.parametrize(("chords", "count"), [(3, 0), (4, 1)])
def test_an_arc_has_four_chords_at_least(chords, count):
    """Of 11 degrees each: three sweep 33 degrees, enough for an arc."""
    assert len(arcs_of(sector(11.0 * chords, chords))) == count


@pytest.mark.parametrize(("sweep", "count"), [(29.5, 0), (31.0, 1)])
def test_an_arc_sweeps_30_degrees_at_least(sweep, count):
    assert len(arcs_of(sector(sweep, 10))) == count


@pytest.mark.parametrize(("flat", "count"), [(1.004, 1), (1.02, 0)])
def test_the_points_of_an_arc_lie_within_half_a_hundredth_of_the_radius_on_its_circle(flat, count):
    """An ellipse 1.02 times as long as wide is off its mean circle by a hundredth, of 1.004 by a five-hundredth."""
    ellipse = affinity.scale(shapely.Point(0, 0).buffer(5000, quad_segs=30), xfact=flat)
    assert len(arcs_of(ellipse)) == count


def test_an_arc_that_turns_the_other_way_is_another():
    """A wave of two quarter rounds 6 m wide: their centres lie 3 m below and 3 m above."""
    bulges = (-QUARTER_BULGE, QUARTER_BULGE, 0, 0, 0)
    wave = Ring(((0, 0), (6000, 0), (12000, 0), (12000, -9000), (0, -9000)), bulges).polygon
    found = arcs_of(wave)
    assert sorted((round(a.centre[0]), round(a.centre[1])) for a in found) == [
        (3000, -3000),
        (9000, 3000),
    ]
    assert [a.radius for a in found] == pytest.approx([3000 * math.sqrt(2)] * 2, abs=0.5)


def bent_walk(straight):
    """A walk of 1.8 m around a quarter bend, 8 m at its outer side, that runs on straight at both ends."""
    end = 3000 + straight
    outer = ((0, 0), (3000, 0), (11000, 8000), (11000, 5000 + end))
    inner = ((9200, 5000 + end), (9200, 8000), (3000, 1800), (0, 1800))
    return Ring((*outer, *inner), (0, QUARTER_BULGE, 0, 0, 0, -QUARTER_BULGE, 0, 0)).polygon


@pytest.mark.parametrize("straight", [0.0, 3000.0, 9000.0])
def test_a_straight_side_that_leads_into_an_arc_is_no_part_of_it(straight):
    """Both arcs turn about (3 m, 8 m); where the sides touch them they turn by half a chord."""
    outer, inner = sorted(arcs_of(bent_walk(straight)), key=lambda a: -a.radius)
    for arc, radius in ((outer, 8000.0), (inner, 6200.0)):
        assert math.dist(arc.centre, (3000, 8000)) < 5.0
        assert arc.radius == pytest.approx(radius, rel=1e-3)
        assert arc.length == pytest.approx(radius * math.pi / 2, rel=1e-3)


def test_both_round_ends_of_a_deck_are_arcs():
    """All around it no corner: two half circles and two sides, on its rim and around the pool."""
    deck = shapely.LineString([(0, 0), (7000, 0)]).buffer(3500, quad_segs=16)
    pool = shapely.LineString([(0, 0), (7000, 0)]).buffer(1700, quad_segs=16)
    found = [(a.centre, round(a.length, -2)) for a in arcs_of(deck - pool)]
    assert sorted(found) == [
        ((0.0, 0.0), 5300.0), ((0.0, 0.0), 11000.0), ((7000.0, 0.0), 5300.0), ((7000.0, 0.0), 11000.0)
    ]  # fmt: skip


@pytest.mark.parametrize(("side", "count"), [(1.24, 0), (1.26, 1)])
def test_what_is_a_quarter_longer_than_the_chord_beside_it_is_a_side(side, count):
    """Ten chords of 5 degrees, and a piece that runs on along the last but one: no chord, so near is it to one."""
    chord = 2 * 5000 * math.sin(math.radians(2.5))
    points = [(5000 * math.cos(a), 5000 * math.sin(a)) for a in np.radians(np.arange(0, 51, 5))]
    way = np.radians(50 + 90 + 2.5 - 5.0)
    tip = (points[-1][0] + side * chord * np.cos(way), points[-1][1] + side * chord * np.sin(way))
    assert len(_between_sides([*points, tip])) == 1
    assert len(_between_sides([*points, tip])[0]) == (11 if count else 12)


def test_a_bent_walk_has_the_round_chart_tried():
    (chart,) = round_charts(bent_walk(3000.0))
    assert math.dist(chart.centre, (3000, 8000)) < 5.0
    assert chart.radius == pytest.approx(8000.0, rel=1e-3)


def test_the_arcs_of_an_opening_count():
    hall = shapely.box(-9000, -9000, 9000, 9000) - shapely.Point(0, 0).buffer(2000, quad_segs=30)
    (arc,) = arcs_of(hall)
    assert (arc.centre, round(arc.radius)) == ((0.0, 0.0), 2000)


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
