"""The panel table and the joint table as CSV."""

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.files.tables import joints_csv, panels_csv, safe
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))


def read(data):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))


def finding(severity, subject):
    return Finding(
        rule=Rule.SPAN, severity=severity, at=(0, 0), subject=subject, measured=1, limit=1,
        message="", source="", remedy="",
    )  # fmt: skip


def test_a_panel_of_twelve_feet_is_written_in_feet_and_in_millimetres():
    row = read(panels_csv(workshop_job(), workshop_layout(), (), RULES))[0]
    assert row["panel"] == "P1"
    assert row["length"] == "12'-0\""
    assert row["length_mm"] == "3657.6"
    assert row["aspect"] == "1.0"
    assert row["span_used_percent"] == "120.0"  # 12 ft of 10 ft, 30 times 4 in
    assert row["status"] == "ok"


def test_a_metric_job_shows_millimetres():
    row = read(panels_csv(workshop_job(Unit.MM), workshop_layout(), (), RULES))[0]
    assert row["length"] == "3658 mm"


def test_the_status_of_a_panel_is_the_worst_that_was_found():
    found = [
        finding(Severity.ERROR, "P2"),
        finding(Severity.WARNING, "P2"),
        finding(Severity.WARNING, "P3"),
        finding(Severity.ADVICE, "P4"),
        finding(Severity.ERROR, "W1"),
    ]
    rows = read(panels_csv(workshop_job(), workshop_layout(), found, RULES))
    assert [row["status"] for row in rows[:4]] == ["ok", "error", "warning", "ok"]


def test_joints_are_measured_from_the_lower_left():
    rows = read(joints_csv(workshop_job(), workshop_layout()))
    assert len(rows) == len(workshop_layout().joints)
    assert rows[0]["start_across_mm"] == "3657.6"
    assert rows[0]["start_along_mm"] == "0.0"
    assert rows[0]["depth"] == '1"'


def test_lines_end_as_the_standard_says():
    data = panels_csv(workshop_job(), workshop_layout(), (), RULES)
    assert data.count(b"\r\n") == data.count(b"\n") == len(workshop_layout().panels) + 1


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_text_that_a_spreadsheet_would_run_is_neutralised(start):
    layout = workshop_layout()
    layout = replace(layout, joints=(replace(layout.joints[0], note=f"{start}1+1"),))
    assert read(joints_csv(workshop_job(), layout))[0]["note"] == f"'{start}1+1"


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_negative_number_stays_a_number(number):
    assert safe(number) == number


@given(st.text())
def test_every_text_comes_back_whole_behind_at_most_one_apostrophe(text):
    assert safe(text) in (text, f"'{text}")
    assert not str(safe(text)).startswith(("=", "+", "-", "@", "\t", "\r"))
