"""Joints placed and sheets written, as a user runs it."""

import json
from pathlib import Path

import pytest

from commands import boathouse, refusal, run, square_plan
from kerfline.app.open_job import open_job


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return boathouse(tmp_path)


def test_layout_of_a_job_writes_every_promised_file(job: Path, tmp_path: Path) -> None:
    result = run("layout", str(job), "--out", str(tmp_path / "sheets"))
    assert result.exit_code == 0, result.output
    names = {p.name for p in (tmp_path / "sheets").iterdir()}
    assert {
        "boathouse-joint-plan.dxf",
        "boathouse-joint-plan-flat.dxf",
        "boathouse-joint-plan.svg",
        "boathouse-joint-plan.pdf",
        "boathouse-panels.csv",
        "boathouse-joints.csv",
        "boathouse-layout.json",
    } <= names
    data = json.loads((tmp_path / "sheets" / "boathouse-layout.json").read_text())
    assert sum(p["area"] for p in data["panels"]) == pytest.approx(40 * 24 * 304.8**2, rel=1e-6)
    assert max(p["length"] for p in data["panels"]) <= 3048.5


def test_the_same_job_gives_the_same_bytes(job: Path, tmp_path: Path) -> None:
    for folder in ("first", "second"):
        assert run("layout", str(job), "--out", str(tmp_path / folder)).exit_code == 0
    for first in sorted((tmp_path / "first").iterdir()):
        assert first.read_bytes() == (tmp_path / "second" / first.name).read_bytes(), first.name


def test_layout_of_a_drawing_in_one_go(tmp_path: Path) -> None:
    result = run(
        "layout", str(square_plan(tmp_path)), "--thickness", "4 in", "--out", str(tmp_path / "o")
    )
    assert result.exit_code == 0, result.output
    assert "4; the longest" in result.output


def test_a_size_is_laid_out(tmp_path):
    result = run("layout", "40 ft x 28 ft", "--thickness", "4 in", "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    assert (tmp_path / "out" / "slab-40-ft-x-28-ft-joint-plan.pdf").exists()


def test_a_building_model_is_laid_out(tmp_path):
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    writer = ModelWriter("ft")
    writer.prism("IfcSlab", rectangle(0, 0, 40, 28), -1 / 3, 0, predefined="BASESLAB")
    writer.wall((0, 14), (24, 14), 4.5 / 12, 0, 8, bearing=False)
    model = writer.save(tmp_path / "Farm shop")
    result = run("layout", str(model), "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    assert "4 in" in result.output or '4"' in result.output
    assert "says itself what each thing is" in refusal("layout", str(model), "--walls", "A-WALL")
    result = run("new", str(model), "--thickness", "5 in", "--job", str(tmp_path / "shop.toml"))
    assert result.exit_code == 0, result.output
    assert "the model calls it a slab on ground" in result.output
    job = open_job(tmp_path / "shop.toml")
    assert job.slab.thickness == pytest.approx(127)
    assert [round(w.thickness, 1) for w in job.slab.walls] == [114.3]
