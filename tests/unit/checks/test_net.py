"""The net of joints and edges: where they meet, and in which directions they leave."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box

from kerfline.checks.net import EDGE, linework_of, net_of
from kerfline.model.panelling import joined

FLOOR = box(0, 0, 6000, 4000)


def net(*paths, concrete=FLOOR):
    lines = joined(concrete, [LineString(p) for p in paths])
    return net_of(concrete, lines, linework_of(concrete, lines))


def at(found, *place):
    """The node at a place."""
    (node,) = [n for n in found.nodes if math.dist(n.at, place) < 1.0]
    return node


def degrees(arms):
    return [round(math.degrees(math.atan2(a.way[1], a.way[0]))) for a in arms]


UP, ACROSS = ((3000, 0), (3000, 4000)), ((0, 2000), (6000, 2000))


def test_joints_that_cross_make_one_node_of_four_arms_anticlockwise():
    crossing = at(net(UP, ACROSS), 3000, 2000)
    assert degrees(crossing.arms) == [-90, 0, 90, 180]
    assert [a.joint for a in crossing.arms] == [0, 1, 0, 1]
    assert not crossing.on_edge
    assert len(crossing.through()) == 2


def test_a_joint_on_the_edge_makes_a_node_with_two_arms_of_edge():
    landing = at(net(UP), 3000, 0)
    assert [a.joint for a in landing.arms] == [EDGE, 0, EDGE]
    assert degrees(landing.arms) == [0, 90, 180]
    assert landing.on_edge
    assert [a.joint for a in landing.joints] == [0]


def test_a_joint_that_stops_inside_is_a_node_of_one_arm():
    free = at(net(((3000, 0), (3000, 2500))), 3000, 2500)
    assert degrees(free.arms) == [-90]
    assert free.through() == []


def test_a_grid_has_a_node_at_each_crossing_and_landing():
    """3 x 2 joints: 6 crossings, 10 landings."""
    paths = [((x, 0), (x, 4000)) for x in (1500, 3000, 4500)]
    paths += [((0, y), (6000, y)) for y in (1500, 3000)]
    found = net(*paths)
    crossings = [n for n in found.nodes if not n.on_edge]
    assert len(crossings) == 6
    assert all(len(n.arms) == 4 and len(n.through()) == 2 for n in crossings)
    assert len(found.landing_nodes) == 10
    assert found.owners.count(0) == 3


@pytest.mark.parametrize(("bend", "through"), [(0, 1), (29, 1), (31, 0)])
def test_arms_run_straight_on_below_30_degrees(bend, through):
    """A joint that bends at the line it crosses."""
    rise = 2000 * math.tan(math.radians(bend))
    first, second = ((1000, 2000), (3000, 2000)), ((3000, 2000), (5000, 2000 + rise))
    node = at(net(first, second, ((3000, 0), (3000, 2000))), 3000, 2000)
    assert len(node.through()) == through


def test_each_arm_runs_on_once_with_the_straightest():
    """Two joints go on from one, at 0 and at 10 degrees: the straight one is its continuation."""
    paths = (
        ((1000, 2000), (3000, 2000)),
        ((3000, 2000), (5000, 2000)),
        ((3000, 2000), (5000, 2350)),
    )
    node = at(net(*paths), 3000, 2000)
    ((i, j),) = node.through()
    assert {node.joints[i].joint, node.joints[j].joint} == {0, 1}


def test_what_lies_off_the_concrete_is_no_piece():
    found = net(((-2000, 2000), (3000, 2000)))
    inside = [p for p, owner in zip(found.pieces, found.owners, strict=True) if owner == 0]
    assert sum(p.length for p in inside) == pytest.approx(3000, abs=1.0)


def test_a_joint_along_the_edge_belongs_to_the_edge():
    assert set(net(((0, 0), (6000, 0))).owners) == {EDGE}


def test_of_two_joints_drawn_over_each_other_the_first_owns_the_pieces():
    found = net(UP, UP)
    assert 0 in found.owners
    assert 1 not in found.owners


@pytest.mark.parametrize(("off", "leaves"), [(0.0, True), (0.9, True), (1.1, False)])
def test_a_joint_leaves_a_place_on_the_edge_within_a_millimetre(off, leaves):
    found = net(UP)
    assert found.leaves((3000 + off, 0)) is leaves
    assert not net().leaves((3000, 0))


@pytest.mark.parametrize(("apart", "count"), [(0.9, 1), (1.1, 2)])
def test_ends_that_meet_a_line_within_a_millimetre_share_a_node(apart, count):
    found = net(ACROSS, ((3000, 0), (3000, 2000)), ((3000 + apart, 4000), (3000 + apart, 2000)))
    middle = [n for n in found.nodes if abs(n.at[0] - 3000) < 5 and not n.on_edge]
    crossing = [n for n in middle if any(a.joint == 0 for a in n.arms)]
    assert len(crossing) == count


@given(st.permutations([UP, ACROSS, ((0, 0), (6000, 4000))]), st.booleans())
def test_the_net_is_the_same_in_whatever_order_and_direction_joints_are_drawn(paths, back):
    drawn = [p[::-1] for p in paths] if back else paths
    places = sorted((round(x, 3), round(y, 3)) for n in net(*drawn).nodes for x, y in [n.at])
    plain = sorted(
        (round(x, 3), round(y, 3))
        for n in net(UP, ACROSS, ((0, 0), (6000, 4000))).nodes
        for x, y in [n.at]
    )
    assert places == plain


def test_a_joint_in_pieces_makes_the_same_net_as_a_whole_one():
    whole = net(UP, ACROSS)
    halves = net(((3000, 0), (3000, 2000)), ((3000, 2000), (3000, 4000)), ACROSS)
    assert len(halves.nodes) == len(whole.nodes)
    assert shapely.union_all(halves.pieces).equals(shapely.union_all(whole.pieces))


def test_a_node_that_is_asked_about_is_whole_and_others_may_be_missing():
    """Two joints land 0.8 mm apart on an edge, which is one node; one of the two ends is asked about."""
    lines = [LineString([(500, 0), (500, 4000)]), LineString([(500.8, 0), (2500, 4000)])]
    linework = linework_of(FLOOR, lines)
    (whole,) = [n for n in net_of(FLOOR, lines, linework).nodes if n.at == (500, 0)]
    (asked,) = net_of(FLOOR, lines, linework, lambda spots: spots[:, 0] == 500.8).nodes
    assert (asked.at, asked.arms) == (whole.at, whole.arms)
    assert sorted(arm.joint for arm in asked.arms) == [EDGE, EDGE, 0, 1]
