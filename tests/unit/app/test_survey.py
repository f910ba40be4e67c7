"""Points measured on site, held against the layout that was set out."""

from dataclasses import replace

import pytest

from kerfline.app.outcome import Outcome
from kerfline.app.site_files import site_files
from kerfline.app.survey import Survey, planned, survey_text, with_survey
from kerfline.checks.surveyed import Measured
from kerfline.errors import InputRefused
from kerfline.model.site import ControlPoint, Site
from kerfline.units import Display, SiteUnit
from parted import RULES
from shapes import workshop_job, workshop_layout

SITE = Site(
    control=(
        ControlPoint(name="CP1", plan=(0, 0), easting=100_000, northing=200_000),
        ControlPoint(name="CP2", plan=(10_000, 0), easting=110_000, northing=200_000),
    ),
    unit=SiteUnit.M,
)
JOB = replace(workshop_job(), site=SITE)
OUTCOME = Outcome(job=JOB, rules=RULES, layout=workshop_layout(), findings=())


def measured(tmp_path, east=0.0, only=(), **more):
    """The points of the layout as a file; SLAB1 lies so many mm to the east."""
    rows = site_files(JOB, workshop_layout())["workshop-points.csv"].decode().splitlines()
    cells = [row.split(",") for row in rows]
    kept = [row for row in cells if not only or row[0] in only]
    for row in kept:
        if row[0] == "SLAB1":
            row[2] = f"{float(row[2]) + east / 1000:.4f}"
    lines = [",".join(row) for row in kept] + [f"{name},0,0" for name in more.get("strange", ())]
    path = tmp_path / "survey.csv"
    path.write_text("\n".join(lines))
    return path


def test_points_in_their_places_are_no_finding(tmp_path):
    outcome, survey, files = with_survey(OUTCOME, measured(tmp_path))
    assert outcome.findings == ()
    assert survey.missing == survey.strange == ()
    assert [c.name for c in survey.control] == ["CP1", "CP2"]
    assert max(off for _, off in survey.points) == pytest.approx(0, abs=0.06)
    assert list(files) == ["workshop-survey.csv"]


def test_a_point_off_its_place_is_found_and_stands_in_the_table(tmp_path):
    """30 mm is beyond 3/4 in (19 mm), 15 mm is not."""
    outcome, survey, files = with_survey(OUTCOME, measured(tmp_path, east=30))
    assert [f.subject for f in outcome.findings] == ["SLAB1"]
    assert outcome.beside == outcome.findings
    assert max(off for _, off in survey.points) == pytest.approx(30, abs=0.06)
    row = next(r for r in files["workshop-survey.csv"].decode().splitlines() if "SLAB1," in r)
    assert row.endswith("30.0,30.0")
    assert with_survey(OUTCOME, measured(tmp_path, east=15))[0].findings == ()


def test_points_that_are_missing_or_strange_are_named(tmp_path):
    path = measured(tmp_path, only=("SLAB1", "SLAB2"), strange=("T1",))
    _, survey, _ = with_survey(OUTCOME, path)
    assert len(survey.points) == 2
    assert survey.strange == ("T1",)
    assert "SLAB3" in survey.missing


def test_strange_points_alone_and_a_job_without_a_site_are_refused(tmp_path):
    path = measured(tmp_path, only=("CP1",))
    with pytest.raises(InputRefused, match=r"survey.csv: none of these points is one of the"):
        with_survey(OUTCOME, path)
    with pytest.raises(InputRefused, match="give the control points under"):
        with_survey(replace(OUTCOME, job=workshop_job()), path)


def survey_of(missing):
    point = Measured(name="SLAB1", what="slab corner", planned=(0, 0), found=(3, 4), joint=None)
    return Survey(points=((point, 5.0),), control=(), missing=missing, strange=())


@pytest.mark.parametrize(("count", "end"), [(8, "P7"), (9, "P7 and 1 more")])
def test_eight_points_that_were_not_measured_are_named(count, end):
    text = survey_text(survey_of(tuple(f"P{n}" for n in range(count))), Display.METRIC)
    first, second = text.splitlines()
    assert first == "survey    1 point of the layout measured; the farthest lies 5 mm off its place"
    assert second.startswith("          not measured: P0, P1, ")
    assert second.endswith(end)


def test_a_job_without_joints_is_held_by_the_layout_that_was_left(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputRefused, match=r"workshop-layout\.json"):
        planned(JOB, None, tmp_path / "workshop.toml", None)
