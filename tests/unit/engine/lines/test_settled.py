"""Walls along the axes of a slab with slanted edges: joints under them, unless that leaves a poor panel."""

from dataclasses import replace

import pytest
import shapely
from shapely import LineString

from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.settled import (
    Yielding,
    barred_area,
    is_along,
    settled_joints,
)
from kerfline.engine.options import EngineOptions
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.region import Cut
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import BearingRule, GivenJoint, KeepOut, Wall, Zone
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import all_settled, region_of
from unit.engine.slabs import feet, ring, slab

RULES = SlabRules(rule_set=load("floor"))
LEAST_WIDTH = RULES.working(101.6).width
SPLAYED = ((0, 0), (40, 0), (46, 30), (0, 30))


def wall(name, *points, thickness=114.3):
    return Wall(id=name, path=feet(*points), thickness=thickness)


def laid_out(*walls, outline=SPLAYED):
    given = slab(*outline, walls=walls)
    return given, lay_out(given, RULES)


def under(layout, each):
    """Length of a wall that has a joint within its own thickness, mm."""
    joints = shapely.union_all([j.line for j in layout.joints])
    return each.line.intersection(joints.buffer(each.thickness / 2)).length


def narrowest(layout):
    return min(panel.width for panel in layout.panels)


def test_a_wall_in_the_middle_has_its_joint():
    room = wall("W1", (0, 14), (24, 14))
    _, layout = laid_out(room)
    assert not layout.walls_left
    assert under(layout, room) >= room.line.length - MEASURE


def test_a_short_wall_draws_no_line_that_the_floor_would_not_have():
    """A stub of 4 ft is a wish: no more joint than a bay for it, and where it has none that is said."""
    plain, layout = laid_out()[1], laid_out(wall("W1", (0, 13), (4, 13)))[1]
    assert layout.joint_length <= plain.joint_length + 10 * MM_PER_FOOT
    assert "shorter than half the span" in layout.walls_left.get("W1", "shorter than half the span")


@pytest.mark.parametrize("gap", [0.75, 1.2])
def test_a_wall_too_near_a_parallel_edge_is_left_rather_than_a_strip(gap):
    beside = wall("W1", (4, gap), (36, gap))
    _, layout = laid_out(beside)
    assert narrowest(layout) >= LEAST_WIDTH - MEASURE
    assert not any(
        abs(y - gap * MM_PER_FOOT) < 50 for j in layout.joints for _, y in (j.path[0], j.path[-1])
    )


def test_a_wall_that_is_left_beside_an_edge_is_told_with_the_strip_it_would_leave():
    _, layout = laid_out(wall("W1", (4, 1.2), (36, 1.2)))
    assert "under the least width" in layout.walls_left["W1"]


def test_of_two_walls_a_foot_apart_one_has_the_joint():
    """A chase between two walls: no strip of a foot is cut."""
    walls = wall("W1", (0, 14), (24, 14)), wall("W2", (0, 15), (24, 15))
    _, layout = laid_out(*walls)
    assert narrowest(layout) >= LEAST_WIDTH - MEASURE
    assert len(layout.walls_left) == 1
    assert max(under(layout, each) for each in walls) >= walls[0].line.length - MEASURE


@pytest.mark.parametrize("end", [(31.5, 14.5), (31.5, 7.3), (30.4, 4.6)])
@pytest.mark.parametrize(("apart", "joints"), [(1.0, 1), (1.99, 1), (2.01, 2)])
def test_of_two_walls_that_bend_side_by_side_one_has_the_joint(apart, joints, end):
    """The strip between them is two feet wide at the least, however it bends and into whatever it runs on."""
    path = LineString([(6, 6), (18, 11), end])
    beside = path.offset_curve(apart, join_style="mitre")
    walls = (wall("W1", *path.coords), wall("W2", *beside.coords))
    found = all_settled(region_of(slab((0, 0), (40, 0), (40, 28), (0, 28), walls=walls)))
    assert len(walls) - len(found.walls_left) == joints


