"""Walls, columns, pipes, zones and neighbours under the general method."""

from dataclasses import replace

import pytest
import shapely
from shapely import LineString

from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.settled import required_cuts
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import (
    Boxout,
    Column,
    GivenJoint,
    JointKind,
    Meeting,
    Penetration,
    Wall,
    Zone,
)
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from unit.engine.slabs import feet, ring, slab

RULES = SlabRules(rule_set=load("floor"))
SKEW = slab((0, 0), (36, 0), (42, 24), (0, 24))
"""A slab with one skew end, which the general method takes."""


SMALL = slab((0, 0), (22, 0), (25, 16), (0, 16))
"""A smaller one, for what is laid out to the end."""


def at(x, y):
    return feet((x, y))[0]


def required(given):
    (place,) = regions_of(given, RULES, EngineOptions())
    return required_cuts(place.region)


def all_joints(layout):
    return shapely.union_all([j.line for j in layout.joints])


def test_wall_joint_runs_on_to_the_next_edge():
    wall = Wall(id="W1", path=feet((0, 12), (20, 12)))
    (cut,) = required(replace(SKEW, walls=(wall,))).cuts
    assert cut.reason is Reason.WALL
    assert LineString(cut.path).length == pytest.approx(at(39, 0)[0], abs=1.0)


def test_wall_joint_stops_on_the_joint_of_a_longer_wall():
    long, short = (
        Wall(id="W1", path=feet((20, 0), (20, 24))),
        Wall(id="W2", path=feet((4, 8), (12, 8))),
    )
    first, second = required(replace(SKEW, walls=(long, short))).cuts
    assert LineString(first.path).length == pytest.approx(at(24, 0)[0], abs=1.0)
    assert LineString(second.path).length == pytest.approx(at(20, 0)[0], abs=1.0)


def test_walls_a_few_inches_out_of_line_share_a_joint():
    walls = (
        Wall(id="W1", path=feet((0, 12), (16, 12))),
        Wall(id="W2", path=feet((20, 12.1), (34, 12.1))),
    )
    found = required(replace(SKEW, walls=walls))
    assert len(found.cuts) == 1
    assert found.wall_shifts["W2"] == pytest.approx(0.1 * at(1, 0)[0], abs=1.0)


def test_bearing_wall_is_left_without_a_joint_and_says_why():
    wall = Wall(id="W1", path=feet((0, 8), (22, 8)), bearing=True, strip_width=609.6)
    given = replace(SMALL, walls=(wall,))
    assert "bears" in required(given).walls_left["W1"]
    joints = all_joints(lay_out(given, RULES))
    along = joints.intersection(wall.line.buffer(250.0, cap_style="flat"))
    assert along.length < at(22, 0)[0] / 4


def test_wall_that_would_leave_a_narrow_panel_is_left():
    wall = Wall(id="W1", path=feet((0, 1), (36, 1)))
    assert "narrower" in required(replace(SKEW, walls=(wall,))).walls_left["W1"]


def test_given_joint_keeps_its_kind_and_depth():
    given = GivenJoint(
        id="G1", path=feet((18, 0), (18, 24)), kind=JointKind.CONSTRUCTION, depth=40.0
    )
    (cut,) = required(replace(SKEW, joints=(given,))).cuts
    assert (cut.kind, cut.depth) == (JointKind.CONSTRUCTION, 40.0)


def test_no_joint_lies_along_a_forbidden_line():
    line = feet((11, 0), (11, 16))
    given = replace(SMALL, joints=(GivenJoint(id="G1", path=line, forbidden=True),))
    assert (
        all_joints(lay_out(given, RULES)).intersection(LineString(line).buffer(1.0)).length
        < at(1, 0)[0]
    )


@pytest.mark.parametrize("boxout", [Boxout.DIAMOND, Boxout.CIRCLE])
def test_column_is_met_by_a_joint(boxout):
    column = Column(id="C1", at=at(11, 8), boxout=boxout)
    layout = lay_out(replace(SMALL, columns=(column,)), RULES)
    assert all_joints(layout).distance(column.outline.polygon) <= TOUCH
    assert all(not p.polygon.interiors for p in layout.panels)


def test_joint_runs_through_a_drain_that_asks_for_it():
    drain = Penetration(id="N1", at=at(8, 6), diameter=101.6, meeting=Meeting.THROUGH)
    assert (
        all_joints(lay_out(replace(SMALL, penetrations=(drain,)), RULES)).distance(
            shapely.Point(drain.at)
        )
        < TOUCH
    )


def test_border_of_a_zone_is_a_joint_and_the_span_follows_the_zone():
    zone = Zone(id="Z1", outline=ring((0, 0), (11, 0), (11, 16), (0, 16)), thickness=152.4)
    layout = lay_out(replace(SMALL, zones=(zone,)), RULES)
    border = LineString(feet((11, 0), (11, 16)))
    assert all_joints(layout).buffer(1.0).intersection(border).length >= border.length - 2.0
    thin, thick = RULES.working(101.6).span, RULES.working(152.4).span
    for panel in layout.panels:
        in_zone = zone.outline.polygon.buffer(1.0).covers(panel.polygon)
        assert panel.length <= (thick if in_zone else thin) + MEASURE


def test_most_joints_of_two_wings_meet_on_the_shared_line():
    given = slab((0, 0), (30, 0), (50, 20), (36, 34), (22, 20), (0, 20))
    first, second = regions_of(given, RULES, EngineOptions())
    (border,) = first.borders
    shared = LineString(border.path)
    layout = lay_out(given, RULES)
    ends = [
        shapely.Point(p)
        for joint in layout.joints
        for p in (joint.path[0], joint.path[-1])
        if shared.distance(shapely.Point(p)) <= TOUCH and joint.line.distance(shared) <= TOUCH
    ]
    inner = [e for e in ends if min(e.distance(shapely.Point(p)) for p in border.path) > 10.0]
    met = [any(e is not o and e.distance(o) <= 2.0 for o in inner) for e in inner]
    assert sum(met) >= len(inner) / 2
    assert second.angle != first.angle
