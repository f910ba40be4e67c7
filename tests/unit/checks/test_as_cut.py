"""A survey of what was cut, held against the plan."""

from dataclasses import replace

import pytest

from checked import Rule, Severity, grid_joints, grid_slab, joint
from kerfline.checks.as_cut import as_cut
from kerfline.checks.given import given_layout
from kerfline.model.slab import JointKind
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display


def surveyed(*joints):
    """The findings of a survey held against the plan of a clean grid."""
    survey = tuple(replace(j, existing=True) for j in joints)
    return as_cut(grid_slab(joints=survey), given_layout(grid_slab()), Display.FEET_INCHES)


def moved(inches, name="S1", x=10.0):
    return joint(name, (x + inches / 12, 0), (x + inches / 12, 30))


def others(*without):
    return [j for j in grid_joints(4, 3) if j.id not in without]


def test_joints_cut_on_their_lines_are_clean():
    assert surveyed(*others()) == ()


def test_a_joint_more_than_three_quarters_of_an_inch_off_is_a_warning():
    assert surveyed(*others("V1"), moved(0.75)) == ()
    found = surveyed(*others("V1"), moved(0.80))
    assert [(f.rule, f.severity, f.subject) for f in found] == [(Rule.EDGE, Severity.WARNING, "S1")]
    assert found[0].measured == pytest.approx(0.8 * MM_PER_INCH)
    assert found[0].limit == pytest.approx(0.75 * MM_PER_INCH)
    assert "off its planned place on V1" in found[0].message
    assert "ACI 117" in found[0].source


def test_the_worst_of_a_joint_that_drifts_is_measured():
    drifting = joint("S1", (10, 0), (10 + 2 / 12, 30))
    found = surveyed(*others("V1"), drifting)
    assert [f.measured for f in found] == [pytest.approx(2 * MM_PER_INCH, rel=1e-3)]


def test_a_cut_that_stands_for_no_planned_joint_is_a_warning():
    found = surveyed(*others(), joint("S1", (15, 0), (15, 30)))
    assert [(f.severity, f.subject, f.measured) for f in found] == [(Severity.WARNING, "S1", None)]
    assert "stands for no joint of the plan" in found[0].message


def test_a_construction_joint_off_every_planned_line_is_an_error():
    found = surveyed(*others(), joint("S1", (15, 0), (15, 30), kind=JointKind.CONSTRUCTION))
    assert [f.severity for f in found] == [Severity.ERROR]
    assert "UFGS 02753" in found[0].source


def test_a_planned_joint_that_was_not_cut_is_an_error_with_its_length():
    found = surveyed(*others("V1"))
    assert [(f.severity, f.subject) for f in found] == [(Severity.ERROR, "V1")]
    assert found[0].measured == pytest.approx(30 * MM_PER_FOOT)


def test_a_cut_that_a_blade_leaves_four_inches_short_is_whole_and_a_foot_is_not():
    assert surveyed(*others("V1"), joint("S1", (10, 4 / 12), (10, 30 - 4 / 12))) == ()
    found = surveyed(*others("V1"), joint("S1", (10, 1), (10, 30)))
    assert [f.measured for f in found] == [pytest.approx(MM_PER_FOOT)]


def test_a_joint_cut_in_pieces_is_the_same_joint():
    pieces = [joint(f"S{i}", (10, i), (10, i + 1)) for i in range(30)]
    assert surveyed(*others("V1"), *pieces) == ()


def test_a_joint_off_its_line_is_shown_at_its_middle():
    (found,) = surveyed(*others("V1"), moved(0.80))
    assert found.at == pytest.approx(((10 + 0.8 / 12) * MM_PER_FOOT, 15 * MM_PER_FOOT))


@pytest.mark.parametrize(("beyond", "told"), [(2.2, False), (2.8, True)])
def test_a_short_cut_stands_for_a_joint_if_half_of_it_lies_on_one(beyond, told):
    """A cut of 5 in along a planned joint and on beyond its end: the rest may be half of it, blade and all."""
    planned = grid_slab(4, 3, joints=(*others("V1"), joint("V1", (10, 10), (10, 20))))
    cut = joint("S1", (10, 20 + (beyond - 5) / 12), (10, 20 + beyond / 12), existing=True)
    survey = tuple(replace(j, existing=True) for j in (*planned.joints, cut))
    found = as_cut(grid_slab(joints=survey), given_layout(planned), Display.FEET_INCHES)
    assert ("S1" in {f.subject for f in found}) is told
