"""Chords of a figure and the joints that must cross them, by hand and by trying one chord after the other."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from kerfline.engine.bounds.chords import chords_of, least_crossing, pieces_of

REACH = 10_000.0
"""So long that the half millimetre of a tape's reading makes no odds."""


def edges_of(figure, *lines):
    """The pieces of the boundary and of some lines, cut where they meet."""
    net = shapely.union_all([figure.boundary, *lines])
    parts = [shapely.get_coordinates(p) for p in shapely.get_parts(shapely.line_merge(net))]
    return np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in parts])


def chords(figure, *lines, **more):
    return chords_of(edges_of(figure, *lines), figure, **more)


def least(figure, *lines, axis=0, far_from=None):
    """The least crossing where panels reach as far as the span, twice as far right of a place."""
    found = chords(figure, *lines, axis=axis)
    reach = np.full(len(found.high), REACH)
    if far_from is not None:
        reach[found.starts.mean(axis=1) >= far_from - 1e-6] *= 2
    return least_crossing(found, reach)


def rectangle(wide, high, x=0.0, y=0.0):
    return shapely.box(x * REACH, y * REACH, (x + wide) * REACH, (y + high) * REACH)


def spans(*points):
    return [(x * REACH, y * REACH) for x, y in points]


@pytest.mark.parametrize(
    ("wide", "count"), [(0.4, 0), (1.0, 0), (1.01, 1), (2.0, 1), (2.01, 2), (4.5, 4)]
)
def test_a_rectangle_asks_for_a_joint_at_each_full_reach(wide, count):
    assert least(rectangle(wide, 3)) == pytest.approx(count * 3 * REACH)


def test_half_a_millimetre_over_the_reach_is_not_read_on_a_tape():
    assert least(shapely.box(0, 0, REACH + 0.4, REACH)) == 0.0
    assert least(shapely.box(0, 0, REACH + 0.6, REACH)) == pytest.approx(REACH)


def test_a_triangle_asks_as_far_up_as_it_is_wide_enough():
    """3 reaches wide at the foot and 2 high: wider than one over two thirds of 2, than two over one third."""
    triangle = Polygon(spans((0, 0), (3, 0), (1, 2)))
    assert least(triangle) == pytest.approx(2 * REACH, rel=1e-3)


def test_a_slanted_strip_is_as_wide_as_its_chords():
    """A parallelogram 1.5 reaches wide and 1 high, however far it leans."""
    assert least(Polygon(spans((0, 0), (1.5, 0), (4, 1), (2.5, 1)))) == pytest.approx(REACH)


def test_an_opening_ends_chords():
    """A box of 3 x 3 with one of 1 x 1 in its middle: two joints over 2 of its height, none over 1."""
    figure = rectangle(3, 3) - rectangle(1, 1, x=1, y=1)
    assert least(figure) == pytest.approx(4 * REACH)


def test_a_joint_that_is_there_ends_chords_on_the_slant_too():
    """Half of 2 x 2 either side of its diagonal: chords from 0 to 2 on both, over 1 of the height each."""
    diagonal = LineString(spans((0, 0), (2, 2)))
    assert least(rectangle(2, 2), diagonal) == pytest.approx(2 * REACH, rel=1e-3)
    assert least(rectangle(2, 2)) == pytest.approx(2 * REACH)


def test_the_reach_is_that_of_the_place():
    """Left of a joint at 2 it is one, right of it two: one joint in each half of 2 and of 3."""
    split = LineString(spans((2, 0), (2, 1)))
    assert least(rectangle(5, 1), split, far_from=2 * REACH) == pytest.approx(2 * REACH)
    assert least(rectangle(5, 1), split) == pytest.approx(3 * REACH)


def tried(figure, count=1000):
    """The same by chords at many heights, each measured with shapely and its joints counted."""
    x0, y0, x1, y1 = figure.bounds
    heights = y0 + (np.arange(count) + 0.5) * (y1 - y0) / count
    chords = figure.intersection(shapely.linestrings([[(x0 - 1, y), (x1 + 1, y)] for y in heights]))
    lengths = shapely.length(shapely.get_parts(chords))
    return (y1 - y0) / count * sum(math.ceil((n - 0.5) / REACH) - 1 for n in lengths if n > 1.0)


