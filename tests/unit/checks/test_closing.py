"""The panels that joints really close off, matched with those that a layout claims."""

import pytest
import shapely
from shapely import Polygon, box

from kerfline.checks.closing import Face, closed_panels, faces_of
from kerfline.geometry.faces import noded
from kerfline.model.layout import Panel

LEFT, RIGHT = box(0, 0, 3000, 3000), box(3000, 0, 6000, 3000)
FACES = (Face(LEFT), Face(RIGHT))


def panel(name, polygon):
    return Panel(id=name, polygon=polygon)


def names(*claimed, faces=FACES):
    return [p.id for p in closed_panels(faces, claimed)]


def test_faces_come_in_reading_order_each_from_its_lowest_leftmost_corner():
    concrete = box(0, 0, 6000, 3000)
    found = faces_of(concrete, noded(concrete, [shapely.LineString([(3000, 0), (3000, 3000)])]))
    assert [f.polygon.equals(p) for f, p in zip(found, (LEFT, RIGHT), strict=True)] == [True, True]
    assert [f.polygon.exterior.coords[0] for f in found] == [(0, 0), (3000, 0)]
    assert all(f.polygon.exterior.is_ccw for f in found)


def test_a_face_is_the_same_to_the_last_bit_whatever_else_is_cut():
    concrete = box(0, 0, 6000, 3000)
    joint = shapely.LineString([(3000, 0), (3000, 3000)])
    other = shapely.LineString([(4500, 3000), (4500, 0)])
    one, more = (faces_of(concrete, noded(concrete, li)) for li in ([joint], [other, joint]))
    assert one[0].polygon.wkb == more[0].polygon.wkb


def test_panels_are_named_by_what_they_cover_in_whatever_order():
    assert names(panel("P2", RIGHT), panel("P1", LEFT)) == ["P1", "P2"]
    assert names(panel("P2", shapely.reverse(RIGHT))) == ["", "P2"]
    assert names() == ["", ""]


@pytest.mark.parametrize(("aside", "named"), [(0.4, True), (0.6, True), (1.5, False)])
def test_an_outline_may_miss_by_what_a_joints_end_may(aside, named):
    """Half a millimetre over the whole outline of 12 m is 6000 mm2: a side of 3 m may miss by 2 mm... of both
    sides together; one side off by 1.5 mm and the other too is 9000."""
    claimed = box(-aside, 0, 3000 + aside, 3000)
    assert (names(panel("P1", claimed))[0] == "P1") is named


@pytest.mark.parametrize("claimed", [box(0, 0, 6000, 3000), box(0, 0, 1500, 3000)])
def test_a_panel_of_another_size_is_no_name(claimed):
    assert names(panel("P1", claimed)) == ["", ""]


def test_one_claim_names_one_face_and_the_first_of_two_counts():
    assert names(panel("P1", LEFT), panel("P9", box(0, 0, 3000, 3000))) == ["P1", ""]


def test_a_claim_that_is_the_very_face_needs_no_matching():
    assert names(panel("P7", FACES[1].polygon), panel("P8", FACES[0].polygon)) == ["P8", "P7"]


def test_panels_known_before_stay_themselves_where_face_and_name_do():
    claimed = (panel("P1", LEFT), panel("P2", RIGHT))
    before = closed_panels(FACES, claimed)
    assert closed_panels(FACES, claimed, before)[0] is before[0]
    renamed = closed_panels(FACES, (panel("P3", LEFT), claimed[1]), before)
    assert renamed[0] is not before[0]
    assert (renamed[0].id, renamed[1] is before[1]) == ("P3", True)


def test_a_panel_measures_its_face():
    (one, _) = closed_panels(FACES, ())
    assert (one.box.length, one.span) == pytest.approx((3000, 3000))
    assert one.middle == (1500, 1500)


def test_the_middle_of_a_hollow_panel_lies_on_its_concrete():
    ell = Polygon([(0, 0), (9000, 0), (9000, 1000), (1000, 1000), (1000, 9000), (0, 9000)])
    assert ell.contains(shapely.Point(Face(ell).middle))
    assert not ell.contains(ell.centroid)
