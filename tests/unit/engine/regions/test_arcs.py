"""Arcs found in flattened boundaries, and where a strip of concrete begins and ceases to bend."""

import math

import numpy as np
import pytest
import shapely
from shapely import Polygon, affinity

from kerfline.engine.regions.arcs import _between_sides, _centre_of, _fitted, arcs_of, bend_ends
from kerfline.geometry.ring import Ring
from unit.engine.slabs import bent_walk, regular

QUARTER_BULGE = math.tan(math.pi / 8)


def test_quarter_round_patio_has_its_centre_in_the_corner():
    patio = Ring(((0, 0), (6000, 0), (0, 6000)), (0, QUARTER_BULGE, 0)).polygon
    (arc,) = arcs_of(patio)
    assert math.dist(arc.centre, (0, 0)) < 1.0
    assert arc.radius == pytest.approx(6000, abs=1.0)
    assert arc.length == pytest.approx(6000 * math.pi / 2, rel=1e-3)


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


def test_the_arcs_of_an_opening_count():
    hall = shapely.box(-9000, -9000, 9000, 9000) - shapely.Point(0, 0).buffer(2000, quad_segs=30)
    (arc,) = arcs_of(hall)
    assert (arc.centre, round(arc.radius)) == ((0.0, 0.0), 2000)


def spots(piece):
    """Both ends of each line, the nearer to the centre first, to the decimetre."""
    return sorted(
        [tuple((round(x, -2), round(y, -2)) for x, y in line.coords) for line in bend_ends(piece)]
    )


def test_a_bend_begins_where_the_straight_sides_touch_its_arcs():
    assert spots(bent_walk(3000.0)) == [
        ((3000.0, 1800.0), (3000.0, 0.0)),
        ((9200.0, 8000.0), (11000.0, 8000.0)),
    ]


def test_where_a_strip_ends_with_its_bend_it_is_not_parted():
    assert spots(bent_walk(0.0)) == [((3000.0, 1800.0), (3000.0, 0.0))]


def test_around_a_pool_each_round_end_has_two_ends():
    deck = shapely.LineString([(0, 0), (7000, 0)]).buffer(3500, quad_segs=16)
    pool = shapely.LineString([(0, 0), (7000, 0)]).buffer(1700, quad_segs=16)
    assert spots(deck - pool) == [
        ((x, y * 1700.0), (x, y * 3500.0)) for x in (0.0, 7000.0) for y in (-1, 1)
    ]


def round_ring(radius):
    """A whole circle that is counted from its rightmost point."""
    return [(radius * math.cos(a), radius * math.sin(a)) for a in np.radians(np.arange(0, 360, 5))]


@pytest.mark.parametrize(
    "piece",
    [
        shapely.box(0, 0, 9000, 6000),
        Polygon(round_ring(5000), [round_ring(3000)]),
        shapely.LineString([(0, 0), (7000, 0)]).buffer(3500, quad_segs=16),
        shapely.LineString([(0, 0), (7000, 0)]).buffer(3500) - shapely.Point(0, 0).buffer(1700),
    ],
    ids=["hall", "ring", "hall with round ends", "one with a round opening"],
)
def test_what_has_no_bend_between_two_arcs_has_no_such_line(piece):
    assert bend_ends(piece) == []


@pytest.mark.parametrize(("turn", "count"), [(2.9, 1), (3.1, 0)])
def test_both_arcs_end_on_one_ray_give_or_take_three_degrees(turn, count):
    """A bend of 60 degrees whose inner arc goes on by so much; a straight side leads away from the other end."""
    ends = [[(r * math.cos(a), r * math.sin(a)) for a in np.radians(np.linspace(0, 60 + more, 31))]
            for r, more in ((8000, 0.0), (6000, turn))]  # fmt: skip
    walk = Polygon([(8000, -4000), *ends[0], (0, 9000), *reversed(ends[1]), (6000, -4000)])
    assert len(bend_ends(walk)) == 1 + count


def test_points_in_one_line_lie_on_no_circle():
    assert _centre_of([(0.0, 0.0), (1000.0, 500.0), (2000.0, 1000.0)]) is None
    assert _centre_of([(0.0, 1000.0), (1000.0, 0.0), (0.0, -1000.0)]) == pytest.approx((0.0, 0.0))
    assert _fitted([(0.0, 0.0), (1000.0, 500.0), (2000.0, 1000.0)], 30.0, 0.005) is None
