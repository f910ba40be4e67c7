"""The verdict rule by rule, and rule sets side by side."""

import pytest

from checked import Rule, findings, grid_slab, joint, rules, with_joints
from kerfline.checks.disagreements import disagreements
from kerfline.checks.given import given_layout
from kerfline.checks.verdict import Ruling, compare, verdicts
from kerfline.model.layout import Layout, Solution, Status
from kerfline.model.slab import Column, KeepOut, Penetration, Wall
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display
from shapes import workshop_layout, workshop_slab


def verdicts_of(slab, name="floor", layout=None):
    layout = layout or given_layout(slab)
    found = findings(slab, name, layout=layout)
    return {v.rule: v for v in verdicts(found, slab, layout, rules(name))}


def test_every_rule_has_a_verdict_in_order():
    slab = grid_slab()
    found = verdicts(findings(slab), slab, given_layout(slab), rules())
    assert [v.rule for v in found] == list(Rule)


def test_a_clean_grid_complies_where_a_rule_applies():
    found = verdicts_of(grid_slab())
    applies = {Rule.SPAN, Rule.ASPECT, Rule.WIDTH, Rule.SHAPE, Rule.ANGLE, Rule.FREE_END}
    applies |= {Rule.TEE_END, Rule.DEPTH, Rule.EDGE}
    assert {r for r, v in found.items() if v.ruling is Ruling.COMPLIES} == applies
    assert {v.ruling for r, v in found.items() if r not in applies} == {Ruling.NOT_APPLICABLE}
    assert all(v.reason for v in found.values() if v.ruling is Ruling.NOT_APPLICABLE)
    assert all(v.count == 0 for v in found.values())


def test_rules_with_figures_tell_the_worst_value_kept():
    found = verdicts_of(grid_slab(bay=9.5, aside=9.0))
    assert found[Rule.SPAN].worst == pytest.approx(9.5 * MM_PER_FOOT)
    assert found[Rule.SPAN].advised == pytest.approx(10 * MM_PER_FOOT)
    assert found[Rule.SPAN].limit == pytest.approx(12 * MM_PER_FOOT)
    assert found[Rule.ASPECT].worst == pytest.approx(9.5 / 9)
    assert found[Rule.WIDTH].worst == pytest.approx(9 * MM_PER_FOOT)
    assert found[Rule.ANGLE].worst == pytest.approx(90)
    assert found[Rule.DEPTH].worst == pytest.approx(MM_PER_INCH)
    assert found[Rule.SPAN].source.publication.startswith("ACI 302.1R")
    assert found[Rule.SPAN].source.edition == "1996, later editions exist"


def test_between_advised_and_bound_a_rule_complies_and_says_how_often_it_is_beyond():
    span = verdicts_of(grid_slab(3, 3, bay=11))[Rule.SPAN]
    assert (span.ruling, span.warnings) == (Ruling.COMPLIES, 9)
    assert span.reason == "9 places are beyond the advised value"


def test_beyond_the_bound_a_rule_fails_with_its_count_and_worst_value():
    span = verdicts_of(grid_slab(3, 3, bay=13))[Rule.SPAN]
    assert (span.ruling, span.errors) == (Ruling.FAILS, 9)
    assert span.worst == pytest.approx(13 * MM_PER_FOOT)


def test_a_rule_that_asks_yes_or_no_fails_on_a_warning_but_not_on_advice():
    slab = with_joints(grid_slab(columns=(Column(id="C1", at=(1500.0, 1500.0)),)))
    assert verdicts_of(slab)[Rule.COLUMN].ruling is Ruling.FAILS
    tee = with_joints(grid_slab(), joint("V2", (20, 0), (20, 20)), without=("V2",))
    assert verdicts_of(tee)[Rule.TEE_END].ruling is Ruling.COMPLIES
    assert verdicts_of(tee)[Rule.TEE_END].advice == 1


