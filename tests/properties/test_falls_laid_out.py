"""Floors that fall to a drain: the joints along valleys and ridges, and the rest around them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, affinity

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.geometry.corners import corners
from kerfline.geometry.ring import Ring, circle
from kerfline.model.falls import asked_lines
from kerfline.model.finding import Rule
from kerfline.model.layout import Reason
from kerfline.model.slab import Fall, FallJoints, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, Display
from shapes import feet

RULES = SlabRules(rule_set=load("floor"))
OUTLINE = feet((0, 0), (40, 0), (40, 24), (0, 24))


def bay(low, high, to, joints=FallJoints.BOTH):
    (x0, y0), (x1, y1) = low, high
    area = Ring(feet((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    return Fall(id="D1", area=area, to=feet(*to), joints=joints)


def slab_with(*falls):
    return Slab(outline=Ring(OUTLINE), thickness=127.0, falls=falls)


def missing(slab, layout):
    return [f for f in check(slab, layout, RULES, Display.FEET_INCHES) if f.rule is Rule.EDGE]


@settings(max_examples=6)
@given(
    st.integers(3, 8), st.integers(14, 22), st.integers(3, 6), st.integers(13, 20),
    st.sampled_from(FallJoints),
)  # fmt: skip
def test_every_line_that_a_fall_asks_for_is_a_joint(left, right, low, high, wish):
    middle = ((left + right) / 2, (low + high) / 2)
    slab = slab_with(bay((left, low), (right, high), [middle], wish))
    layout = lay_out(slab, RULES)
    assert missing(slab, layout) == []
    assert sum(p.polygon.area for p in layout.panels) == pytest.approx(slab.concrete.area)
    span = 1.05 * RULES.working(slab.thickness).span
    assert max(p.length for p in layout.panels) <= span + 0.5
    told = {j.note for j in layout.joints if j.reason is Reason.FALL}
    assert told == {f"{line.crease} of fall D1" for line in asked_lines(slab)}


def test_the_joints_of_a_basin_stop_at_its_ridge():
    layout = lay_out(slab_with(bay((6, 6), (18, 18), [(12, 12)])), RULES)
    valleys = [j for j in layout.joints if j.note == "valley of fall D1"]
    corner_to_corner = math.hypot(12, 12) * MM_PER_FOOT
    assert [j.length for j in valleys] == pytest.approx([corner_to_corner] * 2, abs=1.0)
    drain = Point(feet((12, 12))[0])
    assert all(j.line.distance(drain) < 1.0 for j in valleys)


def test_what_runs_on_from_a_ridge_is_no_joint_of_a_wall():
    layout = lay_out(slab_with(bay((6, 6), (18, 18), [(12, 12)])), RULES)
    assert Reason.WALL not in {j.reason for j in layout.joints}


@pytest.mark.parametrize("turn", [17.0, 45.0, 90.0])
def test_a_turned_floor_gets_the_same_joints_turned(turn):
    basin = bay((6, 6), (18, 18), [(12, 12)])
    straight = lay_out(slab_with(basin), RULES)

    def around(points):
        line = affinity.rotate(LineString([*points, (0.0, 0.0)]), turn, origin=(0, 0))
        return tuple(line.coords)[:-1]

    slab = Slab(
        outline=Ring(around(OUTLINE)),
        thickness=127.0,
        falls=(Fall(id="D1", area=Ring(around(basin.area.points)), to=around(basin.to)),),
    )
    layout = lay_out(slab, RULES)
    assert missing(slab, layout) == []
    total = sum(j.length for j in straight.joints)
    assert sum(j.length for j in layout.joints) == pytest.approx(total, rel=0.01)


def test_a_round_fall_gets_a_joint_around_it():
    slab = slab_with(Fall(id="D1", area=circle(feet((12, 12))[0], 1800.0), to=feet((12, 12))))
    layout = lay_out(slab, RULES)
    assert missing(slab, layout) == []
    rim = circle(feet((12, 12))[0], 1800.0).polygon.exterior
    cut = sum(
        LineString(j.path).intersection(rim.buffer(2.0)).length
        for j in layout.joints
        if j.reason is Reason.FALL
    )
    assert cut == pytest.approx(rim.length, rel=0.02)


def test_a_joint_runs_on_from_every_corner_of_a_ridge():
    """The sharp corners between the valleys are given: no reason to keep other joints away from them."""
    layout = lay_out(slab_with(bay((6, 6), (18, 18), [(12, 12)])), RULES)
    assert not [c for p in layout.panels for c in corners(p.polygon) if c.reentrant]
