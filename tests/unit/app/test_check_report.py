"""Verdicts of a check, its words for the terminal, its files."""

import json
from dataclasses import replace

from checked import grid_slab
from kerfline.app.check import check_job
from kerfline.app.check_beside import Beside, Other
from kerfline.app.check_report import check_contents, reading_text, report, verdicts_of
from kerfline.checks.given import given_layout
from kerfline.model.finding import Rule
from kerfline.model.job import Job
from kerfline.units import Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, **more)


def other(slab, name="other"):
    return Other(name=name, concrete=slab.concrete, layout=given_layout(slab))


def test_what_a_survey_misses_counts_under_every_rule_set():
    slab = grid_slab()
    cut = replace(slab, joints=slab.joints[1:])
    outcome = check_job(job_of(cut), Beside(plan=other(slab)))
    assert [f.subject for f in outcome.beside] == ["V1"]
    for each in verdicts_of(outcome, ("floor", "parking")):
        assert each.of(Rule.EDGE).errors == 1
        assert not each.complies


def test_the_verdict_under_the_own_rule_set_is_that_of_the_findings():
    """Of one rule set the findings are those of the check, whether or not it is named."""
    outcome = check_job(job_of(grid_slab(3, 2, bay=13.0)))
    assert verdicts_of(outcome)[0].findings == outcome.findings
    assert verdicts_of(outcome, ("floor",)) == verdicts_of(outcome)


def test_one_rule_set_is_reported_in_full_and_several_side_by_side_before_it():
    outcome = check_job(job_of(grid_slab(3, 2, bay=13.0)))
    alone = report(outcome, verdicts_of(outcome))
    both = report(outcome, verdicts_of(outcome, ("floor", "parking")))
    assert both.endswith(alone)
    table = both.removesuffix(alone)
    assert "floor" in table
    assert "parking" in table


def test_how_a_drawing_was_read_is_told_line_by_line_and_turned_over_under_its_head():
    long = "Walls: " + "wall-to-wall " * 20
    job = job_of(grid_slab(), reading=("Slab: layer S-SLAB.", long.strip() + "."))
    first, *rest = reading_text(job).splitlines()
    assert first == "read      Slab: layer S-SLAB."
    assert rest[0].startswith("read      Walls: ")
    assert all(line.startswith(" " * 10) for line in rest[1:])
    assert max(map(len, rest)) <= 100
    assert not [line for line in rest if line.endswith("-")], "never at a dash"
    assert reading_text(job_of(grid_slab())) == ""


def test_a_check_has_a_sheet_a_drawing_a_record_and_a_list():
    outcome = check_job(job_of(grid_slab(2, 1, bay=13.0)))
    files = check_contents(outcome, verdicts_of(outcome))
    assert {f"workshop-check.{end}" for end in ("pdf", "svg", "dxf", "json", "csv")} <= set(files)
    assert json.loads(files["workshop-check.json"])
    assert len(files["workshop-check.csv"].splitlines()) == len(outcome.findings) + 1
