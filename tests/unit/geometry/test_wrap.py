"""Walls with doors in them, wrapped."""

import pytest
from shapely import LineString, Polygon, affinity, box, union_all

from kerfline.geometry.wrap import STRAIGHTEN, _narrowed, grown, wrapped


def test_walls_with_a_door_are_wrapped():
    outer, inner = box(0, 0, 9000, 6000), box(200, 200, 8800, 5800)
    door = box(4000, -10, 4900, 210)
    faces = [f.difference(door) for f in (outer.exterior, inner.exterior)]
    faces = [part for f in faces for part in f.geoms]
    (whole,) = wrapped(faces, 1220)
    assert whole.symmetric_difference(outer).area < 1e-6 * outer.area
    assert wrapped(faces, 300)[0].area < 0.2 * outer.area
    assert wrapped([LineString([(0, 0), (5000, 0)])], 300) == []


CROSSED = (
    LineString([(12743.96698177944, 7361.875660608188), (3646.941369966071, 2939.9495059749374)]),
    LineString([(4913.579795710274, -1545.3432220306338), (4913.579795710274, 7298.811088421154)]),
)
"""Two walls of a damaged drawing: the buffer that narrows them again leaves an edge that crosses itself."""


def test_two_walls_that_cross_close_nothing_off():
    assert wrapped(CROSSED, 1220.0) == []
    assert wrapped(CROSSED, 20.0) == []


@pytest.mark.parametrize("by", [-611.0, -300.0, 250.0])
def test_what_is_grown_or_narrowed_is_sound(by):
    wide = union_all([line.buffer(611.0, cap_style="square") for line in CROSSED])
    assert grown(wide, by).is_valid
    hall = grown(box(0, 0, 4000, 3000), by)
    assert hall.symmetric_difference(box(-by, -by, 4000 + by, 3000 + by)).area == pytest.approx(0.0)


@pytest.mark.parametrize("turn", [0.0, 17.0, 33.3])
@pytest.mark.parametrize("gap", [300.0, 600.0, 1220.0])
@pytest.mark.parametrize(
    ("mouth", "back", "deep"), [(1000, 200, 800), (2000, 400, 1200), (1400, 300, 1500)]
)
def test_narrowing_stops_at_the_back_of_a_notch_whose_sides_come_together(
    mouth, back, deep, gap, turn
):
    """Sharp corners alone would carry the sides on to where they meet, through the wall behind the notch."""
    ends = [(4000.0, 0.0), (4000 + (mouth - back) / 2, deep), (4000 + (mouth + back) / 2, deep)]
    corners = [(0, 0), *ends, (4000.0 + mouth, 0.0), (9000, 0), (9000, 6000), (0, 6000)]
    facade = affinity.rotate(Polygon(corners), turn, origin=(0, 0))
    half = gap / 2 + 1.0
    filled = Polygon(LineString(facade.exterior.coords).buffer(half, join_style="mitre").exterior)
    narrowed = _narrowed(filled, half, facade.exterior)
    assert narrowed.symmetric_difference(facade).area < 1e-5 * facade.area
    assert facade.exterior.difference(narrowed.buffer(1.0)).is_empty


def test_narrowing_leaves_sharp_corners_sharp():
    square = box(0, 0, 5000, 5000)
    found = _narrowed(square.buffer(300, join_style="mitre"), 300, square.exterior)
    assert found.symmetric_difference(square).area < 1.0


def test_the_steps_of_a_lines_end_throw_no_corner_out():
    """A step of 23 mm at the end of a face, which sharp corners of 2.4 m would make a bump of 100 mm."""
    step = [(3_300, -365), (50, -365), (50, -342), (0, -342)]
    faces = [
        LineString([(-8_000, 0), (0, 0), (0, -342)]),
        LineString([(-100, -342), (0, -342)]),
        LineString([(0, 0), (9_000, 0)]),
        LineString([(-8_000, 0), (-8_000, -6_000), (9_000, -6_000), (9_000, 0)]),
        LineString(step),
    ]
    (area,) = wrapped(faces, 4_880)
    assert area.bounds[3] == pytest.approx(0.0, abs=STRAIGHTEN)


def test_a_turned_outline_is_wrapped_as_one_that_lies_square():
    """The last bits of floats leave edges of no length, which sharp corners would make large."""
    walls = [box(0, -300, 10_000, 300), box(9_700, 0, 10_300, 8_000), box(0, 7_700, 10_000, 8_300)]
    lines = [w.exterior for w in (*walls, box(-300, 0, 300, 8_000))]
    (square,) = wrapped(lines, 1_220)
    turned = wrapped([affinity.rotate(w, 17.3, origin=(0, 0)) for w in lines], 1_220)
    back = affinity.rotate(turned[0], -17.3, origin=(0, 0))
    assert back.symmetric_difference(square).area < 1e-6 * square.area
