"""A job file written from a drawing or a size."""

from pathlib import Path

import pytest

from commands import boathouse, refusal, run, square_plan
from kerfline.app.open_job import open_job


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return boathouse(tmp_path)


def test_new_writes_a_job_that_layout_reads(tmp_path: Path) -> None:
    drawing = square_plan(tmp_path)
    result = run("new", str(drawing), "--thickness", "4 in")
    assert result.exit_code == 0, result.output
    assert "S-SLAB-EDGE" in result.output
    again = run("layout", str(drawing.with_suffix(".toml")), "--out", str(tmp_path / "o"))
    assert again.exit_code == 0, again.output


def test_new_never_writes_over_a_job(tmp_path: Path) -> None:
    drawing = square_plan(tmp_path)
    drawing.with_suffix(".toml").write_text("mine")
    assert "already" in refusal("new", str(drawing), "--thickness", "4 in")
    assert drawing.with_suffix(".toml").read_text() == "mine"


def test_a_size_becomes_a_job_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    legs = "right 40 ft, up 28 ft, left 12 ft, down 8 ft, left 28 ft"
    result = run("new", legs, "--thickness", "4 in")
    assert result.exit_code == 0, result.output
    job = open_job(tmp_path / "slab-40-ft-x-28-ft.toml")
    assert job.slab.outline.polygon.area == pytest.approx((40 * 28 - 28 * 8) * 304.8**2)
    assert "there is a job file already" in refusal("new", legs, "--thickness", "4 in")
