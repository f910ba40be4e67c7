"""Findings in words: every number and message once, what alike ones share once after the last."""

from kerfline.model.finding import Finding, Rule, Severity
from kerfline.sheets.plan_tables import findings_block


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