@given(
    st.lists(st.tuples(st.floats(0.0, 6.0), st.floats(0.0, 6.0)), min_size=3, max_size=9),
    st.floats(0.0, 360.0),
)
@settings(max_examples=20)
def test_as_many_as_chords_tried_one_by_one_ask_for(points, turn):
    """A star of any corners with the hull's middle bitten out."""
    hull = shapely.MultiPoint(spans(*points)).convex_hull
    if hull.area < REACH**2 / 4:
        return
    bite = shapely.affinity.rotate(shapely.affinity.scale(hull, 0.3, 0.3), turn)
    figure = hull - bite
    assert least(figure) == pytest.approx(tried(figure), abs=0.05 * REACH)


def test_chords_are_counted_over_the_height_where_they_are():
    """A box of 3 x 4 with one of 1 x 1 in it: two chords over 1 of its height and of its width, one elsewhere."""
    figure = rectangle(3, 4) - rectangle(1, 1, x=1, y=1)
    level, upright = chords(figure), chords(figure, axis=1)
    assert (level.high.sum(), upright.high.sum()) == (5 * REACH, 4 * REACH)
    assert level.square
    assert sorted((level.heights / REACH).tolist()) == [[0, 1], [1, 2], [1, 2], [2, 4]]
    assert sorted(level.lengths[:, 0] / REACH) == [1, 1, 3, 3]
    assert sorted(upright.lengths[:, 1] / REACH) == [1, 2, 4, 4]


def test_trapezoids_know_where_their_chords_begin_and_end():
    """A right triangle of 4 x 2, seen both ways; cut at a height besides."""
    triangle = Polygon(spans((0, 0), (4, 0), (0, 2)))
    level, upright = chords(triangle, levels=[REACH / 2]), chords(triangle, axis=1)
    assert not level.square
    assert (level.heights / REACH).tolist() == [[0, 0.5], [0.5, 2]]
    assert (level.starts.tolist(), (level.ends / REACH).tolist()) == (
        [[0, 0]] * 2,
        [[4, 3], [3, 0]],
    )
    assert (upright.heights / REACH).tolist() == [[0, 4]]
    assert (upright.lengths / REACH).tolist() == [[2, 0]]


@pytest.mark.parametrize(("off", "square"), [(0.005, True), (0.02, False)])
def test_a_hair_off_the_square_is_none(off, square):
    leaning = Polygon([(0, 0), (9000, 0), (9000 + off, 4000), (0, 4000)])
    assert chords(leaning).square is square


@pytest.mark.parametrize(("apart", "count"), [(0.005, 1), (0.02, 2)])
def test_corners_at_all_but_one_height_part_no_chords(apart, count):
    figure = Polygon([(0, 0), (9000, 0), (9000, 4000), (0, 4000 + apart)])
    assert len(chords(figure).high) == count


@given(st.lists(st.tuples(st.floats(0.0, 6.0), st.floats(0.0, 6.0)), min_size=3, max_size=9))
@settings(max_examples=20)
def test_seen_with_x_for_y_upright_chords_are_level(points):
    hull = shapely.MultiPoint(spans(*points)).convex_hull
    if hull.area < REACH**2 / 4:
        return
    mirrored = shapely.transform(hull, lambda at: at[:, ::-1])
    assert least(hull, axis=1) == pytest.approx(least(mirrored), abs=1e-6 * REACH)
    assert sum(chords(hull).lengths.mean(axis=1) * chords(hull).high) == pytest.approx(hull.area)


def test_pieces_are_straight():
    found = pieces_of([LineString([(0, 0), (3, 4), (5, 4)]), LineString([(1, 1), (2, 2)])])
    assert found.tolist() == [[[0, 0], [3, 4]], [[3, 4], [5, 4]], [[1, 1], [2, 2]]]