def test_thick_walls_out_of_line_share_a_joint_that_both_hide():
    walls = (
        wall("W1", (0, 14), (12, 14), thickness=250.0),
        wall("W2", (14, 14.3), (26, 14.3), thickness=250.0),
    )
    _, layout = laid_out(*walls)
    (joint,) = [j for j in layout.joints if j.reason is Reason.WALL]
    assert joint.note == "under walls W1 and W2"
    assert len({round(y, 1) for _, y in joint.path}) == 1


def test_a_thick_wall_beside_a_corner_takes_its_joint_through_the_corner():
    outline = ((0, 0), (40, 0), (46, 30), (20, 30), (20, 14), (0, 14))
    _, layout = laid_out(wall("W1", (24, 13.7), (38, 13.7), thickness=250.0), outline=outline)
    corner = shapely.Point(feet((20, 14))[0])
    assert min(j.line.distance(corner) for j in layout.joints) <= TOUCH
    assert not layout.walls_left
    assert narrowest(layout) >= LEAST_WIDTH - MEASURE


def test_a_slanted_wall_that_ends_on_one_along_an_axis_does_not_end_free():
    """The joint of the slanted wall is settled first; the other cannot yield then."""
    walls = wall("W1", (10, 12), (34, 12)), wall("W2", (16, 0), (24, 12))
    given, layout = laid_out(*walls)
    ends = joint_ends(given.concrete, [j.line for j in layout.joints])
    assert all(e.kind is not EndKind.FREE for e in ends)
    assert under(layout, walls[0]) >= walls[0].line.length - MEASURE


def test_a_slanted_joint_lands_on_the_end_of_a_wall_that_it_all_but_meets():
    walls = wall("W1", (10, 12), (30, 12)), wall("W2", (20, 0), (29.9, 11.85))
    given = slab(*SPLAYED, walls=walls)
    (place,) = regions_of(given, RULES, EngineOptions())
    found = settled_joints(place.region)
    assert [w.id for w in found.yielding.walls] == ["W1"]
    (cut,) = found.cuts
    end = feet((30, 12))[0]
    assert (
        LineString([cut.path[-1], end]).length <= TOUCH
        or LineString([cut.path[0], end]).length <= TOUCH
    )
    (line,) = found.yielding.lines
    assert line.needed


def test_a_slanted_wall_that_abuts_the_face_of_another_does_not_turn_along_it():
    """Its joint goes on to the line under the other wall; turned along the wall it would leave a strip."""
    walls = wall("W1", (12, 0), (12, 30), thickness=152.4), wall("W2", (12.4, 10), (22, 20))
    _, layout = laid_out(*walls)
    assert narrowest(layout) >= LEAST_WIDTH - MEASURE


HALL = ((0, 0), (40, 0), (40, 30), (0, 30))


def hall(**more):
    return region_of(slab(*HALL, **more))


def in_feet(path):
    return [(round(x / MM_PER_FOOT, 2), round(y / MM_PER_FOOT, 2)) for x, y in path]


def paths(found):
    """The joints in feet, each from its lower left end."""
    return [tuple(sorted(in_feet(cut.path))) for cut in found.cuts]


@pytest.mark.parametrize(
    ("length", "drift", "thickness", "along"),
    [
        (300.0, 0.0, 114.3, False),
        (301.0, 0.0, 114.3, True),
        (3000.0, 28.0, 114.3, True),
        (3000.0, 29.0, 114.3, False),
        (3000.0, 5.0, 10.0, True),
        (3000.0, 5.1, 10.0, False),
    ],
)
def test_a_wall_is_along_an_axis_within_a_quarter_of_its_thickness(length, drift, thickness, along):
    """A quarter of 114.3 mm is 28.6; of a thin one 5 mm are drawn, not surveyed. A part of 300 mm draws no line."""
    for path in (((0.0, 0.0), (length, drift)), ((0.0, 0.0), (drift, length))):
        assert is_along(Wall(id="W1", path=path, thickness=thickness)) is along


def test_a_bearing_wall_is_never_along():
    assert not is_along(Wall(id="W1", path=feet((0, 10), (40, 10)), bearing=True))


