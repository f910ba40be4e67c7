"""Everything drawn in a model space as plain curves, one bad entity at a time."""

import ezdxf
import pytest

from kerfline.files.drawing import entities
from kerfline.files.drawing.entities import harvest


@pytest.fixture
def doc():
    return ezdxf.new()


def on(layer, **more):
    return {"layer": layer, **more}


def test_curves_points_and_texts_are_told_apart(doc):
    space = doc.modelspace()
    space.add_line((0, 0), (1, 0), dxfattribs=on("A"))
    space.add_point((2, 3), dxfattribs=on("B"))
    space.add_text("CJ", dxfattribs=on("C", insert=(4, 5)))
    found = harvest(doc, 10.0)
    assert [(c.layer, c.kind, c.path.points) for c in found.curves] == [
        ("A", "LINE", ((0, 0), (10, 0)))
    ]
    assert [(s.layer, s.at) for s in found.spots] == [("B", (20, 30))]
    assert [(t.layer, t.text, t.at) for t in found.labels] == [("C", "CJ", (40, 50))]
    assert dict(found.counts) == {("A", "LINE"): 1, ("B", "POINT"): 1, ("C", "TEXT"): 1}
    assert dict(found.ignored) == {"TEXT": 1}


@pytest.mark.parametrize(
    ("end", "why"),
    [
        ((0, 0), "it has no length in plan"),
        ((float("nan"), 0), "a coordinate is not a number"),
        ((1e30, 0), "a coordinate lies beyond the earth"),
    ],
)
def test_what_is_no_line_is_skipped_with_its_reason(doc, end, why):
    doc.modelspace().add_line((0, 0), end, dxfattribs=on("A"))
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs=on("A"))
    found = harvest(doc, 1.0)
    assert [(s.kind, s.layer, s.why, s.count) for s in found.skipped] == [("LINE", "A", why, 1)]
    assert len(found.curves) == 1


def test_a_kind_that_is_not_understood_is_said(doc):
    doc.modelspace().add_3dface([(0, 0), (1, 0), (1, 1)])
    assert (
        harvest(doc, 1.0).skipped[0].why
        == "this kind is not understood; explode it to lines and arcs"
    )


def test_a_block_is_taken_apart_and_layer_0_takes_the_references(doc):
    block = doc.blocks.new("COL")
    block.add_line((0, 0), (1, 0), dxfattribs=on("0"))
    block.add_line((0, 0), (0, 1), dxfattribs=on("OWN"))
    doc.modelspace().add_blockref("COL", (5, 5), dxfattribs=on("S-COLS"))
    doc.modelspace().add_blockref("COL", (9, 5), dxfattribs=on("S-COLS"))
    found = harvest(doc, 1.0)
    assert [(c.layer, c.group) for c in found.curves] == [
        ("S-COLS", 1),
        ("OWN", 1),
        ("S-COLS", 2),
        ("OWN", 2),
    ]
    assert found.curves[0].path.points == ((5, 5), (6, 5))
    assert found.blocks == {1: "COL", 2: "COL"}


def test_a_block_that_is_not_there_or_holds_itself_is_said(doc):
    doc.modelspace().add_blockref("NOWHERE", (0, 0), dxfattribs=on("A"))
    assert harvest(doc, 1.0).skipped[0].why == "its block NOWHERE is not in the file"
    loop = ezdxf.new()
    loop.blocks.new("LOOP").add_blockref("LOOP", (1, 0))
    loop.modelspace().add_blockref("LOOP", (0, 0))
    assert [s.why for s in harvest(loop, 1.0).skipped] == ["block LOOP contains itself"]


def test_a_drawing_that_is_only_attached_is_told(doc):
    doc.add_xref_def("site/plan.dwg", "PLAN")
    doc.modelspace().add_blockref("PLAN", (0, 0))
    assert dict(harvest(doc, 1.0).attached) == {"site/plan.dwg": 1}


def test_the_type_of_line_is_its_own_or_its_layers(doc):
    doc.layers.add("J", linetype="DASHED")
    for more in ({}, {"linetype": "Center"}, {"linetype": "ByBlock"}):
        doc.modelspace().add_line((0, 0), (1, 0), dxfattribs=on("J", **more))
    assert [c.linetype for c in harvest(doc, 1.0).curves] == ["DASHED", "CENTER", "DASHED"]


def hatch(doc, layer):
    made = doc.modelspace().add_hatch(dxfattribs=on(layer))
    made.paths.add_polyline_path([(0, 0), (4, 0), (4, 3)], is_closed=True)


def test_a_hatch_on_a_slabs_layer_without_lines_is_its_edge(doc):
    hatch(doc, "SLAB")
    hatch(doc, "X")
    found = harvest(doc, 1.0)
    assert [f.layer for f in found.fills] == ["SLAB", "X"]
    assert [(c.layer, c.kind) for c in found.curves] == [("SLAB", "HATCH")]
    assert dict(found.ignored) == {"HATCH": 1}


def test_beside_lines_of_its_layer_it_is_not(doc):
    hatch(doc, "SLAB")
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs=on("SLAB"))
    assert [c.kind for c in harvest(doc, 1.0).curves] == ["LINE"]


def test_of_a_rendering_not_every_hatch_is_taken(doc, monkeypatch):
    for _ in range(3):
        hatch(doc, "X")
    monkeypatch.setattr(entities, "MOST_HATCHES", 2)
    assert len(harvest(doc, 1.0).fills) == 2


def test_while_the_unit_is_open_curves_are_taken_finely(doc):
    doc.modelspace().add_ellipse((0, 0), (1, 0), 0.5)
    fine, plain = harvest(doc, 1.0, fine=True), harvest(doc, 1.0)
    assert len(fine.curves[0].path.points) > 4 * len(plain.curves[0].path.points)


def test_an_empty_drawing_gives_nothing(doc):
    found = harvest(doc, 1.0)
    assert (found.curves, found.skipped, dict(found.counts)) == ([], (), {})
