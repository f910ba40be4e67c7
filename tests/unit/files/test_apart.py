"""Readers of foreign files run in processes of their own, bounded in time and memory."""

import ezdxf
import pytest

from dwg_writing import save_dwg
from kerfline.errors import InputRefused
from kerfline.files import apart
from kerfline.files.building import read_apart
from kerfline.files.building.floors import FloorChoice
from kerfline.files.building.read_building import read_building
from kerfline.files.drawing import dwg_apart
from kerfline.files.drawing.dwg_file import open_dwg


@pytest.fixture
def dwg(tmp_path):
    made = ezdxf.new(units=4)
    made.layers.add("HIDDEN").off()
    space = made.modelspace()
    space.add_lwpolyline([(0, 0), (9000, 0, 0.5), (9000, 6000)], close=True)
    space.add_circle((1000, 1000), 200, dxfattribs={"layer": "HIDDEN"})
    return save_dwg(made, tmp_path / "plan.dwg")


def test_a_dwg_comes_whole_out_of_the_other_process(dwg):
    here, _ = open_dwg(dwg)
    there, notes = dwg_apart.open_dwg_apart(dwg)

    def rows(document):
        return [(e.dxftype(), e.dxf.layer) for e in document.modelspace()]

    assert rows(there) == rows(here)
    assert there.header["$INSUNITS"] == 4
    assert there.layers.get("HIDDEN").is_off()
    (line,), (same,) = (d.modelspace().query("LWPOLYLINE") for d in (there, here))
    assert [*map(tuple, line)] == [*map(tuple, same)]
    assert isinstance(notes, tuple)


def test_what_the_reader_refuses_is_said_as_it_says_it(tmp_path):
    path = tmp_path / "cut.dwg"
    path.write_bytes(b"AC1015" + bytes(200))
    with pytest.raises(InputRefused, match="this DWG is damaged, cut off"):
        dwg_apart.open_dwg_apart(path)


def test_a_reader_that_takes_too_long_is_stopped(dwg, monkeypatch):
    monkeypatch.setattr(dwg_apart, "LONGEST", 0.01)
    with pytest.raises(InputRefused, match="more time or memory"):
        dwg_apart.open_dwg_apart(dwg)


def test_a_process_that_dies_is_an_overrun():
    with pytest.raises(apart.Overrun):
        apart.run_apart("kerfline.files.drawing.no_such_module", [], 20)


def test_a_model_comes_whole_out_of_the_other_process(tmp_path, monkeypatch):
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    model = ModelWriter("m")
    slab = model.prism("IfcSlab", rectangle(0, 0, 12, 8), -0.1, 0, predefined="BASESLAB")
    model.void(slab, rectangle(2, 2, 1, 1), -0.2, 0.1)
    path = model.save(tmp_path / "house.ifc")

    assert read_apart.read_building_apart(path, FloorChoice()) == read_building(path)
    with pytest.raises(InputRefused, match="storey"):
        read_apart.read_building_apart(path, FloorChoice(storey="Attic"))
    monkeypatch.setattr(read_apart, "LONGEST", 0.01)
    with pytest.raises(InputRefused, match="more time or memory"):
        read_apart.read_building_apart(path, FloorChoice())
