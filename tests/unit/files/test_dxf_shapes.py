"""Curves and fills in the form that a document's version knows."""

import ezdxf
import pytest

from kerfline.files.dxf_shapes import add_curve, add_fill, is_oldest

RING = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]


def space(version):
    return ezdxf.new(version).modelspace()


@pytest.mark.parametrize(
    ("version", "oldest", "kind"), [("R12", True, "POLYLINE"), ("R2000", False, "LWPOLYLINE")]
)
def test_a_curve_keeps_its_arcs_in_either_form(version, oldest, kind):
    drawn = add_curve(
        space(version), [(0, 0, 1.0), (4, 0, 0)], {"layer": "S", "lineweight": 50}, closed=True
    )
    assert is_oldest(drawn.doc) is oldest
    assert drawn.dxftype() == kind
    assert drawn.dxf.layer == "S"
    bulges = (
        [v.dxf.bulge for v in drawn.vertices] if oldest else [b for (b,) in drawn.get_points("b")]
    )
    assert bulges == [1.0, 0.0]


def test_a_fill_is_a_hatch_with_its_grey_and_its_holes():
    model = space("R2000")
    add_fill(model, [RING, [(1, 1), (2, 1), (2, 2)]], {"layer": "S"}, grey=128)
    (hatch,) = model.query("HATCH")
    assert len(hatch.paths) == 2
    assert tuple(hatch.rgb) == (128, 128, 128)
    add_fill(model, [RING], {"layer": "S"})
    assert model.query("HATCH")[1].rgb is None


def test_the_oldest_form_fills_triangles_and_quadrangles_and_outlines_others():
    model = space("R12")
    add_fill(model, [RING, RING[:3], [*RING, (-1.0, 1.5)]], {"layer": "S", "lineweight": 50})
    solids = model.query("SOLID")
    assert len(solids) == 2
    assert [tuple(p)[:2] for p in solids[0].wcs_vertices()] == RING, "in the order of its corners"
    assert len(model.query("POLYLINE")) == 1
