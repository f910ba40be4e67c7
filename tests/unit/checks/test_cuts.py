"""The depth of cuts."""

import pytest

from checked import (
    Rule,
    Severity,
    box_ring,
    findings,
    grid_joints,
    grid_slab,
    joint,
    kinds,
    of,
    with_joints,
)
from kerfline.model.slab import JointKind, Zone
from kerfline.units import MM_PER_INCH


def cut(depth_inches, thickness_inches=6.0):
    depth = None if depth_inches is None else depth_inches * MM_PER_INCH
    joints = (joint("A", (10, 0), (10, 10), depth=depth),)
    slab = grid_slab(2, 1, joints=joints, thickness=thickness_inches * MM_PER_INCH)
    return of(Rule.DEPTH, findings(slab))


@pytest.mark.parametrize(
    ("depth", "severity", "limit"),
    [
        (1.1, "error", 1.2),
        (1.2, "warning", 1.5),
        (1.45, "warning", 1.5),
        (1.5, None, 0),
        (2.0, None, 0),
    ],
)
def test_a_six_inch_slab_wants_a_fifth_and_is_advised_a_quarter(depth, severity, limit):
    found = cut(depth)
    assert {f.severity.value for f in found} == ({severity} if severity else set())
    assert all(f.limit == pytest.approx(limit * MM_PER_INCH) for f in found)


def test_an_inch_is_the_least_in_a_thin_slab():
    assert [f.severity for f in cut(0.9, 3.5)] == [Severity.ERROR]
    assert not cut(1.0, 3.5)


def test_more_than_a_third_is_advice_and_never_an_error():
    found = cut(2.2)
    assert [f.severity for f in found] == [Severity.ADVICE]
    assert "more than a third" in found[0].message
    assert not cut(2.0)


def test_an_inch_in_a_thin_slab_is_not_called_deep_where_it_is_the_least():
    assert not cut(1.0, 2.75)


def test_a_cut_right_through_is_an_error():
    assert [f.severity for f in cut(6.0)] == [Severity.ERROR]


def test_missing_depths_are_one_piece_of_advice_for_all_joints():
    bare = grid_slab(4, 3, joints=[*(joint(j.id, depth=None) for j in ())])
    lines = [
        joint("A", (10, 0), (10, 30), depth=None),
        joint("B", (20, 0), (20, 30), depth=None),
        joint("C", (30, 0), (30, 30), depth=None),
        joint("D", (0, 10), (40, 10), depth=None),
        joint("E", (0, 20), (40, 20)),
    ]
    found = findings(with_joints(bare, *lines))
    assert kinds(found) == [(Rule.DEPTH, Severity.ADVICE)]
    assert [f.subject for f in found] == ["A and 3 more"]
    assert found[0].message == "A, B, C and 1 more have no depth of cut noted."


def test_formed_joints_have_no_cut():
    formed = (joint("A", (10, 0), (10, 10), depth=None, kind=JointKind.CONSTRUCTION),)
    assert findings(grid_slab(2, 1, joints=formed)) == ()


def test_the_thickest_concrete_that_a_joint_crosses_sets_its_depth():
    zone = Zone(id="Z1", outline=box_ring(10, 10, 20, 20), thickness=6 * MM_PER_INCH)
    beside = Zone(
        id="Z2", outline=box_ring(12, 12, 18, 18), thickness=6 * MM_PER_INCH, joint_at_border=False
    )
    found = of(Rule.DEPTH, findings(grid_slab(zones=(zone,))))
    assert {f.subject for f in found} == {"V1", "V2", "H1", "H2"}
    assert not of(Rule.DEPTH, findings(grid_slab(zones=(beside,))))
    assert grid_joints(4, 3)[0].depth == MM_PER_INCH


def test_a_cut_of_the_wrong_depth_is_shown_at_the_middle_of_its_joint():
    (found,) = cut(1.1)
    assert found.at == pytest.approx((10 * 304.8, 5 * 304.8))


def test_a_joint_wholly_in_a_thinner_zone_is_held_to_that_and_one_that_leaves_it_to_the_slab():
    """6 in wants 1.2 in at the least, 4 in 1 in: a cut of 1.1 in does for the joint inside only."""
    zone = Zone(id="Z1", outline=box_ring(0, 0, 20, 10), thickness=4 * MM_PER_INCH)

    def found(top, place):
        one = joint("A", (10, 0), (10, top), depth=1.1 * MM_PER_INCH)
        zoned = grid_slab(2, 2, joints=(one,), zones=(place,), thickness=6 * MM_PER_INCH)
        return [f.severity for f in of(Rule.DEPTH, findings(zoned)) if f.subject == "A"]

    assert found(10, zone) == []
    assert found(20, zone) == [Severity.ERROR]
