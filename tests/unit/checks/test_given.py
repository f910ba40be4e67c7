"""A layout made of the joints that somebody else drew."""

import pytest

from checked import feet, grid_slab, joint, with_joints
from kerfline.checks.given import given_layout
from kerfline.model.layout import Reason, Status
from kerfline.model.slab import JointKind, Wall
from kerfline.units import MM_PER_FOOT


def test_the_panels_are_the_bays_of_a_grid_in_reading_order():
    layout = given_layout(grid_slab(4, 3))
    assert [p.id for p in layout.panels] == [f"P{n}" for n in range(1, 13)]
    assert layout.panels[0].polygon.bounds == pytest.approx((0, 0, 3048, 3048))
    assert layout.panels[4].polygon.bounds == pytest.approx((0, 3048, 3048, 6096))
    assert layout.solution.status is Status.GIVEN


def test_joints_keep_their_names_kinds_and_order():
    slab = with_joints(
        grid_slab(2, 1), joint("K9", (10, 0), (10, 5), kind=JointKind.CONSTRUCTION), without=("V1",)
    )
    (only,) = given_layout(slab).joints
    assert (only.id, only.kind, only.reason) == ("K9", JointKind.CONSTRUCTION, Reason.PINNED)
    assert only.depth == 0.0


def test_depths_are_those_noted_else_the_one_that_is_passed():
    slab = grid_slab(
        3, 1, joints=(joint("A", (10, 0), (10, 10)), joint("B", (20, 0), (20, 10), depth=None))
    )
    assert [j.depth for j in given_layout(slab).joints] == [pytest.approx(25.4), 0.0]
    assert [j.depth for j in given_layout(slab, depth=30.0).joints] == [pytest.approx(25.4), 30.0]


def test_forbidden_lines_are_no_joints():
    slab = with_joints(grid_slab(2, 1), joint("F", (5, 0), (5, 10), forbidden=True))
    assert [j.id for j in given_layout(slab).joints] == ["V1"]


def test_what_lies_under_walls_is_measured():
    slab = grid_slab(2, 1, walls=(Wall(id="W1", path=feet((10, 0), (10, 6))),))
    assert given_layout(slab).joints[0].hidden == pytest.approx(6 * MM_PER_FOOT)


def test_a_joint_that_stops_short_within_the_tolerance_closes_its_panels():
    off = 0.4 / MM_PER_FOOT
    slab = grid_slab(2, 1, joints=(joint("A", (10, off), (10, 10 - off)),))
    assert len(given_layout(slab).panels) == 2
