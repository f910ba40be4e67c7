"""A job's placement day: found beside the job, planned, and its files."""

from dataclasses import replace

import pytest

from kerfline.app.day_job import day_beside, day_contents, day_job, plan_beside
from kerfline.app.open_job import open_job
from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import run_mark
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3
from parted import parted_outcome
from shapes import workshop_layout

RULES = SlabRules(rule_set=load("floor"))
JOB = """
[job]
name = "Bay"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [60, 0], [60, 24], [36, 24], [36, 40], [0, 40]]
"""


def test_a_job_that_tells_of_no_day_has_none(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB)
    job = open_job(path)
    assert (
        plan_beside(Outcome(job=job, layout=workshop_layout(), findings=(), rules=RULES), path)
        is None
    )


def test_a_day_that_cannot_be_used_is_refused(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + '\n[day.pours]\nvolume = "much"\n')
    job = open_job(path)
    with pytest.raises(InputRefused, match="much"):
        plan_beside(Outcome(job=job, layout=workshop_layout(), findings=(), rules=RULES), path)


def test_what_a_job_tells_of_its_day_is_read_or_nothing_is(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB)
    assert day_beside(open_job(path), path) is None
    path.write_text(JOB + '\n[day.pours]\nvolume = "14 yd3"\n')
    assert day_beside(open_job(path), path).pours.volume == pytest.approx(14 * MM3_PER_YD3)


def test_a_day_beside_a_layout_divides_the_layout_that_is_there(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + '\n[day.pours]\nvolume = "14 yd3"\naccess = ["bottom"]\n')
    outcome = parted_outcome()
    plan = plan_beside(replace(outcome, job=replace(outcome.job, day=open_job(path).day)), path)
    assert len(plan.placement.pours.pours) == 3
    assert plan.job == "Workshop"


def test_a_day_has_sheets_words_records_and_a_workbook_with_one_run_mark(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB)
    heard = []
    day = day_job(path, Wishes(), heard.append)
    files = day_contents(day)
    assert {
        "bay-day-sheet.pdf", "bay-day-sheet.svg", "bay-day.txt", "bay-day.json", "bay-cuts.csv",
        "bay-loads.csv", "bay.xlsx", "bay-cut-sheet.pdf",
    } <= set(files)  # fmt: skip
    mark = run_mark(day.outcome.job, day.outcome.layout)
    assert files["bay-day.txt"].decode().rstrip().endswith(f"run mark {mark}")
    assert mark in files["bay-day.json"].decode()
    assert heard
