"""Joints meet the points of a column's isolation, and none runs through it."""

import math

import pytest

from checked import Rule, Severity, feet, findings, grid_slab, joint, kinds, of, with_joints
from kerfline.model.slab import Boxout, Column
from kerfline.units import MM_PER_FOOT

TIP = 609.6 / math.sqrt(2) / MM_PER_FOOT
"""Half the diagonal of a 24 in square, in feet."""


def column(x, y, boxout=Boxout.DIAMOND, **more):
    return Column(id="C1", at=feet((x, y))[0], boxout=boxout, size=609.6, **more)


def cross(gap=TIP, dx=0.0):
    """The joints of a 2 x 2 grid that stop at a column in its middle."""
    return (
        joint("W", (0, 10), (10 - gap, 10)),
        joint("E", (10 + gap, 10), (20, 10)),
        joint("S", (10 + dx, 0), (10 + dx, 10 - gap)),
        joint("N", (10, 10 + gap), (10, 20)),
    )


def test_joints_at_all_four_points_are_clean():
    assert findings(grid_slab(2, 2, joints=cross(), columns=(column(10, 10),))) == ()


def test_each_point_that_is_missed_is_a_warning_with_the_distance():
    slab = with_joints(grid_slab(2, 2, joints=cross(), columns=(column(10, 10),)), without=("S",))
    found = of(Rule.COLUMN, findings(slab))
    assert [(f.severity, f.subject, f.at) for f in found] == [
        (Severity.WARNING, "C1", pytest.approx((10 * MM_PER_FOOT, (10 - TIP) * MM_PER_FOOT)))
    ]
    assert found[0].measured == pytest.approx(math.hypot(TIP, 0) * MM_PER_FOOT * math.sqrt(2))
    assert "misses it by" in found[0].message
    assert "ACI 302" in found[0].source


def test_a_joint_an_inch_off_the_point_misses_it_by_an_inch():
    slab = grid_slab(2, 2, joints=cross(dx=1 / 12), columns=(column(10, 10),))
    missed = [
        f for f in of(Rule.COLUMN, findings(slab)) if f.measured and f.at[1] < 10 * MM_PER_FOOT
    ]
    assert missed[0].measured == pytest.approx(25.4, abs=0.01)


def test_a_diamond_in_the_middle_of_a_panel_misses_all_four():
    found = of(Rule.COLUMN, findings(grid_slab(columns=(column(5, 5),))))
    assert len(found) == 4


def test_points_beyond_the_slabs_edge_need_no_joint():
    found = of(Rule.COLUMN, findings(grid_slab(2, 2, columns=(column(0, 10),))))
    # Half the diamond lies in the slab; H1 is drawn from the edge through it, out at its one inner point.
    assert [f.severity for f in found] == [Severity.WARNING]
    assert "from point to point" in found[0].message


def test_a_joint_drawn_through_a_diamond_from_point_to_point_is_a_warning():
    found = findings(grid_slab(2, 2, columns=(column(10, 10),)))
    assert kinds(found) == [(Rule.COLUMN, Severity.WARNING)]
    assert all("from point to point" in f.message for f in found)


def test_a_joint_drawn_through_a_boxout_elsewhere_is_an_error():
    found = of(Rule.COLUMN, findings(grid_slab(2, 2, columns=(column(10.5, 10.3),))))
    assert Severity.ERROR in {f.severity for f in found}
    assert any("past its points" in f.message for f in found)


def test_a_turned_columns_points_turn_with_it():
    slab = grid_slab(2, 2, joints=(), columns=(column(10, 10, turn=30.0),))
    tips = [f.at for f in of(Rule.COLUMN, findings(slab))]
    far = [math.dist(t, feet((10, 10))[0]) for t in tips]
    assert far == pytest.approx([TIP * MM_PER_FOOT] * 4)
    angle = math.degrees(math.atan2(tips[0][1] - 10 * MM_PER_FOOT, tips[0][0] - 10 * MM_PER_FOOT))
    assert angle % 90 == pytest.approx(30)


