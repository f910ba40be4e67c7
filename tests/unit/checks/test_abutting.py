"""Joints held against those of the slab next door."""

import pytest
from shapely import LineString

from checked import Rule, Severity, feet, grid_slab, rules
from kerfline.checks.abutting import abutting
from kerfline.checks.given import given_layout
from kerfline.model.slab import Edge, EdgeKind
from kerfline.units import MM_PER_FOOT, Display


def beside(*xs, kind=EdgeKind.CONSTRUCTION):
    """A grid whose lower edge abuts a slab with joints at these places along it, in feet."""
    slab = grid_slab(edges=(Edge(ring=0, segment=0, kind=kind),))
    lines = [LineString(feet((x, -20), (x, 0))) for x in xs]
    return abutting(slab, given_layout(slab), lines, rules(), Display.FEET_INCHES)


def test_joints_that_line_up_are_clean():
    assert beside(10, 20, 30) == ()


def test_joints_within_an_inch_line_up():
    assert beside(10 + 1 / 12, 20, 30) == ()


def test_a_neighbours_joint_that_meets_none_of_ours_is_a_warning_with_the_distance():
    found = beside(10, 15, 20, 30)
    assert [(f.rule, f.severity) for f in found] == [(Rule.EDGE, Severity.WARNING)]
    assert found[0].measured == pytest.approx(5 * MM_PER_FOOT)
    assert "0.05 % both ways, 3 ft back" in found[0].remedy
    assert "UFC 3-260-02" in found[0].source


def test_a_joint_of_ours_that_meets_none_of_theirs_is_advice():
    found = beside(10, 20)
    assert [(f.severity, f.subject) for f in found] == [(Severity.ADVICE, "V3")]


def test_a_bond_breaker_parts_the_slabs():
    assert beside(15, kind=EdgeKind.ISOLATED) == ()


def test_joints_of_the_neighbour_that_stop_elsewhere_are_none_of_ours():
    slab = grid_slab(edges=(Edge(ring=0, segment=0, kind=EdgeKind.CONSTRUCTION),))
    far = [
        LineString(feet((15, -20), (15, -2))),
        *(LineString(feet((x, -9), (x, 0))) for x in (10, 20, 30)),
    ]
    assert abutting(slab, given_layout(slab), far, rules(), Display.METRIC) == ()
