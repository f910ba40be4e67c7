"""The checker's report: every line fits, what is wrong comes first, lists are cut and say so."""

from dataclasses import replace

import pytest

from checked import grid_slab, joint, rules, with_joints
from kerfline.checks.disagreements import disagreements
from kerfline.checks.given import given_layout
from kerfline.checks.verdict import compare
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.sheets.check_text import (
    MOST,
    WIDTH,
    check_text,
    findings_by_rule,
    headline,
    measure_text,
    side_by_side,
    verdict_table,
)
from kerfline.units import MM_PER_FOOT, Display

FEET = Display.FEET_INCHES


def sets_of(slab, *names, display=FEET):
    return compare(slab, given_layout(slab), [rules(n) for n in names or ("floor",)], display)


FAULTY = with_joints(grid_slab(4, 3), joint("S", (20, 0), (20, 14)), without=("V2",))


def finding(rule=Rule.SPAN, severity=Severity.ERROR, number=1, remedy="Divide it."):
    return Finding(
        rule=rule,
        severity=severity,
        at=(0.0, 0.0),
        subject=f"P{number}",
        measured=1.0,
        limit=2.0,
        message=f"P{number} is too long.",
        source="a publication",
        remedy=remedy,
    )


@pytest.mark.parametrize("display", list(Display))
def test_no_line_is_wider_than_the_terminal(display):
    slab = replace(FAULTY, thickness=127.0)
    sets = sets_of(
        slab, "floor", "civil-airfield-stabilised", "pavement-stabilised", display=display
    )
    parted = disagreements(slab, given_layout(slab), rules(), display)
    text = check_text(sets[0], parted, display) + "\n" + side_by_side(sets, display)
    assert max(map(len, text.splitlines())) <= WIDTH


def test_the_headline_names_the_rules_that_are_broken():
    assert headline(sets_of(grid_slab())[0]) == "Under floor: no rule is broken."
    assert headline(sets_of(FAULTY)[0]) == (
        "Under floor: does not comply with span, aspect, free-end."
    )


def test_the_table_puts_broken_rules_first_and_those_that_do_not_apply_last():
    lines = verdict_table(sets_of(FAULTY)[0].verdicts, FEET).splitlines()
    rows = [line.split() for line in lines if not line.startswith(" ")]
    assert [row[0] for row in rows[1:4]] == ["span", "aspect", "free-end"]
    assert {row[1] for row in rows[1:4]} == {"NO"}
    assert rows[-1][:3] == ["does", "not", "apply:"]
    span = lines[1]
    for words in ("20'-0\"", "10'-0\"", "12'-0\"", "ACI 302.1R"):
        assert words in span


def test_rules_with_errors_come_before_those_without():
    found = [
        finding(Rule.SPAN, Severity.ADVICE),
        finding(Rule.WALL, Severity.WARNING),
        finding(Rule.EDGE, Severity.ERROR),
    ]
    heads = [b.split(" (")[0] for b in findings_by_rule(found, "the list").split("\n\n")]
    assert heads == ["edge", "wall", "span"]


def test_findings_keep_the_numbers_that_they_have_on_the_sheet():
    found = [finding(Rule.SPAN, Severity.ADVICE, 1), finding(Rule.EDGE, Severity.ERROR, 2)]
    lines = findings_by_rule(found, "the list").splitlines()
    assert lines[1].split()[:2] == ["2", "error"]
    assert lines[4].split()[:2] == ["1", "advice"]


def test_a_long_list_is_cut_and_says_where_the_rest_is():
    found = [finding(number=n) for n in range(1, MOST + 6)]
    text = findings_by_rule(found, "floor-check.csv")
    assert f"P{MOST} is" in text
    assert f"P{MOST + 1} is" not in text
    assert text.endswith("... and 5 more: see floor-check.csv")


def test_a_remedy_that_repeats_is_said_once_and_others_each():
    same = findings_by_rule([finding(number=1), finding(number=2)], "the list")
    assert same.count("Divide it.") == 1
    other = findings_by_rule([finding(number=1), finding(number=2, remedy="Move it.")], "the list")
    assert (other.count("Divide it."), other.count("Move it.")) == (1, 1)


def test_where_publications_part_each_says_whether_it_is_kept():
    parted = disagreements(FAULTY, given_layout(FAULTY), rules(), FEET)
    text = check_text(sets_of(FAULTY)[0], parted, FEET)
    assert "the engineer chooses" in text
    lines = [line for line in text.splitlines() if line.startswith(("  kept", "  not kept"))]
    assert len(lines) == sum(len(row.stands) for row in parted)


def test_a_clean_floor_has_no_list_of_findings():
    assert findings_by_rule((), "the list") == ""


def test_sets_that_find_no_room_follow_below():
    names = ("floor", "civil-airfield-stabilised", "pavement-stabilised", "fabric-reinforced")
    blocks = side_by_side(sets_of(FAULTY, *names), FEET).split("\n\n")
    assert len(blocks) > 1
    heads = [word for block in blocks for word in block.splitlines()[0].split()[2:]]
    assert heads == list(names)


@pytest.mark.parametrize(
    ("rule", "value", "words"),
    [
        (Rule.SPAN, 10 * MM_PER_FOOT, "10'-0\""),
        (Rule.ASPECT, 1.5, "1.50"),
        (Rule.ANGLE, 59.6, "60 deg"),
        (Rule.WALL, 0.25, "25% bare"),
        (Rule.DEPTH, 25.4, '1"'),
        (Rule.AREA, 100 * MM_PER_FOOT**2, "100.0 ft2"),
        (Rule.SHAPE, None, "-"),
    ],
)
def test_a_measure_is_written_in_its_own_kind(rule, value, words):
    assert measure_text(rule, value, FEET) == words
