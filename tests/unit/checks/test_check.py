"""A layout held against all the rules: odd input, the order of what is found, and a change held again."""

from dataclasses import replace

import pytest

from checked import feet, findings, grid_slab, joint, rules, with_joints
from kerfline.checks.check import (
    check,
    findings_of,
    held_against,
    in_order,
    natural,
)
from kerfline.checks.disagreements import disagreements
from kerfline.checks.given import given_layout
from kerfline.checks.measures import measures_of
from kerfline.checks.parting import parted_again
from kerfline.checks.verdict import verdicts
from kerfline.geometry.ring import circle
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import Column, Slab, Wall
from kerfline.units import Display

ODD = {
    "no joint": grid_slab(1, 1, joints=()),
    "a round slab": Slab(outline=circle((0.0, 0.0), 1500.0), thickness=101.6),
    "a joint of a hair's length": grid_slab(1, 1, joints=(joint("A", (5, 0), (5, 0.001)),)),
    "a point drawn twice": grid_slab(2, 1, joints=(joint("A", (10, 0), (10, 0), (10, 10)),)),
    "a column on a corner of the slab": grid_slab(2, 1, columns=(Column(id="C1", at=(0.0, 0.0)),)),
    "a hole no larger than a nail": grid_slab(2, 1, openings=(circle((1500.0, 1500.0), 2.0),)),
    "a wall off the slab": grid_slab(2, 1, walls=(Wall(id="W1", path=feet((-5, 5), (-1, 5))),)),
}


@pytest.mark.parametrize("slab", ODD.values(), ids=ODD)
def test_nothing_is_found_on_sound_slabs_however_odd(slab):
    layout = given_layout(slab)
    found = findings(slab, layout=layout)
    assert [f for f in found if f.severity is not Severity.ADVICE] == []
    assert len(verdicts(found, slab, layout, rules())) == len(Rule)
    assert all(d.stands for d in disagreements(slab, layout, rules(), Display.METRIC))


def test_a_joint_drawn_as_a_loop_is_held_like_its_four_sides():
    loop = joint("A", (0, 5), (5, 5), (5, 10), (0, 10), (0, 5))
    slab = grid_slab(2, 1, joints=(loop,))
    sides = grid_slab(
        2,
        1,
        joints=(
            joint("A", (0, 5), (5, 5)),
            joint("B", (5, 5), (5, 10)),
            joint("C", (5, 10), (0, 10)),
            joint("D", (0, 10), (0, 5)),
        ),
    )
    told = {(f.rule, f.severity) for f in findings(slab)}
    assert told == {(f.rule, f.severity) for f in findings(sides)}
    assert (Rule.EDGE, Severity.WARNING) in told


def finding(rule=Rule.SPAN, severity=Severity.ERROR, subject="P1", at=(0.0, 0.0), message=""):
    return Finding(
        rule=rule, severity=severity, at=at, subject=subject, measured=None, limit=None,
        message=message, source="", remedy="",
    )  # fmt: skip


def test_findings_are_told_by_rule_worst_first_then_by_subject_then_in_rows_from_below():
    ordered = [
        finding(subject="P2"),
        finding(subject="P10"),
        finding(severity=Severity.WARNING, subject="P1"),
        finding(severity=Severity.ADVICE, subject="P1"),
        finding(Rule.ASPECT, subject="P1", at=(9.0, 0.0)),
        finding(Rule.ASPECT, subject="P1", at=(0.0, 5.0)),
        finding(Rule.ASPECT, subject="P1", at=(3.0, 5.0)),
        finding(Rule.ASPECT, subject="P1", at=(3.04, 5.04), message="b"),
        finding(Rule.EDGE, severity=Severity.WARNING),
    ]
    assert list(in_order(reversed(ordered))) == ordered


@pytest.mark.parametrize(
    ("subject", "key"),
    [
        ("J2", (("J", 2),)),
        ("J10", (("J", 10),)),
        ("J2 in K1", (("J", 2), (" in K", 1))),
        ("corner", (("corner", 0),)),
        ("", ()),
    ],
)
def test_numbers_in_names_count_as_numbers(subject, key):
    assert natural(subject) == key


LONG = grid_slab(3, 2, bay=13.0)
"""Panels of 13 ft in a 4 in slab: over the greatest span."""


def test_a_layout_is_held_the_same_by_its_measures():
    layout = given_layout(LONG)
    held = findings_of(measures_of(LONG, layout, rules(), Display.METRIC))
    assert held == check(LONG, layout, rules(), Display.METRIC)
    assert {f.rule for f in held if f.severity is Severity.ERROR} == {Rule.SPAN}


@pytest.mark.parametrize("change", ["one more", "one less", "another name", "nothing"])
def test_a_change_is_held_as_if_afresh(change):
    """What is known of before never changes what is found."""
    changed = {
        "one more": with_joints(LONG, joint("X", (6.5, 0), (6.5, 13))),
        "one less": with_joints(LONG, without=("V1",)),
        "another name": replace(LONG, joints=tuple(replace(j, id=f"{j.id}x") for j in LONG.joints)),
        "nothing": LONG,
    }[change]
    first = measures_of(LONG, given_layout(LONG), rules(), Display.METRIC)
    before = held_against(first)
    layout = given_layout(changed)
    known = parted_again(first.parted, changed.concrete, [j.line for j in layout.joints])
    now = measures_of(changed, layout, rules(), Display.METRIC, known, first.panels)
    assert held_against(now, before).findings == check(changed, layout, rules(), Display.METRIC)
