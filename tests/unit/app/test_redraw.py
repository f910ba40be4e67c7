"""Sheets drawn anew from a saved layout."""

from dataclasses import replace
from pathlib import Path

import pytest

from kerfline.app.day_job import plan_beside
from kerfline.app.deliver import contents
from kerfline.app.open_job import open_job
from kerfline.app.redraw import redraw_job, saved_layout
from kerfline.errors import InputRefused
from kerfline.files.layout_json import layout_json
from kerfline.geometry.ring import Ring
from kerfline.units import Unit
from parted import parted_outcome


@pytest.fixture(scope="module")
def outcome():
    return parted_outcome()


JOB = """
[job]
name = "Bay"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [60, 0], [60, 24], [36, 24], [36, 40], [0, 40]]
"""


def test_sheets_drawn_anew_are_parted_as_the_day_of_the_job_says(tmp_path, outcome):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + '\n[day.pours]\nvolume = "14 yd3"\naccess = ["bottom"]\n')
    job = open_job(path)
    saved = tmp_path / "bay-layout.json"
    saved.write_bytes(layout_json(replace(job, slab=outcome.job.slab), outcome.layout, ()))
    drawn = redraw_job(
        replace(job, slab=outcome.job.slab), saved, size="tabloid", scale=0, units=Unit.MM
    )
    planned = plan_beside(drawn, path)
    assert "bay-cut-sheet-placement-1.pdf" in contents(drawn, planned)


@pytest.fixture
def saved(tmp_path, outcome):
    file = tmp_path / "workshop-layout.json"
    file.write_bytes(layout_json(outcome.job, outcome.layout, ()))
    return file


def test_what_is_not_said_stays_as_the_job_has_it(outcome, saved):
    job = replace(outcome.job, sheet=replace(outcome.job.sheet, size="tabloid", scale=48.0))
    same = redraw_job(job, saved, size="", scale=0.0, units=None)
    other = redraw_job(job, saved, size="a3", scale=50.0, units=Unit.MM)
    assert (same.job.sheet.size, same.job.sheet.scale, same.job.units) == ("tabloid", 48.0, Unit.FT)
    assert (other.job.sheet.size, other.job.sheet.scale, other.job.units) == ("a3", 50.0, Unit.MM)
    assert [j.id for j in same.layout.joints] == [j.id for j in outcome.layout.joints]


@pytest.mark.parametrize(("wider", "same"), [(1.0, True), (200.0, False)])
def test_a_layout_of_another_slab_is_refused(outcome, saved, wider, same):
    """By 1 mm along an edge of 40 ft the area differs by a 15,000th, by 200 mm by a 75th."""
    points = tuple((x - wider if x == 0 else x, y) for x, y in outcome.job.slab.outline.points)
    job = replace(outcome.job, slab=replace(outcome.job.slab, outline=Ring(points)))
    if same:
        assert redraw_job(job, saved, size="", scale=0.0, units=None).layout.joints
        return
    with pytest.raises(InputRefused, match=r"another slab.*kerfline layout"):
        redraw_job(job, saved, size="", scale=0.0, units=None)


def test_a_saved_layout_is_looked_for_where_it_is_said_then_where_it_usually_lies(
    outcome, tmp_path, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    source, folder = tmp_path / "jobs" / "workshop.toml", tmp_path / "said"
    name = "workshop-layout.json"
    places = [folder, Path("out/workshop"), source.parent / "out" / "workshop"]
    assert saved_layout(outcome.job, source, folder) == folder / name, "where it is missed first"
    assert saved_layout(outcome.job, source, None) == Path("out/workshop") / name
    for place in reversed(places):
        place.mkdir(parents=True)
        (place / name).touch()
        assert saved_layout(outcome.job, source, folder) == place / name
