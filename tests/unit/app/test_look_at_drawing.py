"""What is seen in a file that was brought to the page, before anything is taken of it."""

import pytest

from drawn_plans import plan_dxf, two_slabs
from kerfline.app import look_at_drawing
from kerfline.app.brought import Brought
from kerfline.app.look_at_drawing import look_at
from kerfline.errors import InputRefused
from kerfline.units import MM_PER_FOOT, Unit

ROLES = {"SLAB": "outline", "A-WALL": "walls"}


@pytest.fixture
def plan(tmp_path):
    return plan_dxf(tmp_path / "plan.dxf")


def in_feet(path):
    return [tuple(round(c / MM_PER_FOOT) for c in point) for point in path]


def test_a_drawing_is_seen_in_its_own_unit_with_its_layers(plan):
    heard = []
    seen = look_at(plan, Brought(), heard.append)
    assert (seen.unit, seen.known, seen.declared) == (Unit.FT, True, "feet")
    layers = {layer.name: layer for layer in seen.layers}
    assert {name: layers[name].role for name in ROLES} == ROLES
    (wall,), (outline,) = layers["A-WALL"].paths, layers["SLAB"].paths
    assert in_feet(wall) == [(10, 0), (10, 20)]
    assert in_feet(outline) == [(0, 0), (30, 0), (30, 20), (0, 20), (0, 0)], "and back, once"
    assert seen.slab == 1
    assert all(isinstance(words, str) for words in heard)


def test_a_unit_that_nobody_said_is_not_known(tmp_path):
    path = plan_dxf(tmp_path / "plan.dxf", unit=0)
    assert look_at(path, Brought()).known is False
    said = look_at(path, Brought(unit=Unit.M))
    assert (said.unit, said.known, said.declared) == (Unit.M, True, "")


def test_of_several_slabs_none_is_chosen_until_one_is_said(tmp_path):
    seen = look_at(two_slabs(tmp_path / "site.dxf"), Brought())
    assert seen.slab == 0
    assert [c.number for c in seen.candidates] == [1, 2]
    assert seen.candidates[0].words.startswith("1. 40'-0\" x 24'-0\"")


@pytest.mark.parametrize(("most", "shown"), [(7, 2), (6, 1), (1, 0)])
def test_a_large_drawing_is_shown_in_part_and_counted_in_whole(plan, monkeypatch, most, shown):
    """The slab is five points around and back, the wall two."""
    monkeypatch.setattr(look_at_drawing, "MOST_POINTS", most)
    layers = [layer for layer in look_at(plan, Brought()).layers if layer.count]
    assert [layer.count for layer in layers] == [1, 1]
    assert sum(len(layer.paths) for layer in layers) == shown


@pytest.mark.parametrize("data", [b"", b"hello", b"\x89PNG\r\n\x1a\n" + bytes(40)])
def test_what_is_no_plan_is_refused_without_the_name_of_its_file(tmp_path, data):
    path = tmp_path / "moment.drawing"
    path.write_bytes(data)
    with pytest.raises(InputRefused) as refused:
        look_at(path, Brought())
    assert "moment" not in str(refused.value)


def test_of_a_model_its_parts_are_the_layers(tmp_path):
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    writer = ModelWriter("ft")
    writer.prism("IfcSlab", rectangle(0, 0, 40, 28), -1 / 3, 0, predefined="BASESLAB")
    writer.wall((0, 14), (24, 14), 4.5 / 12, 0, 8, bearing=False)
    seen = look_at(writer.save(tmp_path / "shop"), Brought())
    assert seen.known
    layers = {layer.role: layer for layer in seen.layers}
    assert set(layers) == {"outline", "walls"}
    (ring,) = layers["outline"].paths
    assert sorted(set(in_feet(ring))) == [(0, 0), (0, 28), (40, 0), (40, 28)]
    assert ring[0] == ring[-1]
    assert layers["walls"].count == 1
