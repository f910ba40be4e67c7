"""What a drawing holds is shown before anything of it is taken."""

import pytest

from kerfline.app import look_at_drawing
from kerfline.app.brought import Brought
from kerfline.app.look_at_drawing import look_at
from kerfline.units import Unit
from unit.files.test_drawn_parts import as_pdf
from unit.web.test_incoming import drawing

FT = 304.8


def test_the_layers_their_roles_and_the_size(tmp_path):
    seen = look_at(drawing(tmp_path / "plan.dxf"), Brought())
    assert {layer.name: (layer.role, layer.count) for layer in seen.layers if layer.count} == {
        "SLAB": ("outline", 1),
        "A-WALL": ("walls", 1),
    }
    assert (seen.unit, seen.known, seen.declared) == (Unit.FT, True, "feet")
    assert (seen.size, seen.measured) == ((30, 20), False)
    assert (seen.model, seen.asks, seen.storeys) == (False, "", ())


def test_an_open_unit_is_one_that_the_size_can_be_shown_in_and_not_known(tmp_path):
    path = drawing(tmp_path / "plan.dxf", unit=0)
    assert not look_at(path, Brought()).known
    said = look_at(path, Brought(unit=Unit.M))
    assert (said.unit, said.known, said.declared) == (Unit.M, True, "")
    assert said.layers[-1].paths or said.layers[0].paths


def test_the_size_of_a_page_is_certain_whatever_unit_the_job_is_in(tmp_path):
    as_pdf(tmp_path / "plan.pdf")
    sizes = {
        look_at(tmp_path / "plan.pdf", Brought(unit=unit, page=1, scale="1:100")).size
        for unit in (Unit.MM, Unit.FT)
    }
    ((wide, _),) = sizes
    assert wide == pytest.approx(12_000, rel=1e-3)


def test_a_large_drawing_is_shown_in_part_and_counted_whole(tmp_path, monkeypatch):
    monkeypatch.setattr(look_at_drawing, "MOST_POINTS", 3)
    layers = {
        layer.name: layer for layer in look_at(drawing(tmp_path / "plan.dxf"), Brought()).layers
    }
    assert (layers["SLAB"].count, len(layers["SLAB"].paths)) == (1, 0)
    assert (layers["A-WALL"].count, len(layers["A-WALL"].paths)) == (1, 1)


def test_it_says_what_it_is_at(tmp_path):
    told = []
    look_at(drawing(tmp_path / "plan.dxf"), Brought(), told.append)
    assert told == ["Reading its lines", "Looking for the slab"]
