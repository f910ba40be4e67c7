"""Walls aslant of the axes, walls that end in the open, and walls with columns in them."""

import pytest
import shapely
from shapely import LineString

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.walls import asks_aslant, drift_of, must_slant
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Rule, Severity
from kerfline.model.layout import Reason
from kerfline.model.slab import Column, GivenJoint, KeepOut, Wall, Zone
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from unit.engine.plans import all_settled
from unit.engine.slabs import feet, ring, slab

RULES = SlabRules(rule_set=load("floor"))
RECTANGLE = ((0, 0), (40, 0), (40, 30), (0, 30))
SPLAYED = ((0, 0), (40, 0), (46, 30), (0, 30))

SLANTED_ZONE = Zone(id="Z1", outline=ring((10, 5), (20, 8), (15, 20)), thickness=150.0)


def wall(name, *points):
    return Wall(id=name, path=feet(*points))


def placed(given):
    (place,) = regions_of(given, RULES, EngineOptions())
    return place


def bare(given, layout):
    """Length of wall without a joint under it, mm."""
    joints = shapely.union_all([j.line.buffer(TOUCH) for j in layout.joints])
    return sum(w.line.difference(joints).length for w in given.walls)


def test_a_diagonal_wall_in_a_rectangle_gets_its_joint():
    given = slab(*RECTANGLE, walls=(wall("W1", (12, 0), (28, 30)),))
    layout = lay_out(given, RULES)
    assert bare(given, layout) < 1.0
    assert not layout.walls_left


def test_two_crossing_diagonal_walls_get_theirs():
    given = slab(*RECTANGLE, walls=(wall("W1", (8, 0), (32, 30)), wall("W2", (4, 26), (40, 8))))
    layout = lay_out(given, RULES)
    assert bare(given, layout) < 1.0


def test_a_joint_turns_along_an_axis_where_a_diagonal_wall_ends_in_the_open():
    """Straight on it would come in at 38 degrees; from the wall's end it leaves along x, square to the edge."""
    given = slab(*RECTANGLE, walls=(wall("W1", (0, 6), (18, 20)),))
    (cut,) = all_settled(placed(given).region).cuts
    assert cut.path == feet((0, 6), (18, 20), (40, 20))


def test_its_joint_goes_on_from_its_open_end_and_leaves_no_hook_there():
    given = slab(*RECTANGLE, walls=(wall("W1", (0, 6), (18, 20)),))
    layout = lay_out(given, RULES)
    lines = [j.line for j in layout.joints]
    assert all(e.kind is not EndKind.FREE for e in joint_ends(given.concrete, lines))
    knee = shapely.Point(feet((18, 20))[0])
    assert any(line.distance(knee) <= TOUCH for line in lines)
    found = check(given, layout, RULES, Display.FEET_INCHES)
    assert not any(f.rule is Rule.SHAPE and f.severity is Severity.ERROR for f in found)


def test_a_wall_aimed_at_a_keep_out_gets_a_joint_that_ends_on_one_across():
    tubing = KeepOut(id="K1", outline=ring((17, 12), (25, 12), (25, 18), (17, 18)))
    given = slab(*SPLAYED, walls=(wall("W1", (0, 15), (14, 15)),), keep_outs=(tubing,))
    found = all_settled(placed(given).region)
    assert not found.walls_left
    under, across = (LineString(c.path) for c in found.cuts)
    assert under.length == pytest.approx(14 * 304.8)
    assert across.distance(shapely.Point(under.coords[-1])) <= TOUCH
    assert not across.intersection(tubing.outline.polygon).length


def test_a_wall_with_columns_in_it_gets_a_joint_in_each_stretch():
    columns = tuple(Column(id=f"C{x}", at=feet((x, 15))[0]) for x in (12, 24, 36))
    given = slab(*SPLAYED, walls=(wall("W1", (0, 15), (40, 15)),), columns=columns)
    cuts = all_settled(placed(given).region).cuts
    assert len(cuts) == 4
    between = given.walls[0].line.intersection(given.concrete)
    assert between.difference(shapely.union_all([LineString(c.path) for c in cuts])).length < 1.0


def test_a_wall_over_boxouts_is_not_called_bare():
    columns = tuple(Column(id=f"C{x}", at=feet((x, 15))[0]) for x in (10, 20, 30))
    given = slab(*RECTANGLE, walls=(wall("W1", (0, 15), (40, 15)),), columns=columns)
    assert not lay_out(given, RULES).walls_left


@pytest.mark.parametrize(
    ("more", "asks", "must"),
    [
        ({}, False, False),
        ({"walls": (wall("W1", (0, 15), (40, 15)),)}, False, False),
        ({"walls": (wall("W1", (20, 15), (22, 17)),)}, True, False),
        ({"walls": (wall("W1", (10, 5), (22, 17)),)}, True, True),
        ({"joints": (GivenJoint(id="G1", path=feet((0, 0), (20, 30))),)}, True, True),
        ({"zones": (SLANTED_ZONE,)}, True, True),
    ],
)
def test_what_asks_for_a_joint_aslant(more, asks, must):
    region = placed(slab(*RECTANGLE, **more)).region
    assert (asks_aslant(region), must_slant(region)) == (asks, must)


def test_a_short_diagonal_wall_is_left_rather_than_all_joints_turned_for_it():
    """A cupboard's corner of a few feet has its joint or is named; the rest keeps to the axes."""
    given = slab(*RECTANGLE, walls=(wall("W1", (26, 20), (28, 22)),))
    layout = lay_out(given, RULES)
    assert bare(given, layout) < 1.0 or set(layout.walls_left) == {"W1"}
    others = [j for j in layout.joints if j.reason is not Reason.WALL]
    assert all(drift_of(j.line) <= TOUCH for j in others)
