"""The pieces that lines cut a figure into."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import GeometryCollection, LineString, MultiPolygon, Point, Polygon, affinity
from shapely.geometry import box

from kerfline.geometry.faces import (
    faces,
    left_by,
    lines_of,
    points_of,
    polygons_of,
    reading_order,
    sound,
)
from strategies import orthogonal_plans

FLOOR = box(0, 0, 6000, 4000)


@st.composite
def cut_plans(draw):
    """A plan at any angle and chords across it."""
    plan = draw(orthogonal_plans())
    x0, y0, x1, y1 = plan.bounds
    shares = st.floats(0.05, 0.95)
    cuts = []
    for _ in range(draw(st.integers(0, 5))):
        a, b = draw(shares), draw(shares)
        across = draw(st.booleans())
        ends = (
            [(x0 + a * (x1 - x0), y0), (x0 + b * (x1 - x0), y1)]
            if across
            else [(x0, y0 + a * (y1 - y0)), (x1, y0 + b * (y1 - y0))]
        )
        cuts.append(LineString(ends))
    turn = draw(st.sampled_from([0.0, 30.0]) | st.floats(0.0, 360.0))
    plan, *cuts = (affinity.rotate(g, turn, origin=(0, 0)) for g in (plan, *cuts))
    return plan, cuts


@given(cut_plans())
def test_the_pieces_tile_the_figure(case):
    plan, cuts = case
    pieces = faces(plan, cuts)
    assert sum(p.area for p in pieces) == pytest.approx(plan.area, rel=1e-6)
    assert shapely.union_all(pieces).symmetric_difference(plan).area < 1e-6 * plan.area
    assert all(p.is_valid and p.exterior.is_ccw for p in pieces)


@given(cut_plans())
def test_the_order_of_the_lines_does_not_matter(case):
    plan, cuts = case
    forward, backward = faces(plan, cuts), faces(plan, cuts[::-1])
    assert len(forward) == len(backward)
    for a, b in zip(forward, backward, strict=True):
        assert a.symmetric_difference(b).area < 1.0


def test_two_crossing_lines_make_four_pieces_in_reading_order():
    pieces = faces(
        FLOOR, [LineString([(3000, 0), (3000, 4000)]), LineString([(0, 2000), (6000, 2000)])]
    )
    lower_left = [p.bounds[:2] for p in pieces]
    assert lower_left == [(0, 0), (3000, 0), (0, 2000), (3000, 2000)]


def test_a_dangling_line_cuts_nothing():
    assert len(faces(FLOOR, [LineString([(3000, 0), (3000, 2000)])])) == 1


def test_lines_may_reach_beyond_the_figure():
    assert len(faces(FLOOR, [LineString([(3000, -500), (3000, 9000)])])) == 2


def test_a_hole_stays_a_hole():
    pierced = FLOOR.difference(box(1000, 1000, 2000, 2000))
    pieces = faces(pierced, [LineString([(3000, 0), (3000, 4000)])])
    assert [len(p.interiors) for p in pieces] == [1, 0]
    assert sum(p.area for p in pieces) == pytest.approx(pierced.area)


def test_a_line_through_a_hole_cuts_the_ring_around_it_open():
    pierced = FLOOR.difference(box(1000, 1000, 2000, 2000))
    pieces = faces(pierced, [LineString([(0, 1500), (6000, 1500)])])
    assert len(pieces) == 2
    assert all(not p.interiors for p in pieces)


def test_reading_order_goes_up_in_rows():
    squares = [box(x, y, x + 1000, y + 1000) for x, y in ((1000, 0), (0, 1000), (0, 0.2))]
    assert [p.bounds[0] for p in reading_order(squares)] == [0, 1000, 0]


def test_the_polygons_and_lines_in_any_shape():
    line, speck = LineString([(0, 0), (5, 0)]), box(0, 0, 0.1, 0.1)
    shape = GeometryCollection(
        [FLOOR, MultiPolygon([box(9000, 0, 9900, 900), speck]), line, Point(0, 0)]
    )
    assert len(polygons_of(shape)) == 2
    assert polygons_of(line) == []
    assert lines_of(shape) == [line]
    assert lines_of(LineString([(0, 0), (0.001, 0)])) == []
    assert polygons_of(Polygon()) == []


@pytest.mark.parametrize("slip", [-1e-10, 0.0, 1e-10])
def test_figures_that_touch_part_an_area_whatever_their_last_bits(slip):
    """Two boxes that touch at a corner, and touch the sides, across a floor."""
    low, high = box(2000, 0, 3000, 2000 - slip), box(3000, 2000, 4000, 4000 + slip)
    left, right = left_by(FLOOR, [low, high])
    assert left.area + right.area == pytest.approx(FLOOR.area - low.area - high.area, abs=1.0)
    assert left.bounds[0] == 0.0
    assert right.bounds[2] == 6000.0


def test_boxes_that_touch_round_an_island_part_it_off():
    """Four boxes corner to corner, a hair apart, none of them at the edge."""
    slip = 1e-10
    ring = [
        box(2000, 1000, 3000, 2000 - slip), box(3000, 2000, 4000, 3000 - slip),
        box(2000, 3000, 3000, 3900), box(1000, 2000 + slip, 2000 - slip, 3000),
    ]  # fmt: skip
    around, island = sorted(left_by(FLOOR, ring), key=lambda p: -p.area)
    assert island.area == pytest.approx(1000.0 * 1000.0, abs=1.0)
    assert around.area == pytest.approx(FLOOR.area - 4.9e6, abs=1.0)


def test_a_figure_inside_leaves_one_piece_with_a_hole():
    (piece,) = left_by(FLOOR, [box(1000, 1000, 2000, 2000)])
    assert piece.equals(FLOOR.difference(box(1000, 1000, 2000, 2000)))
    assert left_by(FLOOR, [])[0].equals(FLOOR)


def test_the_points_of_a_line_are_plain_numbers():
    assert points_of(LineString([(0, 0), (1, 2)])) == ((0.0, 0.0), (1.0, 2.0))
    ring = box(0, 0, 2, 1).exterior
    assert points_of(ring)[0] == points_of(ring)[-1]


def test_a_figure_that_lies_over_itself_is_made_sound():
    """A spike of no width falls away, and what is sound already stays the same object."""
    spiked = Polygon([(0, 0), (6000, 0), (9000, 0), (6000, 0), (6000, 4000), (0, 4000)])
    assert not spiked.is_valid
    made = sound(spiked)
    assert made.is_valid
    assert made.equals(FLOOR)
    assert sound(FLOOR) is FLOOR


@pytest.mark.parametrize(("wide", "count"), [(0.006, 1), (0.015, 2)])
def test_a_piece_thinner_than_what_counts_as_the_same_is_no_concrete(wide, count):
    """A strip of 4 m beside the edge, thinner or wider than 0.01 mm."""
    cut = LineString([(wide, -100), (wide, 4100)])
    assert len(faces(FLOOR, [cut])) == count
