"""The slab that is taken of a file that was brought, once it is said what each layer is."""

import pytest

from drawn_plans import plan_dxf, two_slabs
from kerfline.app.brought import MODELLED, Brought
from kerfline.app.take_drawing import take
from kerfline.errors import InputRefused
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Unit

ROLES = {"SLAB": "outline", "A-WALL": "walls"}


@pytest.fixture
def plan(tmp_path):
    return plan_dxf(tmp_path / "plan.dxf")


def test_it_is_as_thick_as_was_typed_in_the_smaller_unit_and_has_its_walls(plan):
    taken = take(plan, Brought(unit=Unit.FT), ROLES, "5")
    assert taken.slab.thickness == pytest.approx(5 * MM_PER_INCH)
    assert [len(w.path) for w in taken.slab.walls] == [2]
    assert taken.notes


def test_a_layer_that_is_nothing_is_left_out(plan):
    assert take(plan, Brought(), {"SLAB": "outline", "A-WALL": ""}, "4 in").slab.walls == ()


def test_the_candidate_that_is_chosen_is_taken(tmp_path):
    site = two_slabs(tmp_path / "site.dxf")
    for number, square_feet in ((1, 960), (2, 600)):
        slab = take(site, Brought(), {}, "4 in", slab=number).slab
        assert slab.concrete.area == pytest.approx(square_feet * MM_PER_FOOT**2)


@pytest.mark.parametrize(
    ("roles", "thickness", "words"),
    [
        ({"A-WALL": "walls"}, "4 in", "no layer is the outline"),
        (ROLES, "0 in", "thickness: this must be above zero"),
        (ROLES, "", "thickness"),
        ({"A-WALL": "outline"}, "4 in", "outline"),
    ],
)
def test_what_gives_no_slab_is_refused(plan, roles, thickness, words):
    with pytest.raises(InputRefused, match=words):
        take(plan, Brought(), roles, thickness)


def test_of_a_model_only_the_parts_that_were_kept_are_taken(tmp_path):
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    writer = ModelWriter("ft")
    writer.prism("IfcSlab", rectangle(0, 0, 40, 28), -1 / 3, 0, predefined="BASESLAB")
    writer.wall((0, 14), (24, 14), 4.5 / 12, 0, 8, bearing=False)
    model = writer.save(tmp_path / "shop")
    outline = {MODELLED["outline"]: "outline"}
    bare = take(model, Brought(), outline, "").slab
    assert bare.walls == ()
    assert bare.thickness == pytest.approx(4 * MM_PER_INCH), "its own, where none is typed"
    whole = take(model, Brought(unit=Unit.FT), {**outline, MODELLED["walls"]: "walls"}, "5").slab
    assert len(whole.walls) == 1
    assert whole.thickness == pytest.approx(5 * MM_PER_INCH)
