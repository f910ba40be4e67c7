"""Draws what a DWG holds into a document, entity by entity."""

import math
from types import SimpleNamespace

import ezdxf
import pytest

from kerfline.files.drawing.dwg_entities import draw, is_empty


def drawn(kind, **values):
    """What one entity becomes, and what was lost."""
    space = ezdxf.new().modelspace()
    lost = draw([SimpleNamespace(dxftype=kind, dxf=values)], space)
    return list(space), dict(lost)


def only(kind, **values):
    (entity,), lost = drawn(kind, **values)
    assert lost == {}
    return entity


def test_a_line_keeps_its_ends_and_layer():
    line = only("LINE", start=(1, 2, 0), end=(3, 4, 0), layer="SLAB")
    assert (tuple(line.dxf.start), tuple(line.dxf.end)) == ((1, 2, 0), (3, 4, 0))
    assert line.dxf.layer == "SLAB"
    assert only("LINE", start=(0, 0, 0), end=(1, 0, 0)).dxf.layer == "0"


def test_its_plane_and_whether_it_is_seen_are_kept():
    circle = only("CIRCLE", center=(1, 2, 0), radius=3, extrusion=(0, 0, -1), invisible=True)
    assert tuple(circle.dxf.extrusion) == (0, 0, -1)
    assert (circle.dxf.radius, circle.dxf.invisible) == (3, 1)


def test_arcs_and_ellipses_keep_their_ends():
    arc = only("ARC", center=(0, 0, 0), radius=5, start_angle=10, end_angle=100)
    assert (arc.dxf.start_angle, arc.dxf.end_angle) == (10, 100)
    whole = only("ELLIPSE", center=(0, 0, 0), major_axis=(4, 0, 0), axis_ratio=0.5)
    assert (whole.dxf.start_param, whole.dxf.end_param) == (0, pytest.approx(math.tau))


@pytest.mark.parametrize("kind", ["LWPOLYLINE", "POLYLINE_2D"])
def test_a_polyline_keeps_bulges_widths_and_whether_it_is_closed(kind):
    points = [(0, 0), (4, 0), (4, 3)]
    poly = only(
        kind, points=points, bulges=[0, 0.5, 0], widths=[(1, 2)] * 3, closed=True, elevation=7
    )
    assert [tuple(p) for p in poly.get_points("xyseb")] == [
        (0, 0, 1, 2, 0),
        (4, 0, 1, 2, 0.5),
        (4, 3, 1, 2, 0),
    ]
    assert poly.closed
    assert poly.dxf.elevation == 7
    assert only(kind, points=points, const_width=9).dxf.const_width == 9
    assert not only(kind, points=points).closed


def test_points_of_another_number_than_bulges_are_lost_not_guessed():
    assert drawn("LWPOLYLINE", points=[(0, 0), (1, 0)], bulges=[0.5]) == ([], {"LWPOLYLINE": 1})


def test_a_spline_needs_points():
    spline = only("SPLINE", degree=2, fit_points=[(0, 0, 0), (1, 1, 0)])
    assert (spline.dxf.degree, len(spline.fit_points)) == (2, 2)
    assert drawn("SPLINE")[1] == {"SPLINE": 1}


def test_texts_keep_what_they_say_and_where():
    text = only("TEXT", text="CJ", insert=(1, 2, 0), height=2.5, rotation=30)
    assert (text.dxf.text, text.dxf.height, text.dxf.rotation) == ("CJ", 2.5, 30)
    assert tuple(text.dxf.insert) == (1, 2, 0)
    many = only("MTEXT", text="A\\PB", insert=(1, 2, 0), attachment_point=5)
    assert (many.plain_text(), many.dxf.attachment_point, many.dxf.char_height) == ("A\nB", 5, 1)


def test_a_block_reference_keeps_its_scale_and_its_array():
    insert = only(
        "INSERT",
        name="COL",
        insert=(1, 2, 0),
        xscale=-1,
        row_count=2,
        column_count=3,
        row_spacing=9,
        column_spacing=8,
    )
    assert (insert.dxf.name, insert.dxf.xscale, insert.dxf.yscale) == ("COL", -1, 1)
    assert (insert.mcount, insert.dxf.row_spacing, insert.dxf.column_spacing) == (6, 9, 8)
    assert only("INSERT", name="COL", insert=(0, 0, 0)).mcount == 1


def test_a_hatch_keeps_its_edges():
    ring = [(0, 0), (4, 0), (4, 3)]
    hatch = only("HATCH", paths=[ring, {"points": ring}], solid_fill=True)
    assert len(hatch.paths) == 2
    assert hatch.dxf.solid_fill == 1


def test_a_dimension_between_two_points_is_kept_for_its_length():
    spots = {"defpoint": (0, 5, 0), "defpoint2": (0, 0, 0), "defpoint3": (12, 0, 0)}
    dimension = only("DIMENSION", dimtype="LINEAR", text="1'", **spots)
    assert dimension.get_measurement() == pytest.approx(12)
    assert (dimension.dxf.text, dimension.dimtype) == ("1'", 0)
    assert drawn("DIMENSION", dimtype="radius", **spots) == ([], {})


def test_what_cannot_be_drawn_is_counted_and_the_rest_goes_on():
    space = ezdxf.new().modelspace()
    kinds = [("LINE", {}), ("3DSOLID", {}), ("VIEWPORT", {}), ("POINT", {"location": (1, 1, 0)})]
    lost = draw([SimpleNamespace(dxftype=k, dxf=v) for k, v in kinds], space)
    assert dict(lost) == {"LINE": 1, "3DSOLID": 1}
    assert [e.dxftype() for e in space] == ["POINT"]


def test_a_block_of_which_nothing_was_read_is_empty():
    assert is_empty(SimpleNamespace(query=lambda: iter(())))
    assert not is_empty(SimpleNamespace(query=lambda: iter([1])))
