"""A joint under each interior wall, and none that is plain under one that bears."""

import math
from dataclasses import replace

import pytest

from checked import Rule, Severity, box_ring, feet, findings, grid_slab, joint, of, with_joints
from kerfline.checks.given import given_layout
from kerfline.model.slab import BearingRule, Column, JointKind, Wall
from kerfline.units import MM_PER_FOOT


def wall(*points, **more):
    return Wall(id="W1", path=feet(*points), **more)


def walled(*walls, **more):
    return grid_slab(walls=walls, **more)


@pytest.mark.parametrize("off", [0.0, 0.1, 0.18])
def test_a_joint_anywhere_within_the_walls_thickness_is_enough(off):
    # 4 1/2 in thick: a joint may lie 2 1/4 in (0.1875 ft) off the centre line.
    assert not of(Rule.WALL, findings(walled(wall((0, 10 + off), (40, 10 + off)))))


def test_a_joint_just_outside_the_wall_does_not_hide():
    found = of(Rule.WALL, findings(walled(wall((0, 10.2), (40, 10.2)))))
    assert [(f.subject, f.measured) for f in found] == [("W1", 0.0)]


def test_a_wall_in_the_open_without_a_joint_is_a_warning_at_its_bare_middle():
    slab = walled(wall((0, 15), (20, 15)), bay=12.0)
    found = of(Rule.WALL, findings(slab))
    assert [(f.severity, f.at) for f in found] == [
        (Severity.WARNING, pytest.approx(feet((10, 15))[0]))
    ]
    assert "has no joint under it" in found[0].message
    assert '4 1/2" of thickness' in found[0].remedy


def test_a_wall_with_a_joint_under_most_of_it_is_advice_with_the_share():
    slab = walled(wall((0, 15), (40, 15)))
    slab = with_joints(slab, joint("A", (0, 15), (30, 15)))
    found = of(Rule.WALL, findings(slab))
    assert [f.severity for f in found] == [Severity.ADVICE]
    assert found[0].measured == pytest.approx(0.75, abs=1e-3)
    assert "under 75% of it only" in found[0].message


def test_joints_that_only_cross_under_a_wall_do_not_count():
    found = of(Rule.WALL, findings(walled(wall((0, 15), (40, 15)))))
    assert [f.measured for f in found] == [0.0]


def test_a_wall_too_near_another_joint_for_one_of_its_own_is_advice():
    found = of(Rule.WALL, findings(walled(wall((0, 11.5), (40, 11.5)))))
    assert [f.severity for f in found] == [Severity.ADVICE]
    assert "within 2'-0\" of an edge or another joint" in found[0].message


def test_a_stub_of_wall_is_advice():
    assert [f.severity for f in of(Rule.WALL, findings(walled(wall((5, 15), (6.5, 15)))))] == [
        Severity.ADVICE
    ]


def test_what_the_layout_says_of_a_wall_is_passed_on():
    slab = walled(wall((0, 15), (20, 15)))
    layout = replace(given_layout(slab), walls_left={"W1": "no room beside the pit"})
    found = of(Rule.WALL, findings(slab, layout=layout))
    assert "The layout says: no room beside the pit." in found[0].message


def test_what_of_a_wall_stands_over_an_opening_or_a_boxout_needs_no_joint():
    pit = box_ring(10, 8, 40, 12)
    slab = walled(wall((0, 10), (40, 10)), openings=(pit,), joints=(joint("A", (0, 10), (10, 10)),))
    assert not of(Rule.WALL, findings(slab))
    column = Column(id="C1", at=feet((20, 10))[0], size=1500.0)
    assert not of(Rule.WALL, findings(walled(wall((0, 10), (40, 10)), columns=(column,))))


def test_a_bent_wall_wants_a_joint_under_each_leg():
    bent = wall((0, 10), (20, 10), (20, 20))
    assert not of(Rule.WALL, findings(walled(bent)))
    half = of(Rule.WALL, findings(with_joints(walled(bent), without=("V2",))))
    assert half[0].measured == pytest.approx(2 / 3, abs=1e-2)


def test_a_plain_joint_along_under_a_bearing_wall_is_a_warning():
    found = of(Rule.BEARING_WALL, findings(walled(wall((0, 10), (40, 10), bearing=True))))
    assert [(f.severity, f.subject) for f in found] == [(Severity.WARNING, "W1")]
    assert found[0].measured == pytest.approx(40 * MM_PER_FOOT)
    assert not of(Rule.WALL, findings(walled(wall((0, 10), (40, 10), bearing=True))))


def test_joints_that_cross_under_a_bearing_wall_are_allowed():
    assert not of(Rule.BEARING_WALL, findings(walled(wall((0, 15), (40, 15), bearing=True))))


def test_a_joint_over_the_strip_counts_and_one_beside_it_does_not():
    def strip(width):
        return wall((0, 10.5), (40, 10.5), bearing=True, strip_width=width * MM_PER_FOOT)

    assert of(Rule.BEARING_WALL, findings(walled(strip(1.2))))
    assert not of(Rule.BEARING_WALL, findings(walled(strip(0.9))))


def test_doweled_and_isolation_joints_may_run_under_a_bearing_wall():
    doweled = wall((0, 10), (40, 10), bearing=True, bearing_rule=BearingRule.DOWELED)
    assert not of(Rule.BEARING_WALL, findings(walled(doweled)))
    slab = walled(wall((0, 10), (40, 10), bearing=True))
    slab = with_joints(
        slab, joint("H1", (0, 10), (40, 10), kind=JointKind.ISOLATION), without=("H1",)
    )
    assert not of(Rule.BEARING_WALL, findings(slab))


def test_one_joint_runs_and_two_run_under_a_bearing_wall():
    one = walled(wall((0, 10), (40, 10), bearing=True))
    two = with_joints(
        one, joint("A", (0, 10), (20, 10)), joint("B", (20, 10), (40, 10)), without=("H1",)
    )
    for slab, verb in ((one, "H1 runs "), (two, "A and B run ")):
        (found,) = of(Rule.BEARING_WALL, findings(slab))
        assert verb in found.message


def test_a_wall_at_an_angle_is_crowded_by_a_joint_beside_it_as_one_along_an_axis_is():
    """A joint a foot beside the wall leaves no room for a panel of two; one that crosses it does."""
    off = math.sqrt(0.5)
    beside = joint("D", (off, -off), (20, 20 - 2 * off))
    for cut, crowded in ((beside, True), (joint("D", (0, 20), (20, 0)), False)):
        slab = with_joints(grid_slab(2, 2, joints=(), walls=(wall((6, 6), (14, 14)),)), cut)
        found = [f for f in of(Rule.WALL, findings(slab)) if f.subject == "W1"]
        assert found
        assert any("would lie within" in f.message for f in found) is crowded


def test_a_joint_under_a_bearing_wall_is_shown_at_the_middle_of_what_lies_under_it():
    """A wall of 12 ft from 5 to 17 ft along H1: 11 ft at x, 10 ft at y."""
    found = of(Rule.BEARING_WALL, findings(walled(wall((5, 10), (17, 10), bearing=True))))
    assert [f.at for f in found] == [pytest.approx(feet((11, 10))[0])]
