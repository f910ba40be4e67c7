"""Walls with doors in them, wrapped."""

from shapely import LineString, box

from kerfline.geometry.wrap import wrapped


def test_walls_with_a_door_are_wrapped():
    outer, inner = box(0, 0, 9000, 6000), box(200, 200, 8800, 5800)
    door = box(4000, -10, 4900, 210)
    faces = [f.difference(door) for f in (outer.exterior, inner.exterior)]
    faces = [part for f in faces for part in f.geoms]
    (whole,) = wrapped(faces, 1220)
    assert whole.symmetric_difference(outer).area < 1e-6 * outer.area
    assert wrapped(faces, 300)[0].area < 0.2 * outer.area
    assert wrapped([LineString([(0, 0), (5000, 0)])], 300) == []
