"""A file that is brought to the page is told by what stands in it, and its name of the moment to nobody."""

from pathlib import Path

import pytest

from kerfline.app.brought import Brought, gathered, is_model, unnamed
from kerfline.errors import InputRefused, Mistake
from unit.files.test_drawn_parts import as_ifc, as_pdf
from unit.web.test_incoming import drawing


def test_a_model_is_told_from_a_drawing_by_what_stands_in_it(tmp_path):
    pytest.importorskip("ifcopenshell")
    as_ifc(tmp_path / "plan.dxf")
    assert is_model(tmp_path / "plan.dxf")
    assert not is_model(drawing(tmp_path / "plan.ifc"))


def test_what_is_neither_is_refused(tmp_path):
    (tmp_path / "plan.dxf").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(40))
    with pytest.raises(InputRefused, match="picture"):
        is_model(tmp_path / "plan.dxf")


def test_a_page_is_gathered_at_the_scale_that_is_said(tmp_path):
    as_pdf(tmp_path / "plan.pdf")
    x0, _, x1, _ = gathered(tmp_path / "plan.pdf", Brought(page=1, scale="1:100")).bounds
    wide, *_ = gathered(tmp_path / "plan.pdf", Brought(page=1, scale="1:50")).bounds
    assert x1 - x0 == pytest.approx(12_000, rel=1e-3)
    assert wide == pytest.approx(x0 / 2, rel=1e-3)


def test_a_refusal_names_no_file_of_the_moment():
    path = Path("/jobs/.kerfline-x1.drawing")
    mistake = Mistake(what=f"{path} is cut off", where=path.name, found="half", remedy="again")
    with pytest.raises(InputRefused) as refused, unnamed(path):
        raise InputRefused(mistake, mistake)
    kept = Mistake(what="the drawing is cut off", where="the drawing", found="half", remedy="again")
    assert refused.value.mistakes == (kept, kept)
