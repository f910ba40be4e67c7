"""Settled lines run on to the next edge or joint."""

import math

import pytest
from shapely import LineString, Polygon, box

from kerfline.engine.lines.run_on import run_on, wall_paths
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.corners import angle_between, direction
from kerfline.model.slab import KeepOut, Slab, Wall
from unit.engine.plans import RULES, feet, ring, slab

FLOOR = box(0, 0, 6000, 4000)
FOOT = 304.8


def test_a_line_runs_straight_on_to_edges_at_both_ends():
    assert run_on(FLOOR, ((1000, 2000), (2000, 2000)), []) == ((0, 2000), (6000, 2000))


def test_a_line_stops_at_the_first_other_line():
    others = [LineString([(x, 0), (x, 4000)]) for x in (5000, 4000)]
    assert run_on(FLOOR, ((1000, 2000), (2000, 2000)), others)[-1] == (4000, 2000)


def test_an_end_on_an_edge_or_a_line_stays_and_bends_are_kept():
    path = ((0, 1000), (3000, 1000), (3000, 2000))
    assert run_on(FLOOR, path, []) == ((0, 1000), (3000, 1000), (3000, 4000))
    stop = LineString([(2000, 0), (2000, 4000)])
    assert run_on(FLOOR, ((0, 2000), (2000, 2000)), [stop]) == ((0, 2000), (2000, 2000))


def test_a_line_that_stops_short_of_the_edge_by_less_than_a_touch_runs_on_to_it():
    """Else what it should part would hang together."""
    short = run_on(FLOOR, ((0.4, 2000), (5999.6, 2000)), [])
    assert short == ((0, 2000), (6000, 2000))


def test_a_line_that_meets_nothing_ahead_stays():
    outside = ((7000, 2000), (8000, 2000))
    assert run_on(FLOOR, outside, [])[-1] == (8000, 2000)


def paths(given, *walls, others=(), barred=None):
    region = placed_region(given, RULES, EngineOptions(), gross=given.gross, angle=0.0).region
    own = Wall(id="W1", path=feet(*walls))
    found = wall_paths(region, own, list(others), barred or Polygon())
    return [tuple((round(x / FOOT, 3), round(y / FOOT, 3)) for x, y in p) for p in found]


HALL = slab(ring((0, 0), (40, 0), (40, 30), (0, 30)))


def test_under_a_wall_from_edge_to_edge_lies_one_joint():
    assert paths(HALL, (0, 12), (40, 12)) == [((0, 12), (40, 12))]


def test_beyond_a_walls_open_end_the_joint_runs_straight_on_to_the_edge_or_a_joint():
    """Along the axis to the edge, with points where the wall ends."""
    (path,) = paths(HALL, (0, 12), (15, 12))
    assert (path[0], path[-1]) == ((0, 12), (40, 12))
    (short,) = paths(HALL, (0, 12), (15, 12), others=[LineString(feet((20, 0), (20, 30)))])
    assert short[-1] == (20, 12)


def test_a_wall_off_the_concrete_has_no_joint():
    assert paths(HALL, (50, 0), (60, 0)) == []


def test_a_joint_that_would_cross_a_barred_area_under_the_wall_is_none():
    keep_out = box(*(v * FOOT for v in (10, 10, 14, 14)))
    assert paths(HALL, (0, 12), (40, 12), barred=keep_out) == []


def test_where_a_barred_area_lies_ahead_the_joint_ends_on_one_across_the_walls_end():
    ahead = box(*(v * FOOT for v in (25, 5, 30, 20)))
    under, across = paths(HALL, (0, 12), (15, 12), barred=ahead)
    assert (under[0], under[-1]) == ((0, 12), (15, 12))
    assert across == ((15, 0), (15, 30))


@pytest.mark.parametrize("edge", [20, 30.1, 44.9])
def test_a_joint_that_comes_in_too_flat_turns_along_an_axis_where_one_leads_on_square(edge):
    """A wall at a slant ends in the open before a slanted edge: flatter than 60 degrees it turns along x."""
    way = math.radians(edge)
    skew = slab(ring((0, 0), (40, 0), (40, 60), (0, 60)))
    (path,) = paths(skew, (0, 20), (10 * math.cos(way), 20 + 10 * math.sin(way)))
    flat = angle_between(direction(path[-2], path[-1]), (0.0, 1.0))
    assert min(flat, 180 - flat) == pytest.approx(90 - edge if edge <= 30 else 90.0, abs=0.05)


def test_every_joint_of_a_wall_ends_on_an_edge_or_a_joint():
    given = Slab(
        outline=HALL.outline,
        thickness=101.6,
        keep_outs=(KeepOut(id="K1", outline=ring((25, 5), (30, 5), (30, 20), (25, 20))),),
    )
    found = paths(given, (8, 3), (15, 10))
    lines = [LineString(feet(*p)) for p in found]
    rim = given.concrete.boundary
    for n, line in enumerate(lines):
        others = [rim, *(o for m, o in enumerate(lines) if m != n)]
        for end in (line.coords[0], line.coords[-1]):
            assert min(o.distance(LineString([end, end])) for o in others) < 1.0


def test_a_wall_that_ends_in_a_pocket_of_barred_areas_has_no_joint():
    """Ahead of it and to both sides no saw may go."""
    pocket = box(*(v * FOOT for v in (20, 8, 26, 16))) - box(*(v * FOOT for v in (20, 11, 23, 13)))
    assert paths(HALL, (0, 12), (21, 12), barred=pocket) == []
