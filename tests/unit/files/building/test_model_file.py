"""Opening a building model: its unit, and what is refused."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.building import model_file
from kerfline.files.building.model_file import mm_per_unit, open_model, unit_of
from kerfline.units import Unit
from models import ModelWriter


@pytest.mark.parametrize(
    ("said", "unit", "mm"),
    [("mm", Unit.MM, 1.0), ("m", Unit.M, 1000.0), ("ft", Unit.FT, 304.8)],
)
def test_a_model_has_its_unit(tmp_path, said, unit, mm):
    model = open_model(ModelWriter(said).save(tmp_path / "a.ifc"))
    assert unit_of(model) is unit
    assert mm_per_unit(model) == pytest.approx(mm)


def test_a_model_that_is_cut_off_is_refused(tmp_path):
    path = ModelWriter().save(tmp_path / "a.ifc")
    path.write_bytes(path.read_bytes().replace(b"END-ISO-10303-21;", b""))
    with pytest.raises(
        InputRefused, match=r"a\.ifc: this model is cut off; copy or export it again"
    ):
        open_model(path)


def test_the_end_counts_only_at_the_end(tmp_path):
    path = tmp_path / "a.ifc"
    path.write_bytes(b"END-ISO-10303-21;" + b" " * 5000)
    with pytest.raises(InputRefused, match="cut off"):
        open_model(path)


def test_a_damaged_model_is_refused(tmp_path):
    path = tmp_path / "a.ifc"
    path.write_bytes(b"ISO-10303-21;\nHEADER;\n#1=IFCWALL((((\nEND-ISO-10303-21;")
    with pytest.raises(InputRefused):
        open_model(path)


def test_a_model_that_is_too_large_is_refused(tmp_path, monkeypatch):
    path = ModelWriter().save(tmp_path / "a.ifc")
    monkeypatch.setattr(model_file, "MOST_BYTES", path.stat().st_size)
    assert open_model(path).schema == "IFC4"
    monkeypatch.setattr(model_file, "MOST_BYTES", path.stat().st_size - 1)
    with pytest.raises(InputRefused, match="this model is too large"):
        open_model(path)


def test_an_edition_that_is_not_read_is_named(tmp_path, monkeypatch):
    path = ModelWriter().save(tmp_path / "a.ifc")
    monkeypatch.setattr(model_file, "SCHEMAS", ("IFC2X3",))
    with pytest.raises(InputRefused, match="found IFC4; allowed is IFC2X3"):
        open_model(path)
