"""Marks of a sheet as entities of a layout."""

from dataclasses import replace

import ezdxf
import pytest

from kerfline.files.dxf_marks import PALEST, MarkWriter, plain_text
from kerfline.files.dxf_setup import OLDEST, new_document
from kerfline.sheets.marks import Anchor, Fill, Layer, Path, Text
from kerfline.units import Unit
from shapes import workshop_job


@pytest.mark.parametrize(
    ("said", "plain"),
    [
        ("J1 at 3'-0\"", "J1 at 3'-0\""),
        ("3½″", '3 1/2"'),
        ("2×4 – ≤ 5 m²", "2x4 - <= 5 m2"),
        ("90°", "90%%d"),
        ("⌀ 110", "%%c 110"),
        ("50 %%u", "50 % %u"),
        ("a^b", "a^ b"),
        ("a\nb\tc", "a b c"),
        ("Zoë Ünal", "Zoë Ünal"),
        ("", ""),
    ],
)
def test_text_for_old_readers(said, plain):
    assert plain_text(said) == plain


def writer(version="R2010", scale=1.0, turn=0.0, place=lambda p: p, **more):
    document = new_document(workshop_job(Unit.MM), 100, version)
    return MarkWriter(document.modelspace(), place, scale, turn, 1.0, **more)


def drawn(*marks, version="R2010", **more):
    made = writer(version, **more)
    made.write_all(marks)
    return list(made.space)


def fill(tone=None):
    return Fill(layer=Layer.WALL, rings=(((0, 0), (4, 0), (4, 3)),), tone=tone)


def test_a_point_is_placed_turned_and_scaled():
    made = MarkWriter(
        ezdxf.new().modelspace(), lambda p: (10 - 2 * p[1], 20 + 2 * p[0]), 2.0, 90.0, 25.4
    )
    assert made.at((0, 0)) == pytest.approx((10 / 25.4, 20 / 25.4))
    assert made.at((3, 4)) == pytest.approx((2 / 25.4, 26 / 25.4))


def test_a_curve_is_a_polyline_with_its_bulges():
    arc = Path(
        layer=Layer.EDGE,
        points=((0, 0), (4, 0), (4, 3)),
        bulges=(0.5, 0, 0),
        closed=True,
        in_view=True,
    )
    (found,) = drawn(arc)
    assert found.dxftype() == "LWPOLYLINE"
    assert [tuple(p) for p in found.get_points("xyb")] == [(0, 0, 0.5), (4, 0, 0), (4, 3, 0)]
    assert (found.closed, found.dxf.layer) == (True, Layer.EDGE.value)


def test_a_width_of_its_own_is_in_hundredths():
    wide = Path(layer=Layer.EDGE, points=((0, 0), (4, 0), (4, 3)), width=0.35)
    assert drawn(wide)[0].dxf.lineweight == 35


def test_dashes_are_scaled_where_the_layout_has_a_factor():
    dashed = Path(layer=Layer.CONTROL, points=((0, 0), (4, 0), (4, 3)))
    assert drawn(dashed, dash=0.5)[0].dxf.ltscale == 0.5
    assert not drawn(dashed)[0].dxf.hasattr("ltscale")
    plain = Path(layer=Layer.EDGE, points=((0, 0), (4, 0), (4, 3)))
    assert not drawn(plain, dash=0.5)[0].dxf.hasattr("ltscale")


def test_a_fill_is_filled_and_in_the_oldest_form_a_light_one_is_left_white():
    assert drawn(fill())[0].dxftype() == "HATCH"
    assert len(drawn(fill(), version=OLDEST)) == 1
    dark, light = PALEST / 255, (PALEST + 1) / 255
    assert len(drawn(fill(dark), version=OLDEST)) == 1
    assert drawn(fill(light), version=OLDEST) == []
    assert len(drawn(fill(light))) == 1


def test_nothing_is_written_of_no_marks():
    assert drawn() == []


def test_texts_are_written_in_plain_letters():
    document = new_document(workshop_job(Unit.MM), 100)
    made = MarkWriter(document.modelspace(), lambda p: p, 1.0, 0.0, 1.0)
    made.write_all([Text(layer=Layer.NOTE, at=(1, 2), text="3½″", height=2.0)])
    (records,) = made.space
    assert '1\n3 1/2"\n' in records.records[0]


def test_a_sample_of_a_real_thing_is_counted_with_no_layer_of_it():
    """In a legend it lies on the layer of tables, and looks as the thing does."""
    sample = Path(layer=Layer.CONTROL, points=((0, 0), (4, 0), (4, 3)))
    (found,) = drawn(sample)
    assert found.dxf.layer == Layer.TABLE.value
    assert (found.dxf.linetype, found.dxf.color) == ("DASHED", 1)
    (real,) = drawn(replace(sample, in_view=True))
    assert real.dxf.layer == Layer.CONTROL.value
    assert not real.dxf.hasattr("linetype")


def test_a_letter_in_its_circle_is_one_reference():
    circle = Path(layer=Layer.GRID_NAME, points=((0, 0), (6, 0)), bulges=(1.0, 1.0), closed=True)
    look = {"layer": Layer.GRID_NAME, "text": "A", "height": 2.0, "anchor": Anchor.MIDDLE}
    (records,) = drawn(circle, Text(at=(3, -1), **look))
    assert "\nGRID_NAME\n10\n3.000000\n" in records.records[0]
    assert len(drawn(circle, Text(at=(9, -1), **look))) == 2