def test_a_given_joint_runs_on_to_the_next_edge_or_joint():
    joints = (
        GivenJoint(id="G1", path=feet((20, 0), (20, 30))),
        GivenJoint(id="G2", path=feet((25, 12), (35, 12))),
    )
    found = all_settled(hall(joints=joints))
    assert paths(found) == [((20, 0), (20, 30)), ((20, 12), (40, 12))]
    assert [c.note for c in found.cuts] == ["pinned joint G1", "pinned joint G2"]
    assert {c.reason for c in found.cuts} == {Reason.PINNED}


@pytest.mark.parametrize("at_border", [True, False])
def test_the_border_of_a_zone_is_a_joint_where_it_must_be(at_border):
    """A half of the floor: of its border only the side inside the concrete."""
    zone = Zone(
        id="Z1",
        outline=ring((0, 0), (20, 0), (20, 30), (0, 30)),
        thickness=152.4,
        joint_at_border=at_border,
    )
    found = all_settled(hall(zones=(zone,)))
    assert paths(found) == ([((20, 0), (20, 30))] if at_border else [])
    assert all(c.reason is Reason.ZONE and c.note == "border of zone Z1" for c in found.cuts)


def test_the_longest_wall_is_settled_first_and_the_other_ends_on_it():
    short, long = wall("W1", (20, 14), (20, 30)), wall("W2", (0, 14), (40, 14))
    found = all_settled(hall(walls=(short, long)))
    assert paths(found) == [((0, 14), (40, 14)), ((20, 14), (20, 30))]
    assert (found.walls_left, found.wall_shifts, found.yielding.walls) == ({}, {}, ())


def test_walls_that_yield_are_listed_and_settle_no_joint_of_their_own():
    given = wall("W1", (20, 14), (20, 30)), wall("W2", (0, 14), (40, 14))
    found = settled_joints(hall(walls=given), lambda w: w.id == "W2")
    assert [w.id for w in found.yielding.walls] == ["W2"]
    assert paths(found) == [((20, 14), (20, 30))]
    assert [tuple(sorted(in_feet(cut.path))) for cut in found.yielding.cuts] == [
        ((0, 14), (40, 14))
    ]


@pytest.mark.parametrize(
    ("wall_at", "long", "needed"),
    [(2.0, 20, True), (14, 20, True), (14, 4, False)],
    ids=["a least width from the edge", "amid the floor", "short"],
)
def test_a_wall_whose_joint_is_chosen_keeps_it_where_it_is_long_and_has_room_on_both_sides(
    wall_at, long, needed
):
    given = wall("W1", (10, wall_at), (10 + long, wall_at))
    (asking,) = settled_joints(hall(walls=(given,)), lambda _: True).yielding.lines
    assert asking.needed is needed


@pytest.mark.parametrize(("gap", "left"), [(1.99, True), (2.0, False)])
def test_a_wall_nearer_to_an_edge_than_the_least_width_has_no_settled_joint(gap, left):
    """The least width of a slab of four inches is two feet."""
    assert pytest.approx(2 * MM_PER_FOOT) == LEAST_WIDTH
    found = all_settled(hall(walls=(wall("W1", (0, gap), (40, gap)),)))
    assert bool(found.cuts) is not left
    assert ("narrower than the least width" in found.walls_left.get("W1", "")) is left


def test_a_bearing_wall_is_left_with_its_reason():
    bearing = Wall(id="W1", path=feet((0, 14), (40, 14)), bearing=True)
    found = all_settled(hall(walls=(bearing,)))
    assert found.cuts == ()
    assert found.walls_left["W1"].startswith("wall W1 bears load")


@pytest.mark.parametrize(("inches", "shared"), [(2.0, True), (2.5, False)])
def test_a_wall_over_a_given_joint_is_served_by_it_as_far_off_as_it_hides_it(inches, shared):
    """Half of a wall of 114.3 mm is 2.25 in."""
    joint = GivenJoint(id="G1", path=feet((0, 14), (40, 14)))
    at = 14 + inches / 12
    found = all_settled(hall(walls=(wall("W1", (0, at), (40, at)),), joints=(joint,)))
    assert len(found.cuts) == 1
    assert ("W1" in found.wall_shifts) is shared
    assert ("W1" in found.walls_left) is not shared
    if shared:
        assert found.wall_shifts["W1"] == pytest.approx(inches * 25.4, abs=1.0)


