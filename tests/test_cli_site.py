"""Setting out and the survey afterwards, as a user runs them."""

from pathlib import Path
from xml.etree import ElementTree as Xml

import pytest

from commands import run
from kerfline.errors import KerflineError

YARD = """
[job]
name = "Yard"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [30, 0], [30, 20], [0, 20]]

[site]
level = 101.25

[[site.point]]
name = "CP1"
plan = [-10, -10]
easting = 2000.5
northing = 1000.25

[[site.point]]
name = "CP2"
plan = [90, -10]
easting = 2000.5
northing = 1100.25
"""


@pytest.fixture
def laid_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "yard.toml"
    job.write_text(YARD)
    result = run("layout", str(job))
    assert result.exit_code == 0, result.output
    return job


def survey(laid_out: Path, **moved: float) -> Path:
    """The points as set out, some of them moved to the north by feet."""
    rows = (laid_out.parent / "out/yard/yard-points.csv").read_text().splitlines()
    cells = [row.split(",") for row in rows]
    for row in cells:
        row[1] = f"{float(row[1]) + moved.get(row[0].replace('-', '_'), 0.0):.4f}"
    path = laid_out.parent / "survey.csv"
    path.write_text("\n".join(",".join(row) for row in cells))
    return path


def test_layout_writes_the_points(laid_out):
    folder = laid_out.parent / "out/yard"
    rows = [row.split(",") for row in (folder / "yard-points.csv").read_text().splitlines()]
    places = {row[0]: row[1:] for row in rows}
    # A quarter turn: 30 ft along the plan is 30 ft to the north.
    assert places["SLAB1"] == ["1010.2500", "1990.5000", "101.2500", "slab corner"]
    assert places["SLAB2"] == ["1040.2500", "1990.5000", "101.2500", "slab corner"]
    assert places["CP1"] == ["1000.2500", "2000.5000", "", "control"]
    root = Xml.parse(folder / "yard-points.xml").getroot()
    named = [e.get("name") for e in root.iter() if e.tag.endswith("CgPoint")]
    assert named == [row[0] for row in rows]
    sheet = (folder / "yard-points-sheet.svg").read_text()
    assert all(f">{name}" in sheet for name in ("SLAB1", "J1-1", "CP1"))


def test_a_good_survey_is_clean(laid_out):
    result = run("check", str(laid_out), "--survey", str(survey(laid_out)))
    assert result.exit_code == 0, result.output
    assert 'the farthest lies 0" off its place' in result.output
    assert 'control measured again: 0" off at most' in result.output


def test_a_point_off_its_place_is_found(laid_out):
    """0.1 ft is 1 3/16 in; 3/4 in is allowed. Along a joint its end may lie elsewhere."""
    result = run("check", str(laid_out), "--survey", str(survey(laid_out, SLAB3=0.1)))
    assert result.exit_code == 0, result.output
    said = " ".join(result.output.split())
    assert "Point SLAB3 (slab corner)" in said
    assert '1 3/16" off its planned place; 3/4" is allowed' in said
    table = (laid_out.parent / "out/yard/yard-survey.csv").read_text()
    assert "SLAB3,slab corner,1040.2500,1970.5000,1040.3500,1970.5000,30.5,30.5" in table


def test_what_a_survey_is_refused_for(laid_out):
    def refused(*words: str) -> str:
        result = run("check", str(laid_out), "--survey", *words)
        assert isinstance(result.exception, KerflineError), result.output
        return str(result.exception)

    path = laid_out.parent / "strange.csv"
    path.write_text("T1,1,2\n")
    assert "none of these points is one of the layout's" in refused(str(path))
    laid_out.write_text(YARD.split("[site]", maxsplit=1)[0])
    assert "does not tie its plan to the ground" in refused(str(path))


def test_control_that_disagrees_writes_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "yard.toml"
    job.write_text(YARD.replace("1100.25", "1101.25"))
    result = run("layout", str(job))
    assert isinstance(result.exception, KerflineError)
    assert "do not agree with the plan" in str(result.exception)
    assert not (tmp_path / "out").exists()
