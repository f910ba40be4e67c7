"""One truth about construction joints: layout file, table, workbook, take-off, cut sheets and day sheet."""

import csv
import io
import json

import openpyxl
import pytest

from depots import DEPOT
from kerfline.app.day_job import day_contents, day_job
from kerfline.app.deliver import contents
from kerfline.app.live import outcome_of
from kerfline.app.wishes import Wishes
from kerfline.app.working import job_of, working_of
from kerfline.errors import InputRefused


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    file = tmp_path_factory.mktemp("job") / "depot.toml"
    file.write_text(DEPOT, encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def planned(path):
    return day_job(path, Wishes())


@pytest.fixture(scope="module")
def files(planned):
    return {**contents(planned.outcome, planned.plan), **day_contents(planned)}


def test_every_file_tells_the_same_joints(planned, files):
    """Kind, length and dowels by name; feet that are sawn and feet that are formed."""
    layout = {j["id"]: j for j in json.loads(files["depot-layout.json"])["joints"]}
    rows = csv.DictReader(io.StringIO(files["depot-joints.csv"].decode()))
    listed = {row["joint"]: row for row in rows}
    assert list(listed) == list(layout) == [j.id for j in planned.outcome.layout.joints]
    assert all(listed[name]["kind"] == joint["kind"] for name, joint in layout.items())
    book = openpyxl.load_workbook(io.BytesIO(files["depot.xlsx"]))
    rows = list(book["Construction joints"].values)[1:]
    names = [name for name, joint in layout.items() if joint["kind"] == "construction"]
    assert len(names) >= 2
    assert [row[0] for row in rows] == names
    assert [row[7] for row in rows] == [layout[name]["dowels"]["count"] for name in names]
    assert [row[2] * 304.8 for row in rows] == pytest.approx(
        [layout[name]["length"] for name in names], abs=0.02
    )
    sawn = sum(j["length"] for j in layout.values() if j["kind"] == "control")
    cut = sum(c.window.sawn.line.length for c in planned.plan.placement.cutting.cuts)
    assert cut == pytest.approx(sawn, abs=0.01)
    take_off = {row.item: row.amount for row in planned.plan.take_off.rows}
    assert take_off['sawn, 1 1/4" deep'] * 304.8 == pytest.approx(sawn, abs=0.01)
    assert take_off["construction joints"] * 304.8 == pytest.approx(
        sum(layout[name]["length"] for name in names), abs=0.01
    )
    assert take_off["dowels"] == sum(layout[name]["dowels"]["count"] for name in names)
    drawing = files["depot-joint-plan.svg"].decode()
    assert all(f'data-ref="{name}"' in drawing for name in names)


def test_a_kept_layout_keeps_its_names_and_its_division(planned, path):
    """Saved from the page and opened again nothing moves; the day is divided the same way."""
    outcome = planned.outcome
    kept = job_of(outcome.job, working_of(outcome), only_pinned=False)
    again = outcome_of(kept).layout
    assert [(j.id, j.kind, j.path) for j in again.joints] == [
        (j.id, j.kind, j.path) for j in outcome.layout.joints
    ]


def test_a_day_that_cannot_be_used_is_refused(path):
    wrong = path.with_name("wrong.toml")
    wrong.write_text(DEPOT.replace('"16 yd3"', '"16 yards of it"'), encoding="utf-8")
    with pytest.raises(InputRefused, match=r"volume"):
        day_job(wrong, Wishes())
