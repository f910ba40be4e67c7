"""What the user named is opened: a job file, a drawing, or a written size."""

from dataclasses import replace
from pathlib import Path

import pytest

from drawn_plans import plan_dxf
from kerfline.app.open_job import open_job, size_named
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Unit

JOB = """
[job]
name = "Bay"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [30, 0], [30, 20], [0, 20]]

[rules]
set = "parking"

[engine]
effort = 2
"""


@pytest.fixture
def bay(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB)
    return path


def test_what_is_said_beside_a_job_file_goes_before_what_it_says(bay):
    plain = open_job(bay)
    assert (plain.rules.name, plain.rules.to_maximum, plain.effort) == ("parking", False, 2)
    said = open_job(bay, Wishes(thickness="5 in", rules="floor", to_maximum=True, effort=7.0))
    assert (said.rules.name, said.rules.to_maximum, said.effort) == ("floor", True, 7.0)
    assert said.slab.thickness == pytest.approx(5 * MM_PER_INCH)
    assert replace(said.slab, thickness=plain.slab.thickness) == plain.slab


@pytest.mark.parametrize(
    ("said", "option"),
    [
        ({"units": Unit.M}, "--units"),
        ({"drawn_in": "cm"}, "--units"),
        ({"repair": "1 in"}, "--repair"),
        ({"slab_at": "1 m, 1 m"}, "--slab-at"),
        ({"layers": (("keep_outs", ("A",)),)}, "--keep-outs"),
    ],
)
def test_what_a_job_file_says_itself_is_refused_beside_it(bay, said, option):
    with pytest.raises(InputRefused) as refused:
        open_job(bay, Wishes(**said))
    (mistake,) = refused.value.mistakes
    assert mistake.where == option
    assert str(mistake).startswith(f"{option}: this is said beside a drawing; a job file says it")
    assert mistake.remedy.startswith("write ")


@pytest.mark.parametrize(
    ("said", "option"), [({"page": 2}, "--page"), ({"scale": "1:50"}, "--scale")]
)
def test_page_and_scale_are_for_a_pdf(bay, tmp_path, said, option):
    for path in (bay, plan_dxf(tmp_path / "plan.dxf")):
        with pytest.raises(InputRefused) as refused:
            open_job(path, Wishes(thickness="4 in", **said))
        assert str(refused.value) == f"{option}: this is said beside a PDF; leave it out."


def test_every_mistake_beside_a_file_is_told_at_once(bay):
    with pytest.raises(InputRefused) as refused:
        open_job(bay, Wishes(units=Unit.M, page=1, repair="1 in"))
    assert [m.where for m in refused.value.mistakes] == ["--page", "--units", "--repair"]


def test_a_size_is_a_slab_of_that_size(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    job = open_job(Path("40 ft x 28 ft"), Wishes(thickness="4 in"))
    assert job.units is Unit.FT
    assert job.slab.concrete.area == pytest.approx(40 * 28 * MM_PER_FOOT**2)
    with pytest.raises(InputRefused, match="how thick the slab is"):
        open_job(Path("40 ft x 28 ft"))
    with pytest.raises(InputRefused, match="no layers and no joints; leave it out"):
        open_job(Path("40 ft x 28 ft"), Wishes(thickness="4 in", repair="1 in"))


def test_a_file_that_is_called_like_a_size_is_that_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    named = Path("40 ft x 28 ft")
    assert size_named(named) == "40 ft x 28 ft"
    assert size_named(Path("bay.toml")) == ""
    named.write_text(JOB)
    assert size_named(named) == ""
    assert open_job(named).name == "Bay"


def test_the_way_round_a_slab_may_be_longer_than_a_files_name():
    notches = ", up 16 ft, left 16 in, up 16 in, right 16 in" * 12
    way = f"right 60 ft{notches}, up 16 ft, left 60 ft"
    assert len(way) > 255
    assert size_named(Path(way)) == way
    assert len(open_job(Path(way), Wishes(thickness="4 in")).slab.reentrant_corners) == 24


def test_a_drawing_is_heard_by_whoever_asked_and_gives_its_slab(tmp_path):
    heard = []
    job = open_job(plan_dxf(tmp_path / "plan.dxf"), Wishes(thickness="4 in"), heard.append)
    assert job.name == "plan"
    assert job.slab.concrete.area == pytest.approx(600 * MM_PER_FOOT**2)
    assert [read.drawing.path.name for read in heard] == ["plan.dxf"]


def test_a_file_that_holds_no_plan_is_refused(tmp_path):
    path = tmp_path / "plan.png"
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(40))
    with pytest.raises(InputRefused, match="picture"):
        open_job(path)
