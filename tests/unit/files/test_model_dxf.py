"""The slab and its joints in model space, in real units and with true arcs."""

from dataclasses import replace

import pytest

from drawn_curves import box_ring
from kerfline.files.dxf_setup import APP_ID, new_document
from kerfline.files.model_dxf import draw_model
from kerfline.geometry.ring import circle
from kerfline.model.slab import Column, KeepOut, Penetration, Slab, Wall, Zone
from kerfline.sheets.marks import Layer
from kerfline.units import Unit
from shapes import layout_of, workshop_job, workshop_layout


def model(unit=Unit.MM, layout=None, **parts):
    """The model space of a slab of 9 by 6 m."""
    slab = Slab(outline=box_ring(0, 0, 9000, 6000), thickness=100.0, **parts)
    job = replace(workshop_job(unit), slab=slab)
    document = new_document(job, 100)
    draw_model(document, job, layout or layout_of(slab, []), 100)
    return document.modelspace()


def on(space, layer):
    return list(space.query(f"*[layer=='{layer.value}']"))


@pytest.mark.parametrize(("unit", "mm"), [(Unit.MM, 1.0), (Unit.FT, 25.4)])
def test_the_edge_lies_at_its_true_place(unit, mm):
    (edge,) = on(model(unit), Layer.EDGE)
    assert [tuple(p) for p in edge.get_points("xy")] == [
        pytest.approx((x / mm, y / mm)) for x, y in ((0, 0), (9000, 0), (9000, 6000), (0, 6000))
    ]
    assert edge.closed
    assert edge.has_xdata(APP_ID)


def test_an_opening_keeps_its_arcs_and_is_crossed_out():
    ring, *cross = on(model(openings=(circle((4000, 3000), 1000),)), Layer.OPENING)
    assert all(b for *_, b in ring.get_points("xyb"))
    assert len(cross) == 2


def test_a_penetration_is_a_circle_of_its_size_with_a_cross():
    found = on(
        model(penetrations=(Penetration(id="N1", at=(1000, 2000), diameter=400),)),
        Layer.PENETRATION,
    )
    assert [e.dxftype() for e in found] == ["CIRCLE", "LINE", "LINE"]
    assert (tuple(found[0].dxf.center)[:2], found[0].dxf.radius) == ((1000, 2000), 200)


def test_a_small_penetration_is_still_seen():
    found = on(
        model(penetrations=(Penetration(id="N1", at=(1000, 2000), diameter=10),)), Layer.PENETRATION
    )
    assert found[0].dxf.radius == pytest.approx(90)


def test_every_part_lies_on_its_layer():
    space = model(
        walls=(Wall(id="W1", path=((0, 3000), (9000, 3000)), thickness=120),),
        columns=(Column(id="C1", at=(2000, 1000)),),
        zones=(Zone(id="Z1", outline=box_ring(5000, 500, 900, 900), thickness=200),),
        keep_outs=(KeepOut(id="K1", outline=box_ring(7000, 500, 900, 900)),),
    )
    for layer in (Layer.WALL, Layer.COLUMN, Layer.ISOLATION, Layer.ZONE, Layer.KEEP_OUT):
        assert on(space, layer), layer


def test_joints_carry_their_name_kind_length_and_depth():
    job, layout = workshop_job(Unit.MM), workshop_layout()
    document = new_document(job, 100)
    draw_model(document, job, layout, 100)
    straight = [r for e in document.modelspace() for r in getattr(e, "records", ())]
    for joint in layout.joints:
        if len(joint.path) == 2:
            data = f"1000\n{joint.id}\n1000\n{joint.kind.value}\n1040\n{joint.length}\n"
            assert any(data in record for record in straight)


def test_both_sides_are_dimensioned_from_the_corner():
    dims = [d for d in model().query("DIMENSION") if d.dimtype == 6]
    far = {round(v) for d in dims for v in (d.get_measurement().x, d.get_measurement().y)}
    assert {0, 6000, 9000} <= far


def test_the_view_opens_on_the_slab():
    header = model().doc.header
    assert header["$EXTMIN"][:2] == (-4800, -4800)
    assert header["$EXTMAX"][:2] == (13800, 10800)
