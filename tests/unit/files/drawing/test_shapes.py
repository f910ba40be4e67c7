"""The plan view of one entity as straight and arc segments."""

import math

import ezdxf
import pytest

from kerfline.files.drawing.no_shape import NoShape
from kerfline.files.drawing.shapes import has_shape, hatch_edges, shape_of, width_of

DOWN = {"extrusion": (0, 0, -1)}


@pytest.fixture
def space():
    return ezdxf.new().modelspace()


def paths(entity, factor=1.0, fine=1.0):
    return list(shape_of(entity, factor, fine))


def test_curves_have_a_shape_and_texts_have_none():
    assert all(map(has_shape, ("LINE", "ARC", "LWPOLYLINE", "SPLINE", "3DSOLID")))
    assert not any(map(has_shape, ("TEXT", "HATCH", "INSERT", "")))


def test_a_line_in_millimetres(space):
    (path,) = paths(space.add_line((0, 0), (1, 2)), 25.4)
    assert path.points == ((0, 0), (25.4, 50.8))


def test_an_arc_keeps_its_bulge_and_seen_from_below_it_turns(space):
    (arc,) = paths(space.add_arc((0, 0), 1, 0, 90))
    assert arc.points == (pytest.approx((1, 0)), pytest.approx((0, 1)))
    assert arc.bulges[0] == pytest.approx(math.tan(math.pi / 8))
    (below,) = paths(space.add_arc((0, 0), 1, 0, 90, dxfattribs=DOWN))
    assert below.points == (pytest.approx((-1, 0)), pytest.approx((0, 1)))
    assert below.bulges[0] == pytest.approx(-math.tan(math.pi / 8))


def test_a_circle_and_an_arc_all_around_are_two_half_circles(space):
    for entity in (space.add_circle((5, 0), 2), space.add_arc((5, 0), 2, 30, 30)):
        (path,) = paths(entity, 10)
        assert path.points == (pytest.approx((30, 0)), pytest.approx((70, 0)))
        assert (path.bulges, path.closed) == ((1, 1), True)


def test_a_circle_of_nothing_has_no_shape(space):
    with pytest.raises(NoShape, match="its radius is nothing"):
        paths(space.add_circle((5, 0), 0))


def test_a_circle_that_leans_is_an_ellipse_of_chords(space):
    leaning = space.add_circle((0, 0), 1000, dxfattribs={"extrusion": (1, 0, 1)})
    (path,) = paths(leaning)
    xs, ys = zip(*path.points, strict=True)
    assert max(xs) - min(xs) == pytest.approx(2000 * math.sqrt(0.5), rel=1e-3)
    assert max(ys) - min(ys) == pytest.approx(2000, rel=1e-3)


def test_a_polyline_keeps_its_bulges_and_whether_it_is_closed(space):
    poly = space.add_lwpolyline([(0, 0, 0.5), (4, 0, 0)], format="xyb", close=True)
    (path,) = paths(poly)
    assert (path.points, path.bulges, path.closed) == (((0, 0), (4, 0)), (0.5, 0), True)


def test_a_bulge_of_nothing_is_straight_and_one_without_end_is_refused(space):
    (path,) = paths(space.add_lwpolyline([(0, 0, 1e-12), (4, 0, 0)], format="xyb"))
    assert path.bulges == ()
    with pytest.raises(NoShape, match="a bulge is not that of an arc"):
        paths(space.add_lwpolyline([(0, 0, math.inf), (4, 0, 0)], format="xyb"))
    with pytest.raises(NoShape, match="fewer than two points"):
        paths(space.add_lwpolyline([(0, 0)]))


def test_control_points_of_a_smoothed_polyline_are_not_on_it(space):
    poly = space.add_polyline2d([(0, 0), (1, 5), (2, 0)])
    poly.vertices[1].dxf.flags = 16
    assert paths(poly)[0].points == ((0, 0), (2, 0))


def test_a_mesh_is_no_edge(space):
    with pytest.raises(NoShape, match="it is a mesh, not an edge"):
        paths(space.add_polymesh((2, 2)))


def test_free_form_curves_are_chords_near_the_curve(space):
    (path,) = paths(space.add_ellipse((0, 0), (1000, 0), 0.5))
    assert all(abs(math.hypot(x / 1000, y / 500) - 1) < 1e-6 for x, y in path.points)
    assert path.points[0] == pytest.approx(path.points[-1])
    small = space.add_ellipse((0, 0), (1, 0), 0.5)
    assert len(paths(small, 1.0, 1000.0)[0].points) > 4 * len(paths(small)[0].points)


def test_a_filled_area_is_its_edge(space):
    (path,) = paths(space.add_solid([(0, 0), (4, 0), (0, 3), (4, 3)]))
    assert path.closed
    assert path.ring().polygon.area == 12


def test_the_width_of_a_polyline(space):
    row = [(0, 0, 2, 2), (4, 0, 2, 2)]
    assert width_of(space.add_lwpolyline(row, format="xyse")) == 2
    assert width_of(space.add_lwpolyline([(0, 0, 1, 2), (4, 0, 2, 1)], format="xyse")) == 0
    assert width_of(space.add_lwpolyline(row, format="xyse", dxfattribs={"const_width": 5})) == 5
    assert width_of(space.add_lwpolyline([(0, 0), (4, 0)])) == 0
    assert width_of(space.add_line((0, 0), (4, 0))) == 0
    old = space.add_polyline2d(
        [(0, 0), (4, 0)], dxfattribs={"default_start_width": 3, "default_end_width": 3}
    )
    assert width_of(old) == 3
    old.vertices[0].dxf.start_width = 1
    assert width_of(old) == 0
    assert width_of(space.add_polyline3d([(0, 0, 0), (4, 0, 0)])) == 0


def test_the_edges_of_a_hatch_are_closed(space):
    hatch = space.add_hatch()
    hatch.paths.add_polyline_path([(0, 0), (4, 0), (4, 3)], is_closed=True)
    hatch.paths.add_polyline_path([(1, 0.2), (2, 0.2), (2, 0.4)], is_closed=True)
    edges = list(hatch_edges(hatch, 10))
    assert [e.closed for e in edges] == [True, True]
    assert edges[0].points == ((0, 0), (40, 0), (40, 30))
