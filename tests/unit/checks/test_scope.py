"""What each rule is held against, and where it has nothing to say."""

import pytest

from checked import box_ring, feet, grid_slab, joint, rules
from kerfline.checks.given import given_layout
from kerfline.checks.measures import measures_of
from kerfline.checks.scope import SCOPES, scope_of
from kerfline.model.finding import Rule
from kerfline.model.slab import (
    BearingRule,
    Column,
    GivenJoint,
    JointKind,
    KeepOut,
    Penetration,
    Wall,
    Zone,
)
from kerfline.units import Display

FOOT = 304.8
GRID = grid_slab(3, 2, bay=10.0, aside=8.0)
BARE = grid_slab(1, 1, joints=())


def scope(rule, slab=GRID, name="floor"):
    return scope_of(rule, measures_of(slab, given_layout(slab), rules(name), Display.METRIC))


def test_every_rule_has_a_scope():
    assert set(SCOPES) == set(Rule)


@pytest.mark.parametrize(
    ("rule", "value", "greatest"),
    [(Rule.SPAN, 10 * FOOT, True), (Rule.ASPECT, 1.25, True), (Rule.WIDTH, 8 * FOOT, False)],
)
def test_every_panel_is_held_against_span_aspect_and_width(rule, value, greatest):
    held = scope(rule).held
    assert [h.value for h in held] == pytest.approx([value] * 6)
    assert {h.greatest for h in held} == {greatest}


def test_area_is_held_where_the_set_has_it():
    """UFC 3-320-06A's floors have one; the default set has none."""
    assert scope(Rule.AREA).absent == "the rule set floor has no limit on area"
    held = scope(Rule.AREA, name="military-floor").held
    assert [h.value for h in held] == pytest.approx([80 * FOOT**2] * 6)


def test_angles_are_those_of_places_where_joints_meet_something():
    held = scope(Rule.ANGLE).held
    assert [h.value for h in held] == pytest.approx([90.0] * len(held))
    assert len(held) == 2 + 6
    assert scope(Rule.ANGLE, BARE).absent == "no joint meets a joint or an edge"


def test_depths_are_those_that_are_noted():
    joints = (joint("A", (10, 0), (10, 16)), joint("B", (20, 0), (20, 16), depth=None))
    found = scope(Rule.DEPTH, grid_slab(3, 2, aside=8.0, joints=joints))
    assert [h.value for h in found.held] == [25.4]
    assert found.unchecked == "1 of 2 sawn joints have no depth noted"
    assert scope(Rule.DEPTH).unchecked == ""
    formed = (joint("A", (10, 0), (10, 16), kind=JointKind.CONSTRUCTION, depth=None),)
    assert scope(Rule.DEPTH, grid_slab(3, 2, joints=formed)).absent == "there is no sawn joint"


WALL = Wall(id="W1", path=feet((0, 5), (10, 5)))
BEARING = Wall(id="W1", path=feet((0, 5), (10, 5)), bearing=True)
DOWELED = Wall(id="W1", path=feet((0, 5), (10, 5)), bearing=True, bearing_rule=BearingRule.DOWELED)
DRAWN = GivenJoint(id="G1", path=feet((0, 5), (10, 5)), forbidden=True)


@pytest.mark.parametrize(
    ("rule", "more", "absent"),
    [
        (Rule.SHAPE, {}, ""),
        (Rule.CORNER, {}, "there is no re-entrant corner"),
        (Rule.CORNER, {"openings": (box_ring(4, 4, 6, 6),)}, ""),
        (Rule.FREE_END, {}, "there is no joint"),
        (Rule.TEE_END, {}, "there is no joint"),
        (Rule.TEE_END, {"joints": (joint("A", (5, 0), (5, 10)),)}, ""),
        (Rule.EDGE, {}, "there is no joint"),
        (Rule.EDGE, {"zones": (Zone(id="Z", outline=box_ring(0, 0, 5, 5), thickness=200.0),)}, ""),
        (Rule.WALL, {}, "there is no wall that a joint may lie under"),
        (Rule.WALL, {"walls": (WALL,)}, ""),
        (Rule.WALL, {"walls": (BEARING,)}, "there is no wall that a joint may lie under"),
        (Rule.WALL, {"walls": (DOWELED,)}, ""),
        (Rule.BEARING_WALL, {"walls": (WALL,)}, "no wall is given as bearing"),
        (Rule.BEARING_WALL, {"walls": (BEARING,)}, ""),
        (Rule.BEARING_WALL, {"walls": (DOWELED,)}, "joints under bearing walls are doweled"),
        (Rule.BEARING_WALL, {"walls": (DOWELED, BEARING)}, ""),
        (Rule.COLUMN, {}, "there is no column"),
        (Rule.COLUMN, {"columns": (Column(id="C1", at=feet((5, 5))[0]),)}, ""),
        (Rule.PENETRATION, {}, "there is no penetration"),
        (Rule.PENETRATION, {"penetrations": (Penetration(id="N1", at=feet((5, 5))[0]),)}, ""),
        (Rule.KEEP_OUT, {}, "no keep-out is given"),
        (Rule.KEEP_OUT, {"keep_outs": (KeepOut(id="K1", outline=box_ring(0, 0, 5, 5)),)}, ""),
        (Rule.KEEP_OUT, {"joints": (DRAWN,)}, ""),
    ],
)
def test_a_rule_applies_where_there_is_something_that_it_speaks_of(rule, more, absent):
    assert scope(rule, grid_slab(1, 1, **{"joints": (), **more})).absent == absent
