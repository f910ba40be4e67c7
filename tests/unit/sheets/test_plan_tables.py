"""Findings in words: every number and message once, what alike ones share once after the last."""

from dataclasses import replace

import pytest

from checked import rules
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.job import SheetChoice
from kerfline.model.slab import JointKind
from kerfline.sheets.plan_tables import (
    MOST_RUNS,
    added_table,
    depth_text,
    findings_block,
    joint_table,
    panel_table,
    revision_table,
    run_of_names,
    severity_counts,
    totals_block,
)
from kerfline.units import Display
from shapes import workshop_job, workshop_layout


def found(message, remedy="Move it.", severity=Severity.WARNING, source="a source"):
    return Finding(
        rule=Rule.ASPECT,
        severity=severity,
        subject="P1",
        at=(0.0, 0.0),
        measured=1.4,
        limit=1.25,
        message=message,
        remedy=remedy,
        source=source,
    )


def said(*findings):
    return findings_block(findings, 2.4, 100.0).paragraphs


def test_a_finding_that_stands_alone_has_its_remedy_and_source_in_it():
    assert said(found("Too long.")) == ("F1 warning: Too long. Move it. (a source)",)


def test_alike_findings_share_remedy_and_source():
    assert said(found("A."), found("B."), found("C.")) == (
        "F1 warning: A.",
        "F2 warning: B.",
        "F3 warning: C.",
        "F1 to F3: Move it. (a source)",
    )


def test_another_severity_or_source_or_remedy_parts_them():
    other = found("C.", severity=Severity.ERROR)
    assert said(found("A."), found("B."), other, found("D.", source="another")) == (
        "F1 warning: A.",
        "F2 warning: B.",
        "F1 and F2: Move it. (a source)",
        "F3 error: C. Move it. (a source)",
        "F4 warning: D. Move it. (another)",
    )


def test_without_remedy_and_source_nothing_is_added():
    bare = found("A.", remedy="", source="")
    assert said(bare, bare) == ("F1 warning: A.", "F2 warning: A.")


def test_names_that_follow_on_one_another_are_a_run():
    assert run_of_names(["P1", "P2", "P3", "P4", "P9", "P12", "P13"]) == "P1 to P4, P9, P12, P13"
    assert run_of_names(["slab"]) == "slab"
    assert run_of_names([]) == ""


@pytest.mark.parametrize(("runs", "cut"), [(MOST_RUNS, False), (MOST_RUNS + 1, True)])
def test_a_row_lists_so_many_runs_and_leaves_the_rest_to_the_workbook(runs, cut):
    said = run_of_names([f"P{3 * n}" for n in range(runs)])
    assert said.count("P") == MOST_RUNS
    assert said.endswith("... (see the workbook)") is cut


@pytest.mark.parametrize(
    ("kind", "depth", "said"),
    [
        (JointKind.CONTROL, 25.4, '1"'), (JointKind.CONTROL, 0.0, ""),
        (JointKind.ISOLATION, 0.0, "full"), (JointKind.CONSTRUCTION, 0.0, "full"),
    ],
)  # fmt: skip
def test_what_is_not_sawn_goes_through(kind, depth, said):
    assert depth_text(kind, depth, Display.FEET_INCHES) == said


def test_alike_panels_stand_in_one_row_and_issued_sheets_have_no_findings():
    job, layout = workshop_job(), workshop_layout()
    issued = panel_table(job, layout, None, rules(), 2.5)
    reviewed = panel_table(job, layout, (), rules(), 2.5)
    assert len(issued.rows) < len(layout.panels)
    assert sum(int(row[1]) for row in issued.rows) == len(layout.panels)
    assert [c.title for c in reviewed.columns] == [*(c.title for c in issued.columns), "found"]


def test_the_joint_table_has_every_joint_once():
    job, layout = workshop_job(), workshop_layout()
    table = joint_table(job, layout, 2.5)
    titles = [column.title for column in table.columns]
    assert "count" not in titles, "no two are alike at even steps here"
    assert [row[0] for row in table.rows] == [joint.id for joint in layout.joints]
    assert {row[titles.index("type")] for row in table.rows} == {"CTLJ", "CNTJ"}


def test_what_a_mend_added_is_a_table_of_its_own():
    layout = replace(workshop_layout(), added=frozenset({"J2"}))
    table = added_table(workshop_job(), layout, 2.5)
    assert table.heading == "Added joints"
    assert [row[0] for row in table.rows] == ["J2"]


def test_totals_are_by_kind_and_under_walls():
    job, layout = workshop_job(), workshop_layout()
    said = totals_block(job, layout, 2.5, 90.0).paragraphs
    assert said[0].startswith(f"{len(layout.panels)} panels, {len(layout.joints)} joints: control ")
    assert "construction 24 ft." in said[0]
    assert len(said) == 1, "none is under a wall here"
    under = replace(layout, joints=(replace(layout.joints[0], hidden=3048.0),))
    assert totals_block(job, under, 2.5, 90.0).paragraphs[1] == "Under walls: 10 ft."
    bare = replace(layout, joints=())
    assert totals_block(job, bare, 2.5, 90.0).paragraphs == (
        f"{len(layout.panels)} panels, no joints.",
    )


def test_severities_are_counted_in_words():
    assert severity_counts((), 2.5, 90.0).paragraphs == ("None: every rule is kept.",)
    two = [found("a"), found("b"), found("c", severity=Severity.ERROR)]
    assert (
        severity_counts(two, 2.5, 90.0).paragraphs[0].startswith("1 error, 2 warnings, 0 advice.")
    )


def test_the_revision_list_begins_with_what_the_job_says():
    job = workshop_job(
        sheet=SheetChoice(fields={"revision": "B", "date": "2026-06-14", "drawn": "MH"})
    )
    table = revision_table(job, 2.5)
    assert table.rows[0] == ("B", "2026-06-14", "", "MH")
    assert set(table.rows[1:]) == {("",) * 4}
