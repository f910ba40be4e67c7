"""What an element of a model covers in plan, and from which level to which."""

import pytest
from shapely import MultiPolygon, box

from kerfline.errors import InputRefused
from kerfline.files.building import bodies as module
from kerfline.files.building.bodies import Bodies, largest
from kerfline.files.building.model_file import open_model
from models import ModelWriter, rectangle


def read(writer, tmp_path) -> Bodies:
    path = writer.save(tmp_path / "house.ifc")
    return Bodies(open_model(path), path)


def slab(writer, unit=1.0, **more):
    return writer.prism(
        "IfcSlab",
        [(x * unit, y * unit) for x, y in rectangle(0, 0, 9000, 6000)],
        -150 * unit,
        0,
        **more,
    )


@pytest.mark.parametrize("unit", ["mm", "m", "ft"])
def test_a_slab_in_any_unit_is_in_millimetres(tmp_path, unit):
    writer = ModelWriter(unit)
    slab(writer, 1 / writer.mm)
    (body,) = read(writer, tmp_path).of("IfcSlab")
    assert (body.bottom, body.top) == (pytest.approx(-150), pytest.approx(0))
    assert body.footprint.area == pytest.approx(54e6)
    assert body.footprint.bounds == pytest.approx((0, 0, 9000, 6000))


def test_its_level_faces_are_told_by_height_and_way(tmp_path):
    writer = ModelWriter()
    slab(writer)
    (body,) = read(writer, tmp_path).of("IfcSlab")
    assert list(body.level_faces(1).items()) == [pytest.approx((0.0, 54e6))]
    assert list(body.level_faces(-1).items()) == [pytest.approx((-150.0, 54e6))]


@pytest.mark.parametrize(
    ("said", "kind"), [("BASESLAB", "BASESLAB"), ("FLOOR", "FLOOR"), ("NOTDEFINED", "")]
)
def test_what_the_model_calls_it_more_closely(tmp_path, said, kind):
    writer = ModelWriter()
    slab(writer, predefined=said)
    assert read(writer, tmp_path).of("IfcSlab")[0].kind == kind


def test_voids_are_taken_out_unless_the_whole_is_asked_for(tmp_path):
    writer = ModelWriter()
    writer.void(slab(writer), rectangle(1000, 1000, 2000, 1000), -500, 500)
    bodies = read(writer, tmp_path)
    assert bodies.of("IfcSlab")[0].footprint.area == pytest.approx(52e6)
    assert bodies.of("IfcSlab", whole=True)[0].footprint.area == pytest.approx(54e6)


def test_each_body_is_made_once(tmp_path):
    writer = ModelWriter()
    slab(writer)
    bodies = read(writer, tmp_path)
    assert bodies.of("IfcSlab") is bodies.of("IfcSlab")
    assert bodies.of("IfcColumn") == []
    assert bodies.notes() == []


def test_too_many_of_a_kind_are_refused(tmp_path, monkeypatch):
    writer = ModelWriter()
    for n in range(3):
        writer.prism("IfcColumn", rectangle(1000 * n, 0, 200, 200), 0, 2700)
    monkeypatch.setattr(module, "MOST_ELEMENTS", 3)
    assert len(read(writer, tmp_path).of("IfcColumn")) == 3
    monkeypatch.setattr(module, "MOST_ELEMENTS", 2)
    with pytest.raises(InputRefused, match="this model has 3 elements of the class IfcColumn"):
        read(writer, tmp_path).of("IfcColumn")


def test_an_element_without_a_sound_body_is_named(tmp_path):
    writer = ModelWriter()
    wall = writer.wall((0, 1000), (3000, 1000), 100, 0, 2700)
    wall.Representation.Representations[0].Items[0].Depth = 0.0
    bodies = read(writer, tmp_path)
    assert bodies.of("IfcWall") == []
    (note,) = bodies.notes()
    assert note.startswith("1 element of the class IfcWall not read, as no body can be made of")
    assert f"(#{wall.id()})" in note


def test_the_largest_piece_of_an_area():
    assert largest(MultiPolygon([box(0, 0, 1, 1), box(5, 0, 8, 2)])).area == 6


def test_the_pieces_of_a_footprint_come_the_largest_first(tmp_path):
    writer = ModelWriter()
    made = writer.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -150, 0)
    writer.void(made, rectangle(2000, -100, 1000, 6200), -500, 500)
    (body,) = read(writer, tmp_path).of("IfcSlab")
    assert [p.area for p in body.footprint.geoms] == pytest.approx([36e6, 12e6])
