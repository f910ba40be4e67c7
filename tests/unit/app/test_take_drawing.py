"""The slab that a drawing or a model gives, once the user has said what is what."""

import pytest

from kerfline.app.brought import Brought
from kerfline.app.take_drawing import take
from kerfline.errors import InputRefused
from kerfline.units import Unit
from unit.web.test_incoming import drawing, model

FEET = Brought(unit=Unit.FT)
ROLES = {"SLAB": "outline", "A-WALL": "walls"}


def test_the_layers_that_are_said_and_nothing_else(tmp_path):
    path = drawing(tmp_path / "plan.dxf")
    taken = take(path, FEET, ROLES, "5 in")
    assert taken.slab.outline.polygon.area == pytest.approx(600 * 304.8**2)
    assert (len(taken.slab.walls), taken.slab.thickness) == (1, pytest.approx(127))
    assert 1 <= len(taken.notes) <= 10
    assert take(path, FEET, {"SLAB": "outline"}, "5 in").slab.walls == ()


def test_without_an_outline_there_is_no_slab(tmp_path):
    path = drawing(tmp_path / "plan.dxf")
    with pytest.raises(InputRefused, match="no layer is the outline"):
        take(path, FEET, {"A-WALL": "walls"}, "5 in")
    assert take(path, FEET, {"A-WALL": "walls"}, "5 in", slab=1).slab.walls


def test_only_a_model_says_its_thickness_itself(tmp_path):
    with pytest.raises(InputRefused, match="not a length"):
        take(drawing(tmp_path / "plan.dxf"), FEET, ROLES, "")
    path = model(tmp_path / "plan.ifc", cellar=False)
    second = Brought(unit=Unit.MM, floor="2")
    assert take(path, second, {"slab": "outline"}, "").slab.thickness == pytest.approx(150)
    assert take(path, second, {"slab": "outline"}, "120").slab.thickness == pytest.approx(120)


def test_parts_of_a_model_are_left_out_where_they_are_not_said(tmp_path):
    path = model(tmp_path / "plan.ifc", cellar=True)
    ground = Brought(unit=Unit.MM, storey="Ground floor")
    whole = {"slab": "outline", "walls above it": "walls"}
    assert len(take(path, ground, whole, "").slab.walls) == 1
    assert take(path, ground, {"slab": "outline"}, "").slab.walls == ()
