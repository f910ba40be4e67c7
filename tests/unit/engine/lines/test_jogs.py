"""Joints that cross a diagonal wall bend on both sides of it, square, and meet at one point.

No angle under 60 degrees, the last 0.5 to 1.0 m (1.5 to 3 ft) bent square where it must be (ACPA, guidance
on joint layout of concrete pavements).
"""

import math
from itertools import pairwise

import pytest
import shapely

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.candidates import CandidateLine
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.lines.jogs import bars_of, jogged
from kerfline.geometry.corners import angle_between, direction
from kerfline.model.finding import Rule, Severity
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from unit.engine.slabs import feet, slab

RULES = SlabRules(rule_set=load("floor"))
LEAST = 60.0
LINE = CandidateLine(((-1e4, 0.0), (1e4, 0.0)), Reason.SPAN)


def wall_line(angle, size=1e4):
    way = (size * math.cos(math.radians(angle)), size * math.sin(math.radians(angle)))
    return shapely.LineString([(-way[0], -way[1]), way])


def over(line, wall):
    return jogged(line, 1, bars_of(SquareChart(), [wall], 1), LEAST)


@pytest.mark.parametrize("angle", [16, 30, 45, 59, 121, 150])
def test_a_line_crosses_a_slanted_wall_square_at_one_point(angle):
    wall = wall_line(angle)
    points = over(LINE, wall).through
    course = shapely.LineString(points)
    (crossing,) = shapely.get_coordinates(course.intersection(wall))
    along = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    near = [
        direction(a, b)
        for a, b in pairwise(points)
        if shapely.LineString([a, b]).distance(shapely.Point(crossing)) < 1e-6
    ]
    assert near
    assert all(angle_between(way, along) == pytest.approx(90.0) for way in near)
    assert points[0][1] == pytest.approx(-points[-1][1])


@pytest.mark.parametrize("angle", [61, 75, 90, 5])
def test_a_line_stays_straight_where_it_crosses_square_enough_or_runs_along(angle):
    assert over(LINE, wall_line(angle)) == LINE


def test_a_line_stays_straight_where_it_passes_the_end_of_a_wall():
    assert over(LINE, wall_line(45, size=100.0)) == LINE


def flat_meetings(given):
    """Angle errors that are not at the ends of a wall, where the wall itself stands."""
    layout = lay_out(given, RULES)
    found = check(given, layout, RULES, Display.FEET_INCHES)
    ends = shapely.union_all([w.line.boundary for w in given.walls])
    return [
        f
        for f in found
        if f.rule is Rule.ANGLE
        and f.severity is Severity.ERROR
        and not ends.dwithin(shapely.Point(f.at), 1.0)
    ]


def wall(name, *points):
    return Wall(id=name, path=feet(*points))


@pytest.mark.parametrize(
    "given",
    [
        slab((0, 0), (36, 0), (36, 26), (0, 26), walls=(wall("W1", (14, 0), (30, 26)),)),
        slab(
            (0, 0),
            (40, 0),
            (40, 36),
            (0, 36),
            walls=(wall("W1", (8, 0), (34, 36)), wall("W2", (4, 30), (40, 8))),
        ),
        slab((0, 0), (40, 0), (40, 30), (0, 30), walls=(wall("W1", (0, 6), (18, 20)),)),
    ],
    ids=["one wall", "two that cross", "one that ends in the open"],
)
def test_no_joint_meets_a_diagonal_wall_too_flat(given):
    assert not flat_meetings(given)


@pytest.mark.parametrize("angle", [2, 20, 30, 40, 50, 58, 65, 75, 89])
def test_a_wall_through_the_middle_of_a_floor_at_any_angle_is_met_square(angle):
    middle, way = (20.0, 15.0), (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    reach = [(middle[0] + s * 99 * way[0], middle[1] + s * 99 * way[1]) for s in (-1, 1)]
    path = shapely.LineString(reach).intersection(shapely.box(0, 0, 40, 30)).coords
    assert not flat_meetings(slab((0, 0), (40, 0), (40, 30), (0, 30), walls=(wall("W1", *path),)))


def test_a_triangle_breaks_one_rule_where_its_tip_is_cut_off():
    """A tip of 34 degrees cut off at 60 or more on both sides is over 1.5 times as long as wide: one must give."""
    given = slab((0, 0), (30, 0), (0, 20))
    long = [p for p in lay_out(given, RULES).panels if p.aspect > 1.5 + 1e-4]
    assert len(flat_meetings(given)) + len(long) == 1