def test_keep_outs_bearing_strips_and_forbidden_lines_are_barred():
    """6 x 4 ft, a strip of 2 by 10 ft, and a line of 5 ft as wide as a touch to both sides; none under a doweled wall."""
    bearing = Wall(
        id="W1", path=feet((20, 10), (30, 10)), bearing=True, strip_width=2 * MM_PER_FOOT
    )
    doweled = replace(
        bearing, id="W3", path=feet((20, 15), (30, 15)), bearing_rule=BearingRule.DOWELED
    )
    region = hall(
        keep_outs=(KeepOut(id="K1", outline=ring((5, 5), (11, 5), (11, 9), (5, 9))),),
        walls=(bearing, doweled, wall("W2", (0, 20), (40, 20))),
        joints=(GivenJoint(id="G1", path=feet((5, 25), (10, 25)), forbidden=True),),
    )
    area = (24 + 20) * MM_PER_FOOT**2 + 5 * MM_PER_FOOT * 2 * TOUCH
    assert barred_area(region).area == pytest.approx(area, rel=1e-9)


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize(("corner", "level"), [(29.9, 14.1), (30.1, 14.0)])
def test_a_corner_nearby_draws_the_joint_of_a_wall_to_its_level(corner, level, upright):
    """A wall of 8 ft that ends at 10 ft and hides 2.25 in: two spans of 10 ft from there count as near."""
    outline = ((0, 0), (50, 0), (50, 14.1), (corner, 14.1), (corner, 30), (0, 30))
    path = ((2, 14), (10, 14))
    if upright:
        outline, path = tuple(p[::-1] for p in outline[::-1]), tuple(p[::-1] for p in path)
    plan = region_of(slab(*outline, walls=(wall("W1", *path),)))
    (asking,) = settled_joints(plan).yielding.lines
    expected = [(2, level), (10, level)]
    assert in_feet(asking.path.coords) == [p[::-1] if upright else p for p in expected]


def test_a_wall_over_a_keep_out_has_no_joint_there():
    keep_out = KeepOut(id="K1", outline=ring((0, 13), (40, 13), (40, 15), (0, 15)))
    found = all_settled(hall(walls=(wall("W1", (0, 14), (40, 14)),), keep_outs=(keep_out,)))
    assert found.cuts == ()
    assert "would cross an area where no joint may go" in found.walls_left["W1"]


def test_a_piece_takes_the_part_of_a_line_inside_it_and_none_along_its_border():
    lines = (
        AskingLine(name="W1", path=LineString([(-500, 1000), (2000, 1000)])),
        AskingLine(name="W2", path=LineString([(0, 0), (4000, 0)])),
        AskingLine(name="W3", path=LineString([(3847, 2000), (6000, 2000)])),
        AskingLine(name="W4", path=LineString([(3848, 2500), (6000, 2500)])),
    )
    cuts = (Cut(path=((-500.0, 500.0), (9000.0, 500.0))), Cut(path=((0.0, 0.0), (0.0, 3000.0))))
    limits = RULES.working(101.6)
    piece = Yielding(lines=lines, cuts=cuts).on(
        Problem(concrete=shapely.box(0, 0, 4000, 3000), limits=limits)
    )
    assert [w.name for w in piece.walls] == ["W1", "W3"]
    assert piece.walls[0].path.equals(LineString([(0, 1000), (2000, 1000)]))
    assert [c.path for c in piece.under] == [((0.0, 500.0), (4000.0, 500.0))]


@pytest.mark.parametrize("barred", [False, True])
def test_no_joint_ends_under_a_wall_that_can_have_none(barred):
    """The joint of a slanted wall stops under a wall along an axis, but not where a keep-out leaves that one bare."""
    keep_out = KeepOut(id="K1", outline=ring((30, 13), (35, 13), (35, 15), (30, 15)))
    along, aslant = wall("W1", (5, 14), (40, 14)), wall("W2", (18, 28), (14, 19))
    plan = hall(walls=(along, aslant), keep_outs=(keep_out,) if barred else ())
    found = settled_joints(plan)
    ends = [at for cut in found.cuts for at in (cut.path[0], cut.path[-1])]
    on_wall = any(along.line.distance(shapely.Point(at)) <= TOUCH for at in ends)
    assert found.cuts
    assert on_wall is not barred