def test_a_round_boxout_is_met_along_a_radius():
    round_one = column(10, 10, Boxout.CIRCLE)
    assert findings(grid_slab(2, 2, joints=cross(gap=1.0), columns=(round_one,))) == ()


def test_a_round_boxout_is_met_along_a_tangent():
    pinwheel = (
        joint("A", (0, 9), (20, 9)),
        joint("B", (11, 0), (11, 20)),
        joint("C", (0, 11), (20, 11)),
        joint("D", (9, 0), (9, 20)),
    )
    found = findings(grid_slab(2, 2, joints=pinwheel, columns=(column(10, 10, Boxout.CIRCLE),)))
    assert not of(Rule.COLUMN, found)
    assert not of(Rule.ANGLE, found)


def test_a_round_boxout_met_askew_is_a_warning():
    askew = joint("A", (0, 10.7), (10 - math.sqrt(1 - 0.49), 10.7))
    found = of(
        Rule.COLUMN,
        findings(grid_slab(2, 2, joints=(askew,), columns=(column(10, 10, Boxout.CIRCLE),))),
    )
    assert [f.severity for f in found] == [Severity.WARNING]
    assert found[0].measured == pytest.approx(math.degrees(math.acos(0.7)), abs=0.5)


def test_a_round_boxout_that_no_joint_meets_is_a_warning_with_the_distance():
    found = of(Rule.COLUMN, findings(grid_slab(columns=(column(5, 5, Boxout.CIRCLE),))))
    assert [f.severity for f in found] == [Severity.WARNING]
    assert found[0].measured == pytest.approx(4 * MM_PER_FOOT, abs=0.2)


def test_a_column_without_isolation_is_advice():
    found = findings(grid_slab(columns=(column(10, 10, Boxout.NONE),)))
    assert kinds(found) == [(Rule.COLUMN, Severity.ADVICE)]


def test_a_joint_is_held_to_the_very_point_so_the_limit_is_nought():
    missed = with_joints(grid_slab(2, 2, joints=cross(), columns=(column(10, 10),)), without=("S",))
    through = grid_slab(2, 2, columns=(column(10, 10),))
    unmet = grid_slab(columns=(column(5, 5, Boxout.CIRCLE),))
    for slab in (missed, through, unmet):
        assert {f.limit for f in of(Rule.COLUMN, findings(slab))} == {0.0}


def test_a_bare_column_beyond_the_slab_asks_for_nothing():
    assert findings(grid_slab(columns=(column(-5, 10, Boxout.NONE),))) == ()


def through(*points, boxout=Boxout.DIAMOND):
    """What is told of a joint near a boxout at (10, 10) whose points are met by others."""
    joints = (*cross(), joint("X", *points))
    found = findings(grid_slab(2, 2, joints=joints, columns=(column(10, 10, boxout),)))
    return {f.severity for f in of(Rule.COLUMN, found) if f.subject == "X" or "X" in f.message}


def test_a_joint_over_the_centre_of_a_diamond_but_not_by_its_points_is_an_error():
    assert through((5, 5), (15, 15)) == {Severity.ERROR}
    assert through((5, 10), (15, 10)) == {Severity.WARNING}


@pytest.mark.parametrize("inner", [10.3, 9.7])
def test_a_joint_that_begins_within_a_diamond_is_an_error_whichever_way_it_is_drawn(inner):
    """It runs over the centre and out by one point, but ends short of the other."""
    out = 20 if inner < 10 else 0
    assert through((inner, 10), (out, 10)) == {Severity.ERROR}
    assert through((out, 10), (inner, 10)) == {Severity.ERROR}


def test_a_joint_over_the_centre_of_a_round_boxout_is_a_warning_and_aside_of_it_an_error():
    assert through((0, 10), (20, 10), boxout=Boxout.CIRCLE) == {Severity.WARNING}
    assert through((0, 10.3), (20, 10.3), boxout=Boxout.CIRCLE) == {Severity.ERROR}
