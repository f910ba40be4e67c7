"""A drawing that is brought to the page: what is seen in it, and the slab that is taken from it."""

import pytest

from drawn_plans import plan_dxf, two_slabs
from kerfline.app import import_drawing
from kerfline.app.import_drawing import Brought, look_at, take
from kerfline.errors import InputRefused
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Unit

ROLES = {"SLAB": "outline", "A-WALL": "walls"}


def brought(path, **said):
    return Brought(data=path.read_bytes(), **said)


@pytest.fixture
def plan(tmp_path):
    return brought(plan_dxf(tmp_path / "plan.dxf"))


def test_a_drawing_is_seen_in_its_own_unit_with_its_layers(plan, tmp_path):
    seen = look_at(plan, tmp_path)
    assert (seen.unit, seen.known, seen.declared) == (Unit.FT, True, "feet")
    assert seen.size == pytest.approx((30, 20))
    layers = {layer.name: layer for layer in seen.layers}
    assert {name: layers[name].role for name in ROLES} == ROLES
    (wall,) = layers["A-WALL"].paths
    assert wall[0] == pytest.approx((10 * MM_PER_FOOT, 0))
    assert wall[1] == pytest.approx((10 * MM_PER_FOOT, 20 * MM_PER_FOOT))
    (outline,) = layers["SLAB"].paths
    corners = [(0, 0), (30, 0), (30, 20), (0, 20), (0, 0)]
    assert [tuple(round(c / MM_PER_FOOT) for c in p) for p in outline] == corners, "and back, once"
    assert seen.slab == 1


def test_a_unit_that_nobody_said_is_not_known(tmp_path):
    path = plan_dxf(tmp_path / "plan.dxf", unit=0)
    assert look_at(brought(path), tmp_path).known is False
    seen = look_at(brought(path, unit=Unit.M), tmp_path)
    assert (seen.unit, seen.known, seen.declared) == (Unit.M, True, "")
    assert seen.size == pytest.approx((30, 20))


def test_of_several_slabs_none_is_chosen_until_one_is_said(tmp_path):
    site = brought(two_slabs(tmp_path / "site.dxf"))
    seen = look_at(site, tmp_path)
    assert seen.slab == 0
    assert [c.number for c in seen.candidates] == [1, 2]
    taken = take(site, tmp_path, {}, "4 in", slab=2)
    assert taken.slab.concrete.area == pytest.approx(600 * MM_PER_FOOT**2)
    assert taken.notes


@pytest.mark.parametrize(("most", "shown"), [(7, 2), (6, 1), (1, 0)])
def test_a_large_drawing_is_shown_in_part_and_counted_in_whole(
    plan, tmp_path, monkeypatch, most, shown
):
    """The slab is five points around and back, the wall two."""
    monkeypatch.setattr(import_drawing, "MOST_POINTS", most)
    layers = [layer for layer in look_at(plan, tmp_path).layers if layer.count]
    assert [layer.count for layer in layers] == [1, 1]
    assert sum(len(layer.paths) for layer in layers) == shown


def test_what_is_taken_is_as_thick_as_was_typed_in_the_smaller_unit(plan, tmp_path):
    taken = take(brought_in_feet(plan), tmp_path, ROLES, "5")
    assert taken.slab.thickness == pytest.approx(5 * MM_PER_INCH)
    assert [len(w.path) for w in taken.slab.walls] == [2]


def brought_in_feet(plan):
    return Brought(data=plan.data, unit=Unit.FT)


@pytest.mark.parametrize(
    ("roles", "thickness", "words"),
    [
        ({"A-WALL": "walls"}, "4 in", "no layer is the outline"),
        (ROLES, "0 in", "thickness: this must be above zero"),
        (ROLES, "", "thickness"),
        ({"A-WALL": "outline"}, "4 in", "outline"),
    ],
)
def test_what_gives_no_slab_is_refused(plan, tmp_path, roles, thickness, words):
    with pytest.raises(InputRefused, match=words):
        take(plan, tmp_path, roles, thickness)


@pytest.mark.parametrize("data", [b"", b"hello", b"\x89PNG\r\n\x1a\n" + bytes(40)])
def test_what_is_no_plan_is_refused_without_the_name_of_a_file_of_ours(tmp_path, data):
    with pytest.raises(InputRefused) as refused:
        look_at(Brought(data=data), tmp_path)
    assert "kerfline-" not in str(refused.value)
    assert str(tmp_path) not in str(refused.value)
    assert list(tmp_path.iterdir()) == [], "no copy is left behind"
