"""Span of a panel, held against chords that the tests cut for themselves."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity
from shapely.geometry import box

from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.span import span_of, straight_run, straight_runs
from strategies import convex_plans, orthogonal_plans

FOOT = 304.8
BLUNT = affinity.scale(
    Polygon([(0, 0), (11, 0), (11, 1), (1, 11), (0, 11)]), FOOT, FOOT, origin=(0, 0)
)
"""A right triangle of 12 ft legs, both of its sharp corners cut off square."""

plans = convex_plans() | orthogonal_plans()
turns = st.floats(0.0, 360.0)


def own_longest_side(polygon):
    points = polygon.exterior.coords
    return max(math.dist(p, q) for p, q in pairwise(points))


def own_chord(polygon, angle):
    """The longest of a thousand chords at an angle (degrees)."""
    level = affinity.rotate(polygon, -angle, origin=(0, 0))
    x0, y0, x1, y1 = level.bounds
    cuts = [LineString([(x0 - 1, y), (x1 + 1, y)]) for y in np.linspace(y0, y1, 1001)[1:-1]]
    parts = shapely.get_parts([cut.intersection(level) for cut in cuts])
    return float(max(part.length for part in parts))


def test_a_square_panel_has_its_side_and_not_its_diagonal():
    assert span_of(box(0, 0, 15 * FOOT, 15 * FOOT)) == pytest.approx(15 * FOOT)


def test_a_triangle_that_fits_into_a_square_has_its_long_side():
    """Legs of 11 ft: the square on them and the rectangle on the long side are equally large."""
    triangle = Polygon([(0, 0), (11 * FOOT, 0), (0, 11 * FOOT)])
    assert enclosing_rectangle(triangle).length == pytest.approx(11 * FOOT)
    assert span_of(triangle) == pytest.approx(11 * math.sqrt(2) * FOOT)


def test_a_square_with_a_corner_off_keeps_its_side():
    """The chord beside the cut corner is the diagonal, along which no joints are spaced."""
    side, off = 15 * FOOT, 3 * FOOT
    panel = Polygon([(0, 0), (side, 0), (side, side - off), (side - off, side), (0, side)])
    assert span_of(panel) == pytest.approx(side)


def test_a_triangle_with_blunt_ends_has_the_chord_beside_its_long_side():
    """The ends cut off square leave 14.14 ft of the long side, 10 times the root of 2; beside it, 15.56 ft."""
    panel = BLUNT
    assert own_longest_side(panel) == pytest.approx(10 * math.sqrt(2) * FOOT)
    assert span_of(panel) == pytest.approx(own_chord(panel, 135), rel=1e-3)
    assert span_of(panel) == pytest.approx(11 * math.sqrt(2) * FOOT, rel=1e-6)


def test_joints_that_end_on_a_side_leave_it_whole():
    """A side is a side, though corners of the panels beyond lie on it, a hair out of line."""
    panel = Polygon([(0, 0), (12 * FOOT, 0), (6 * FOOT, 6 * FOOT + 0.4), (0, 12 * FOOT)])
    assert straight_run(panel) == pytest.approx(12 * math.sqrt(2) * FOOT, abs=1.0)


def test_a_hole_interrupts_the_run_beside_the_long_side():
    hole = box(5.2 * FOOT, 5.2 * FOOT, 5.7 * FOOT, 5.7 * FOOT)
    pierced = BLUNT.difference(hole)
    run = straight_run(pierced)
    assert run == pytest.approx(max(own_chord(pierced, 135), own_longest_side(BLUNT)), rel=2e-3)
    assert run < straight_run(BLUNT) - FOOT / 2


def test_a_notch_parts_the_run_of_a_slanting_side():
    """A hooked panel: the chord along its longest side ends at the notch."""
    leg = affinity.rotate(box(0, 0, 4000, 1000), 30, origin=(0, 0))
    other = affinity.rotate(box(0, 0, 1000, 3000), 30, origin=(0, 0))
    hooked = shapely.union(leg, other)
    assert straight_run(hooked) == pytest.approx(4000.0, abs=1.0)


@settings(max_examples=15)
@given(convex_plans(), turns)
def test_the_run_is_the_longest_side_or_a_chord_along_it(plan, turn):
    panel = affinity.rotate(plan, turn)
    side = own_longest_side(panel)
    points = list(panel.exterior.coords)
    best = side
    for p, q in pairwise(points):
        if math.dist(p, q) >= side - 0.4:
            best = max(best, own_chord(panel, math.degrees(math.atan2(q[1] - p[1], q[0] - p[0]))))
    assert straight_run(panel) == pytest.approx(best, rel=3e-3)
    assert straight_run(panel) >= best - 1e-6 * best


@given(plans, turns)
def test_turning_a_panel_does_not_change_its_span(plan, turn):
    assert span_of(affinity.rotate(plan, turn)) == pytest.approx(span_of(plan), rel=1e-6)


@given(plans, st.integers(0, 20), st.booleans())
def test_the_span_does_not_depend_on_where_and_which_way_the_ring_runs(plan, start, back):
    points = list(plan.exterior.coords[:-1])
    start %= len(points)
    again = points[start:] + points[:start]
    assert span_of(Polygon(again[::-1] if back else again)) == pytest.approx(span_of(plan))


@given(plans)
def test_no_side_is_longer_than_the_span(plan):
    assert span_of(plan) >= max(own_longest_side(plan), enclosing_rectangle(plan).length) - 1e-6


@given(st.lists(convex_plans(), min_size=1, max_size=12))
def test_many_at_once_are_measured_as_one_by_one(panels):
    hulls = np.array([p.convex_hull for p in panels], dtype=object)
    assert straight_runs(hulls) == pytest.approx([straight_run(p) for p in panels], rel=1e-9)


def test_a_corner_on_a_straight_side_does_not_divide_the_run():
    """An L of 12 by 6 ft; a corner that is none stands half-way up its longest side."""
    ell = [(0, 0), (6, 0), (6, 2), (2, 2), (2, 12), (0, 12)]
    for points in (ell, [*ell, (0, 6)], [ell[0], (3, 0), *ell[1:], (0, 6)]):
        panel = affinity.scale(Polygon(points), FOOT, FOOT, origin=(0, 0))
        for first in range(len(points)):
            ring = list(panel.exterior.coords)[:-1]
            turned = Polygon(ring[first:] + ring[:first])
            assert straight_run(turned) == pytest.approx(12 * FOOT)
