"""The sheets of a layout drawn anew."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from commands import boathouse, run


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return boathouse(tmp_path)


def test_sheets_elsewhere_are_drawn_of_the_layout_that_lies_where_it_was_left(
    job, tmp_path, monkeypatch
):
    """``--out`` says where to write; the layout is found where ``kerfline layout`` left it."""
    monkeypatch.chdir(tmp_path)
    assert run("layout", str(job)).exit_code in (0, 1)
    other = tmp_path / "metric"
    result = run("sheets", str(job), "--units", "mm", "--out", str(other))
    assert result.exit_code == 0, result.output
    assert (other / "boathouse-joint-plan.pdf").is_file()


def test_every_sentence_of_a_sheet_follows_the_unit_it_is_redrawn_in(tmp_path, monkeypatch):
    """A wall too near the edge is left, and the sheet says by how much, in whatever unit is asked for."""
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "shed.toml"
    job.write_text(
        '[job]\nname = "Shed"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        "outline = [[0, 0], [30, 0], [30, 20], [0, 20]]\n"
        '[[wall]]\nid = "W7"\npath = [[0, 1.2], [30, 1.2]]\n'
    )
    run("layout", str(job))
    plan = tmp_path / "out" / "shed" / "shed-joint-plan.svg"
    assert "2'-0" in spoken(plan)
    assert run("sheets", str(job), "--units", "mm").exit_code == 0
    assert "under the least width of 610 mm" in spoken(plan)


def spoken(sheet):
    """All that is written on a sheet, its lines joined."""
    return " ".join(
        "".join(t.itertext()) for t in ElementTree.parse(sheet).iter() if t.tag.endswith("text")
    )
