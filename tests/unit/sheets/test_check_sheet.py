"""The check sheet: findings numbered at their place, panels hatched, all listed."""

import re

import pytest

from checked import findings, rules
from kerfline.model.finding import Severity
from kerfline.sheets.check_sheet import PITCHES, check_sheet, finding_table
from kerfline.sheets.marks import Layer, Path
from shapes import workshop_job, workshop_layout, workshop_slab

FOUND = findings(workshop_slab(), layout=workshop_layout())


@pytest.fixture(scope="module")
def sheets():
    return check_sheet(workshop_job(), workshop_layout(), FOUND, rules())


def test_every_finding_is_listed_with_its_message_remedy_and_source():
    table = finding_table(FOUND, 2.5)
    assert [row[0] for row in table.rows] == [str(n) for n in range(1, len(FOUND) + 1)]
    for row, found in zip(table.rows, FOUND, strict=True):
        assert row[2:4] == (found.rule.value, found.subject)
        assert row[4:] == (found.message, found.remedy, found.source)
        assert row[1] == found.severity.value


def test_every_number_stands_on_the_plan(sheets):
    said = " ".join(t.text for t in sheets[0].texts if t.layer is Layer.FINDING)
    numbers = {int(n) for n in re.findall(r"\d+", said)}
    assert numbers == set(range(1, len(FOUND) + 1))


def test_panels_with_errors_and_warnings_are_hatched_and_others_not(sheets):
    hatched = {m.ref for m in sheets[0].marks if isinstance(m, Path) and m.layer is Layer.HATCH}
    panels = {p.id for p in workshop_layout().panels}
    worse = {f.subject for f in FOUND if f.severity is not Severity.ADVICE} & panels
    assert hatched == worse


def test_an_error_is_hatched_closer_than_a_warning():
    assert PITCHES[Severity.ERROR] < PITCHES[Severity.WARNING]
    assert Severity.ADVICE not in PITCHES


def test_a_clean_layout_says_so():
    sheets = check_sheet(workshop_job(), workshop_layout(), (), rules())
    said = " ".join(t.text for s in sheets for t in s.texts)
    assert "None: every rule is kept." in said
    assert not [m for m in sheets[0].marks if m.layer is Layer.HATCH]
