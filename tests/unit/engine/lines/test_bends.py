"""Where lines end and bend: square to skew edges, and on both sides of a diagonal wall that they cross.

Pavement guidance: no angle under 60 degrees, the last 0.5 to 1.0 m (1.5 to 3 ft) bent square where it must be (ACPA,
guidance on joint layout of concrete pavements).
"""

import math
from itertools import pairwise

import pytest
import shapely
from shapely import LineString

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.bends import arrival, bars_of, bends_at, jogged, tangent, under
from kerfline.engine.lines.candidates import CandidateLine
from kerfline.engine.lines.charts import SquareChart
from kerfline.geometry.corners import angle_between, direction
from kerfline.model.finding import Rule, Severity
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from unit.engine.slabs import feet, slab

LEAST = 60.0
ROOM = 3000.0
REACH = (500.0, 1000.0)


def edge(angle):
    """A long edge through the origin at an angle to the x axis."""
    way = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    return LineString([(-1e4 * way[0], -1e4 * way[1]), (1e4 * way[0], 1e4 * way[1])])


@pytest.mark.parametrize("angle", [16, 30, 45, 59, 121, 135, 160])
def test_a_flat_end_bends_square_within_the_last_half_to_one_metre(angle):
    bends = list(bends_at([edge(angle)], (-5000.0, 0.0), (0.0, 0.0), LEAST, ROOM))
    assert bends
    for bend in bends:
        way = direction(bend.knee, bend.foot)
        along = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
        assert angle_between(way, along) == pytest.approx(90.0)
        assert REACH[0] - 1 <= math.dist(bend.knee, bend.foot) <= REACH[1]
        assert bend.knee[1] == 0.0


@pytest.mark.parametrize("angle", [60, 75, 90, 120])
def test_an_end_that_comes_in_steep_enough_stays_straight(angle):
    assert not list(bends_at([edge(angle)], (-5000.0, 0.0), (0.0, 0.0), LEAST, ROOM))


def test_a_joint_along_an_edge_is_not_bent_onto_it():
    assert not list(bends_at([edge(10)], (-5000.0, 0.0), (0.0, 0.0), LEAST, ROOM))


def test_no_bend_where_the_joint_has_no_straight_run_for_it():
    assert not list(bends_at([edge(45)], (-5000.0, 0.0), (0.0, 0.0), LEAST, 900.0))


RULES = SlabRules(rule_set=load("floor"))
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


@pytest.mark.parametrize(("room", "jogs"), [(655.0, True), (652.0, False)])
@pytest.mark.parametrize("angle", [45, 135])
def test_a_line_jogs_as_near_to_one_of_its_ends_as_to_the_other(angle, room, jogs):
    """Bends lie 354 mm to either side of a wall at 45 degrees, and 300 mm from where the line ends."""
    for low, high in ((-room, 5000.0), (-5000.0, room)):
        line = CandidateLine(((low, 0.0), (high, 0.0)), Reason.SPAN)
        assert (len(over(line, wall_line(angle)).through) > 2) is jogs


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


EDGE = LineString([(0, 0), (4000, 0)])
FAR = LineString([(0, 900), (4000, 900)])


def test_an_end_stops_on_the_line_that_it_touches_or_on_none():
    assert under([FAR, EDGE], (1000.0, 0.0)) is EDGE
    assert under([FAR, EDGE], (1000.0, 400.0)) is None


@pytest.mark.parametrize(
    ("inner", "angle"), [((1000, 700), 90.0), ((300, 700), 45.0), ((1700, 700), 45.0)]
)
def test_a_joint_arrives_at_the_angle_between_it_and_what_it_stops_on(inner, angle):
    assert arrival([EDGE], inner, (1000.0, 0.0)) == pytest.approx(angle)


def test_in_the_open_there_is_no_arrival():
    assert arrival([EDGE], (1000.0, 900.0), (1000.0, 400.0)) is None


def test_a_bent_line_runs_as_its_own_stretch_does():
    bent = LineString([(0, 0), (1000, 0), (1000, 1000)])
    assert tangent(bent, (1000.0, 600.0)) == pytest.approx((0.0, 1.0))


def test_an_end_that_stops_on_nothing_does_not_bend():
    assert list(bends_at([edge(30)], (0.0, -3000.0), (0.0, -2000.0), 60.0, 2000.0)) == []
