"""Joints lie in the concrete, once each, and where the job wants them."""

from dataclasses import replace

import pytest

from checked import (
    Rule,
    Severity,
    box_ring,
    feet,
    findings,
    grid_slab,
    joint,
    kinds,
    of,
    with_joints,
)
from kerfline.checks.given import given_layout
from kerfline.model.slab import Fall, FallJoints, JointKind, Zone
from kerfline.units import MM_PER_FOOT


def test_a_joint_that_runs_over_the_edge_is_an_error_with_the_length():
    slab = with_joints(grid_slab(), joint("V1", (10, -1), (10, 30)), without=("V1",))
    found = findings(slab)
    assert kinds(found) == [(Rule.EDGE, Severity.ERROR)]
    assert found[0].measured == pytest.approx(MM_PER_FOOT)
    assert "runs 1'-0\" beyond the edge" in found[0].message


@pytest.mark.parametrize("over", [0.0, 0.4])
def test_a_joint_that_runs_over_within_the_tolerance_is_clean(over):
    slab = with_joints(
        grid_slab(), joint("V1", (10, -over / MM_PER_FOOT), (10, 30)), without=("V1",)
    )
    assert findings(slab) == ()


def test_a_joint_outside_the_slab_is_an_error():
    found = findings(with_joints(grid_slab(), joint("X", (45, 0), (45, 10))))
    assert kinds(found) == [(Rule.EDGE, Severity.ERROR)]
    assert "X lies outside the concrete" in found[0].message


def test_a_joint_across_an_opening_is_an_error():
    slab = grid_slab(openings=(box_ring(8, 8, 12, 12),))
    found = of(Rule.EDGE, findings(slab))
    assert {(f.subject, f.severity) for f in found} == {("V1", "error"), ("H1", "error")}


def test_a_joint_along_the_edge_is_a_warning_unless_it_isolates():
    slab = with_joints(grid_slab(), joint("X", (0, 0), (12, 0)))
    found = findings(slab)
    assert kinds(found) == [(Rule.EDGE, Severity.WARNING)]
    assert found[0].measured == pytest.approx(12 * MM_PER_FOOT, abs=1)
    isolated = with_joints(grid_slab(), joint("X", (0, 0), (12, 0), kind=JointKind.ISOLATION))
    assert findings(isolated) == ()


@pytest.mark.parametrize(
    "second",
    [
        joint("X", (10, 0), (10, 30)),
        joint("X", (10, 30), (10, 0)),
        joint("X", (10, 5), (10, 12)),
        joint("X", (10 + 0.3 / MM_PER_FOOT, 0), (10 + 0.3 / MM_PER_FOOT, 30)),
        joint("X", (10, 0), (10, 3), (10, 30)),
    ],
)
def test_a_stretch_drawn_twice_is_a_warning(second):
    found = of(Rule.EDGE, findings(with_joints(grid_slab(), second)))
    assert [(f.severity, f.subject) for f in found] == [(Severity.WARNING, "X")]
    assert "X lies on V1" in found[0].message


def test_pieces_that_follow_each_other_are_not_drawn_twice():
    pieces = (
        joint("A", (10, 0), (10, 12)),
        joint("B", (10, 12), (10, 12.1)),
        joint("C", (10, 12.1), (10, 30)),
    )
    assert findings(with_joints(grid_slab(), *pieces, without=("V1",))) == ()


def test_a_pinned_joint_that_the_layout_leaves_out_is_an_error():
    slab = grid_slab()
    layout = given_layout(with_joints(slab, without=("V1",)))
    found = of(Rule.EDGE, findings(slab, layout=layout))
    assert [(f.severity, f.subject) for f in found] == [(Severity.ERROR, "V1")]
    assert found[0].measured == pytest.approx(30 * MM_PER_FOOT, rel=0.01)


def test_a_pinned_joint_that_the_layout_continues_is_kept():
    slab = with_joints(grid_slab(), joint("V1", (10, 5), (10, 12)), without=("V1",))
    layout = given_layout(grid_slab())
    assert not of(Rule.EDGE, findings(slab, layout=layout))


def test_the_border_of_a_zone_wants_a_joint():
    whole = Zone(id="Z1", outline=box_ring(10, 10, 20, 20), thickness=101.6)
    assert findings(grid_slab(zones=(whole,))) == ()
    off = Zone(id="Z1", outline=box_ring(10, 10, 20, 16), thickness=101.6)
    found = findings(grid_slab(zones=(off,)))
    assert kinds(found) == [(Rule.EDGE, Severity.WARNING)]
    assert found[0].measured == pytest.approx(10 * MM_PER_FOOT, rel=0.02)
    free = replace(off, joint_at_border=False)
    assert findings(grid_slab(zones=(free,))) == ()


def test_the_border_of_a_zone_along_the_slabs_edge_wants_none():
    strip = Zone(id="Z1", outline=box_ring(0, 0, 40, 10), thickness=101.6)
    assert findings(grid_slab(zones=(strip,))) == ()


def test_a_fall_without_the_joints_that_it_asks_for_is_a_warning():
    basin = Fall(id="D1", area=box_ring(10, 10, 20, 20), to=feet((15, 15)))
    found = of(Rule.EDGE, findings(grid_slab(falls=(basin,))))
    assert [(f.subject, f.severity) for f in found] == [("D1", Severity.WARNING)] * 4
    assert "a valley of fall D1 has no joint" in found[0].message
    ridges = replace(basin, joints=FallJoints.RIDGES)  # the grid's own joints run along the border
    assert of(Rule.EDGE, findings(grid_slab(falls=(ridges,)))) == []


@pytest.mark.parametrize(("shared", "told"), [(49.0, False), (50.6, True)])
def test_joints_that_share_two_inches_of_line_are_drawn_twice(shared, told):
    """50 mm and more: A ends so far beyond the start of B on the same line, whichever is named first."""
    over = shared / MM_PER_FOOT
    pieces = (joint("A", (10, 0), (10, 12 + over)), joint("B", (10, 12), (10, 30)))
    for order in (pieces, pieces[::-1]):
        found = of(Rule.EDGE, findings(with_joints(grid_slab(), *order, without=("V1",))))
        assert bool(found) is told


@pytest.mark.parametrize(("inches", "served"), [(0.98, True), (1.1, False)])
def test_a_joint_within_an_inch_of_a_zones_border_is_at_it(inches, served):
    zone = Zone(id="Z1", outline=box_ring(10, 10, 20, 20 + inches / 12), thickness=101.6)
    found = [f for f in of(Rule.EDGE, findings(grid_slab(zones=(zone,)))) if f.subject == "Z1"]
    assert bool(found) is not served
