"""A file that was brought to the page: what it is, and refusals that name no file of ours."""

from dataclasses import fields

import pytest
from reportlab.pdfgen.canvas import Canvas

from drawn_plans import plan_dxf
from kerfline.app.brought import MODELLED, ROLES, Brought, gathered, is_model, unnamed
from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing import Layers
from kerfline.units import Unit


def test_a_layer_can_be_what_the_reading_knows():
    assert set(ROLES) <= {field.name for field in fields(Layers)}
    assert set(MODELLED) <= set(ROLES)


def test_a_drawing_is_no_model_and_a_picture_is_neither(tmp_path):
    assert not is_model(plan_dxf(tmp_path / "plan"))
    (tmp_path / "house").write_bytes(b"ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('IFC4'));\n")
    assert is_model(tmp_path / "house")
    (tmp_path / "photo").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(40))
    with pytest.raises(InputRefused, match="picture"):
        is_model(tmp_path / "photo")


def test_a_page_is_in_its_unit_already_and_a_drawing_says_its_own(tmp_path):
    canvas = Canvas(str(tmp_path / "page"), pagesize=(600, 600))
    canvas.rect(100, 100, 288, 216)
    canvas.save()
    page = gathered(tmp_path / "page", Brought(page=1, scale="1:100", unit=Unit.M))
    x0, _, x1, _ = page.bounds
    assert x1 - x0 == pytest.approx(288 / 72 * 25.4 * 100, rel=1e-4)
    assert gathered(plan_dxf(tmp_path / "plan"), Brought()).unit is Unit.FT


def test_a_file_of_the_moment_is_called_the_drawing(tmp_path):
    path = tmp_path / "kerfline-x7.drawing"
    with pytest.raises(InputRefused) as refused, unnamed(path):
        raise InputRefused(
            Mistake(what=f"{path.name} ends early", where=str(path), remedy="save it anew")
        )
    assert str(refused.value) == "the drawing: the drawing ends early; save it anew."
