"""Angles between joints, and between joints and edges."""

import math

import pytest

from checked import Rule, Severity, feet, findings, grid_slab, joint, of
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Slab


def leaning(degrees, at=10.0, high=10.0):
    """A joint up the middle of a slab that leans from the lower edge by so many degrees from it."""
    run = high / math.tan(math.radians(degrees))
    return joint("A", (at, 0), (at + run, high))


@pytest.mark.parametrize(
    ("degrees", "severity"),
    [(90, None), (75, None), (74.8, "warning"), (60, "warning"), (59.8, "error")],
)
def test_a_joint_that_meets_an_edge_is_held_in_two_steps(degrees, severity):
    found = of(Rule.ANGLE, findings(grid_slab(2, 1, joints=(leaning(degrees),))))
    assert {f.severity.value for f in found} == ({severity} if severity else set())
    assert all(f.measured == pytest.approx(degrees, abs=0.02) for f in found)


def test_joints_that_cross_at_fifty_degrees_are_one_error_at_their_crossing():
    slope = math.tan(math.radians(25))
    lines = (
        joint("A", (0, 5 - 10 * slope), (20, 5 + 10 * slope)),
        joint("B", (0, 5 + 10 * slope), (20, 5 - 10 * slope)),
    )
    found = [
        f for f in of(Rule.ANGLE, findings(grid_slab(2, 1, joints=lines))) if "and B" in f.message
    ]
    assert [(f.severity, f.at) for f in found] == [
        (Severity.ERROR, pytest.approx(feet((10, 5))[0]))
    ]
    assert found[0].measured == pytest.approx(50, abs=0.01)


def test_a_sharp_bend_in_one_joint_is_an_angle_as_well_as_two_joints_that_meet_there():
    bent = (joint("A", (5, 0), (10, 8), (15, 0)),)
    pair = (joint("A", (5, 0), (10, 8)), joint("B", (10, 8), (15, 0)))
    angle = 2 * math.degrees(math.atan2(5, 8))
    for lines in (bent, pair):
        found = of(Rule.ANGLE, findings(grid_slab(2, 1, joints=lines)))
        tops = [f for f in found if f.at == pytest.approx(feet((10, 8))[0])]
        assert [f.measured for f in tops] == [pytest.approx(angle, abs=0.01)]


def test_the_slabs_own_sharp_corner_is_no_fault_of_the_joints():
    triangle = Slab(outline=Ring(feet((0, 0), (9, 0), (0, 5))), thickness=101.6)
    assert not of(Rule.ANGLE, findings(triangle))


def half_round(degrees):
    """A slab whose right side is a half circle of 5 ft, and a joint that meets it off square.

    The joint ends on the arc at 30 degrees above its centre, its line turned from the radius.
    """
    outline = Ring(feet((0, 0), (10, 0), (10, 10), (0, 10)), (0.0, 1.0, 0.0, 0.0))
    x, y = 10 + 5 * math.cos(math.radians(30)), 5 + 5 * math.sin(math.radians(30))
    way = math.radians(210 + degrees)
    reach = 6.0
    start = (x + reach * math.cos(way), y + reach * math.sin(way))
    return Slab(outline=outline, thickness=101.6, joints=(joint("A", start, (x, y)),))


@pytest.mark.parametrize("off", [0.0, 10.0, 14.9, 20.0, 29.9, 35.0])
def test_a_curved_edge_is_met_by_its_tangent(off):
    found = [f for f in of(Rule.ANGLE, findings(half_round(off))) if f.at[0] > 3100]
    if off < 15:
        assert not found
    else:
        assert found[0].measured == pytest.approx(90 - off, abs=0.1)
        assert found[0].severity is (Severity.WARNING if off < 30 else Severity.ERROR)


def test_joints_that_meet_the_points_of_a_diamond_make_no_sharp_angle():
    column = Column(id="C1", at=feet((10, 10))[0], size=609.6)
    tip = 609.6 / math.sqrt(2) / 304.8
    lines = (
        joint("A", (0, 10), (10 - tip, 10)),
        joint("B", (10 + tip, 10), (20, 10)),
        joint("C", (10, 0), (10, 10 - tip)),
        joint("D", (10, 10 + tip), (10, 20)),
    )
    assert findings(grid_slab(2, 2, joints=lines, columns=(column,))) == ()


def test_a_joint_that_grazes_a_square_boxout_is_an_error():
    column = Column(id="C1", at=feet((10, 10))[0], size=609.6, boxout=Boxout.SQUARE)
    found = of(
        Rule.ANGLE,
        findings(grid_slab(2, 2, joints=(joint("A", (4, 7), (10, 9)),), columns=(column,))),
    )
    assert [f.severity for f in found] == [Severity.ERROR]
    assert found[0].measured == pytest.approx(math.degrees(math.atan2(2, 6)), abs=0.01)
