"""The record of a check keeps to its published shape, and its list to what a spreadsheet can hold."""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest

from checked import grid_slab, joint
from kerfline.app.check import check_job
from kerfline.app.check_report import verdicts_of
from kerfline.files import check_schema
from kerfline.files.check_record import HEADER, check_csv, check_json
from kerfline.files.check_schema import SCHEMA, SCHEMA_FILE, CheckFile
from kerfline.files.published_schema import schema_text
from kerfline.model.finding import Rule, Severity
from kerfline.model.job import Job
from kerfline.units import Unit


@pytest.fixture(scope="module")
def outcome():
    """A floor with a joint left out and one that stops short."""
    slab = grid_slab(4, 3)
    joints = [j for j in slab.joints if j.id not in ("V2", "H1")]
    slab = replace(slab, joints=(*joints, joint("S", (20, 0), (20, 14))))
    job = Job(name="Workshop", units=Unit.FT, slab=slab, notes=("a note",), reading=("a layer",))
    return check_job(job)


@pytest.fixture(scope="module")
def data(outcome):
    return json.loads(check_json(outcome.job, verdicts_of(outcome, ("floor", "parking"))))


def test_the_record_keeps_to_the_published_schema(data):
    schema = json.loads(Path(check_schema.__file__).with_name(SCHEMA_FILE).read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(data, schema, jsonschema.Draft202012Validator)
    assert CheckFile.model_validate(data).job == "Workshop"


def test_the_published_schema_is_the_one_of_the_classes():
    path = Path(check_schema.__file__).with_name(SCHEMA_FILE)
    assert path.read_text(encoding="utf-8") == schema_text(CheckFile, SCHEMA)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda d: d.pop("sets"),
        lambda d: d.update(more=1),
        lambda d: d.update(thickness=0),
        lambda d: d["sets"][0]["findings"][0].update(severity="fatal"),
        lambda d: d["sets"][0]["verdicts"][0].update(errors=-1),
    ],
)
def test_the_schema_refuses_what_is_no_record(data, spoil):
    odd = json.loads(json.dumps(data))
    spoil(odd)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(
            odd, json.loads(schema_text(CheckFile, SCHEMA)), jsonschema.Draft202012Validator
        )


def test_the_record_says_how_the_drawing_was_read_and_every_verdict(data, outcome):
    assert data["reading"] == ["a layer"]
    assert data["notes"] == ["a note"]
    assert data["thickness"] == pytest.approx(101.6)
    assert [s["rule_set"] for s in data["sets"]] == ["floor", "parking"]
    assert [v["rule"] for v in data["sets"][0]["verdicts"]] == [r.value for r in Rule]
    numbers = [f["number"] for f in data["sets"][0]["findings"]]
    assert numbers == list(range(1, len(outcome.findings) + 1))
    errors = sum(v["errors"] for v in data["sets"][0]["verdicts"])
    assert errors == outcome.count(Severity.ERROR)


def test_the_list_has_a_row_a_finding(outcome):
    rows = list(csv.DictReader(io.StringIO(check_csv(outcome.job, outcome.findings).decode())))
    assert tuple(rows[0]) == HEADER
    assert [r["message"] for r in rows] == [f.message for f in outcome.findings]
    assert [int(r["number"]) for r in rows] == list(range(1, len(rows) + 1))


def test_no_cell_is_a_formula(outcome):
    """A subject that begins like a formula is quoted, so that a spreadsheet shows it as text."""
    odd = replace(outcome.findings[0], subject="=1+1")
    row = next(csv.DictReader(io.StringIO(check_csv(outcome.job, [odd]).decode())))
    assert row["subject"].startswith("'")
