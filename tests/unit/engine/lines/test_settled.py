"""Walls along the axes of a slab with slanted edges: joints under them, unless that leaves a poor panel."""

import pytest
import shapely
from shapely import LineString

from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.settled import required_on
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT
from unit.engine.slabs import feet, slab

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
    required, yielding = required_on(place.region)
    assert [w.id for w in yielding.walls] == ["W1"]
    (cut,) = required.cuts
    end = feet((30, 12))[0]
    assert (
        LineString([cut.path[-1], end]).length <= TOUCH
        or LineString([cut.path[0], end]).length <= TOUCH
    )
    (line,) = yielding.lines
    assert line.needed


def test_a_slanted_wall_that_abuts_the_face_of_another_does_not_turn_along_it():
    """Its joint goes on to the line under the other wall; turned along the wall it would leave a strip."""
    walls = wall("W1", (12, 0), (12, 30), thickness=152.4), wall("W2", (12.4, 10), (22, 20))
    _, layout = laid_out(*walls)
    assert narrowest(layout) >= LEAST_WIDTH - MEASURE
