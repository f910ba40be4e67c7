"""Rings with arcs, flattened to chords, held against the formulas of the circle."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point

from kerfline.geometry.ring import Ring, arc_of, chord_count, circle, flatten_arc, tangent_at
from kerfline.geometry.tolerance import ARC_STEP, SAGITTA
from strategies import arc_rings

bulges = st.floats(0.01, 5.0) | st.floats(-5.0, -0.01)
spots = st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))
chords = st.tuples(spots, spots).filter(lambda c: math.dist(*c) > 10.0)


@given(chords, bulges)
def test_an_arc_runs_from_its_first_point_to_its_last(chord, bulge):
    arc = arc_of(*chord, bulge)
    assert arc.at(0.0) == pytest.approx(chord[0], abs=1e-6 * arc.radius)
    assert arc.at(1.0) == pytest.approx(chord[1], abs=1e-6 * arc.radius)


@given(chords, bulges)
def test_the_bulge_is_the_rise_over_half_the_chord(chord, bulge):
    """Tangent of a quarter of the included angle, which is sagitta over half chord."""
    start, end = chord
    middle = arc_of(start, end, bulge).at(0.5)
    rise = Point(middle).distance(Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))
    assert rise == pytest.approx(abs(bulge) * math.dist(start, end) / 2, rel=1e-6)


def test_a_positive_bulge_runs_anticlockwise():
    """From (0, 0) to (2, 0) anticlockwise round (1, 0): through (1, -1)."""
    arc = arc_of((0, 0), (2, 0), 1.0)
    assert arc.at(0.5) == pytest.approx((1, -1))
    assert arc.sweep == pytest.approx(180)
    assert arc_of((0, 0), (2, 0), -1.0).at(0.5) == pytest.approx((1, 1))


@given(chords, bulges)
def test_chords_stay_within_the_sagitta_of_the_arc(chord, bulge):
    arc = arc_of(*chord, bulge)
    points = flatten_arc(*chord, bulge)
    for a, b in itertools.pairwise(points):
        half = math.dist(a, b) / 2
        off = arc.radius - math.sqrt(max(0.0, arc.radius**2 - half**2))
        assert off <= SAGITTA * 1.001 or arc.radius <= SAGITTA


@given(st.floats(1.0, 1e6), st.floats(1.0, 360.0))
def test_no_chord_turns_by_more_than_the_step(radius, sweep):
    assert sweep / chord_count(radius, sweep) <= ARC_STEP + 1e-9


@given(st.floats(50.0, 1e5))
def test_a_circle_has_nearly_its_area(radius):
    polygon = circle((100.0, -50.0), radius).polygon
    assert polygon.area == pytest.approx(math.pi * radius**2, rel=0.005)
    assert polygon.centroid.coords[0] == pytest.approx((100.0, -50.0), abs=1e-6 * radius)


@given(arc_rings())
def test_a_swelling_adds_a_segment_of_a_circle(ring):
    """Area of a segment: r^2 (a - sin a) / 2, a the included angle; a positive bulge swells out."""
    index = next(i for i, b in enumerate(ring.bulges) if b)
    start, end = ring.points[index], ring.points[(index + 1) % 4]
    arc = arc_of(start, end, ring.bulges[index])
    angle = math.radians(abs(arc.sweep))
    segment = arc.radius**2 * (angle - math.sin(angle)) / 2
    box = Ring(ring.points).polygon.area
    # Chords inside an arc of this length lose at most two thirds of the sagitta times the length.
    loss = SAGITTA * arc.radius * angle
    assert box + segment - loss <= ring.polygon.area <= box + segment + 1.0


def test_straight_rings_are_their_own_points():
    ring = Ring(((0, 0), (4, 0), (4, 3)))
    assert ring.coordinates == ring.points
    assert not ring.has_arcs
    assert ring.polygon.area == 6
    assert ring.polygon.exterior.is_ccw


def test_a_clockwise_ring_gives_the_same_area_anticlockwise():
    ring = Ring(((0, 0), (0, 3), (4, 3), (4, 0)))
    assert ring.polygon.area == 12
    assert ring.polygon.exterior.is_ccw


def test_a_polygon_comes_back_as_a_ring():
    polygon = Ring(((0, 0), (4, 0), (4, 3))).polygon
    assert Ring.of(polygon).polygon.equals(polygon)


def test_the_line_between_arcs_is_kept():
    half = Ring(((0, 0), (2000, 0)), (0.0, 1.0))
    assert LineString([(0, 0), (2000, 0)]).distance(half.polygon.exterior) == 0
    assert half.polygon.area == pytest.approx(math.pi * 1000**2 / 2, rel=0.005)


@pytest.mark.parametrize("radius", [0.05, 3.0, 400.0, 90_000.0])
@pytest.mark.parametrize("sweep", [0.4, 7.5, 44.0, 91.0, 180.0, 359.0])
def test_no_chord_of_an_arc_turns_or_strays_too_far(radius, sweep):
    """Both bounds hold, and with one chord fewer one of them would not."""

    def held(count):
        turn = sweep / count
        stray = radius * (1 - math.cos(math.radians(turn / 2)))
        return turn <= ARC_STEP + 1e-9 and (stray <= SAGITTA * (1 + 1e-9) or radius <= SAGITTA)

    count = chord_count(radius, sweep)
    assert held(count)
    assert count == 1 or not held(count - 1)


@pytest.mark.parametrize("radius", [20.0, 300.0, 3000.0, 40000.0])
@pytest.mark.parametrize("share", [0.0, 0.3, 0.5, 0.7])
def test_the_tangent_at_a_chord_is_square_to_the_radius(radius, share):
    """At either end of a chord and along it, both ways, wherever a joint may end on it."""
    points = flatten_arc((radius, 0.0), (0.0, radius), math.tan(math.pi / 8))
    for (x, y), (u, v) in itertools.pairwise(points):
        at = (x + share * (u - x), y + share * (v - y))
        size, reach = math.dist((x, y), (u, v)), math.hypot(*at)
        for sign in (1.0, -1.0):
            way = (sign * (u - x) / size, sign * (v - y) / size)
            if share == 0.0 and sign < 0.0:
                continue
            found = tangent_at((0.0, 0.0), radius, at, way)
            expected = (-sign * at[1] / reach, sign * at[0] / reach)
            assert found == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("lean", "along"), [(0.0, True), (5.0, False), (90.0, False), (175.0, False)]
)
def test_a_straight_edge_from_the_end_of_an_arc_is_no_chord_of_it(lean, along):
    """The arc begins at (3000, 0), upward; the edge leaves outward from its tangent by so many degrees."""
    turn = math.radians(90.0 - lean)
    found = tangent_at((0.0, 0.0), 3000.0, (3000.0, 0.0), (math.cos(turn), math.sin(turn)))
    assert found == (pytest.approx((0.0, 1.0)) if along else None)


def test_a_place_off_an_arc_has_no_tangent():
    assert tangent_at((0.0, 0.0), 3000.0, (3001.0, 0.0), (0.0, 1.0)) is None