def test_depths_that_are_not_noted_are_not_checked():
    slab = with_joints(grid_slab(), joint("V1", (10, 0), (10, 30), depth=None), without=("V1",))
    depth = verdicts_of(slab)[Rule.DEPTH]
    assert depth.ruling is Ruling.NOT_CHECKED
    assert depth.reason == "1 of 5 sawn joints have no depth noted"


def test_a_slab_without_joints_has_nothing_to_say_on_them():
    slab = grid_slab(1, 1)
    layout = Layout(
        joints=(), panels=given_layout(slab).panels, solution=Solution(status=Status.GIVEN)
    )
    found = verdicts_of(slab, layout=layout)
    for rule in (Rule.ANGLE, Rule.FREE_END, Rule.TEE_END, Rule.EDGE, Rule.DEPTH):
        assert found[rule].ruling is Ruling.NOT_APPLICABLE
    assert found[Rule.SPAN].ruling is Ruling.COMPLIES


def test_things_on_the_slab_make_their_rules_apply():
    slab = grid_slab(
        walls=(Wall(id="W1", path=((0.0, 3048.0), (12192.0, 3048.0)), bearing=True),),
        penetrations=(Penetration(id="N1", at=(1000.0, 1000.0)),),
        keep_outs=(KeepOut(id="K1", outline=grid_slab(1, 1, bay=3).outline),),
    )
    found = verdicts_of(slab)
    assert found[Rule.WALL].ruling is Ruling.NOT_APPLICABLE
    assert found[Rule.BEARING_WALL].ruling is Ruling.FAILS
    assert found[Rule.PENETRATION].ruling is Ruling.COMPLIES
    assert found[Rule.KEEP_OUT].ruling is Ruling.COMPLIES


def test_rule_sets_side_by_side_differ_where_their_figures_do():
    slab = grid_slab(3, 3, bay=10, aside=7.5)
    floor, military = compare(
        slab, given_layout(slab), [rules("floor"), rules("military-floor")], Display.FEET_INCHES
    )
    assert (floor.rule_set, military.rule_set) == ("floor", "military-floor")
    assert floor.complies
    assert not military.complies
    assert floor.of(Rule.ASPECT).ruling is Ruling.COMPLIES
    assert military.of(Rule.ASPECT).ruling is Ruling.FAILS
    assert military.of(Rule.AREA).ruling is Ruling.COMPLIES
    assert floor.of(Rule.AREA).ruling is Ruling.NOT_APPLICABLE


def test_the_verdict_agrees_with_the_findings_of_the_workshop():
    slab, layout = workshop_slab(), workshop_layout()
    found = findings(slab, layout=layout)
    for rule, verdict in verdicts_of(slab, layout=layout).items():
        assert verdict.count == sum(f.rule is rule for f in found)


def test_publications_that_part_over_a_layout_are_named_and_the_choice_left_open():
    slab = grid_slab(3, 3, bay=10, aside=7.5)
    rows = disagreements(slab, given_layout(slab), rules(), Display.FEET_INCHES)
    by = {row.rule: row for row in rows}
    assert set(by) == {Rule.SPAN, Rule.ASPECT, Rule.DEPTH}
    assert [(s.limit, s.kept) for s in by[Rule.ASPECT].stands] == [
        (1.25, False), (1.25, False), (1.5, True), (2.0, True),
    ]  # fmt: skip
    quarter, third = by[Rule.DEPTH].stands
    assert (quarter.limit, quarter.kept) == (pytest.approx(MM_PER_INCH), True)
    assert (third.limit, third.kept) == (pytest.approx(4 / 3 * MM_PER_INCH), False)
    assert all("The engineer chooses." in row.message for row in rows)


def test_where_every_publication_agrees_nothing_is_left_open():
    slab = grid_slab(3, 3, bay=8, thickness=4 * MM_PER_INCH)
    deep = with_joints(
        grid_slab(3, 3, bay=8, joints=()),
        *(
            joint(j.id, *[(x / MM_PER_FOOT, y / MM_PER_FOOT) for x, y in j.path], depth=34.0)
            for j in slab.joints
        ),
    )
    assert disagreements(deep, given_layout(deep), rules(), Display.METRIC) == ()
