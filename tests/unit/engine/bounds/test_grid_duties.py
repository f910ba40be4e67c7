"""The joints that any layout on a grid owes, and the pieces that joints cover, by hand on floors of four by four."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon

from kerfline.engine.bounds.grid_duties import pieces_under, stops_on
from kerfline.model.slab import Boxout, Column, Wall
from unit.engine.grids import grid_of, marked, region_on

AT = range(0, 5000, 1000)
"""Places of the lines of either axis, mm."""

UP = {(0, 2, n) for n in range(4)}
"""The joint up the middle."""

ACROSS = {(1, 2, n) for n in range(4)}
"""The joint across the middle."""


def owed(joints, net=None, **more):
    """The pieces (axis, line, piece) within the floor at which chords end."""
    net = net or grid_of(AT, AT)
    stops = stops_on(net, replace(region_on(net), **more), marked(net.places, joints))
    return pieces_in(s & i for s, i in zip(stops, net.interior, strict=True))


def pieces_in(flags):
    return {(axis, *at) for axis, own in enumerate(flags) for at in np.argwhere(own).tolist()}


def wall(*path, **more):
    return Wall(id="W1", path=path, thickness=100.0, **more)


def column(size, boxout):
    return Column(id="C1", at=(2000.0, 2000.0), size=size, boxout=boxout)


def ell(corner):
    """The floor without its upper right, from a corner on."""
    x, y = corner
    return Polygon(((0, 0), (4000, 0), (4000, y), (x, y), (x, 4000), (0, 4000)))


def test_a_floor_that_owes_nothing_ends_chords_at_its_edges_only():
    net = grid_of(AT, AT)
    stops = stops_on(net, region_on(net), marked(net.places, UP | ACROSS))
    edges = {(axis, line, n) for axis in (0, 1) for line in (0, 4) for n in range(4)}
    assert pieces_in(stops) == edges


@pytest.mark.parametrize(
    ("met", "spared"),
    [
        (set(), set()),
        ({(1, 1, 1)}, {(0, 2, 0)}),
        ({(1, 1, 2)}, {(0, 2, 0)}),
        ({(1, 1, 0), (1, 1, 3)}, set()),
        ({(1, 2, 1), (1, 3, 1)}, set()),
    ],
)
def test_a_pinned_joint_is_owed_on_to_where_another_meets_it(met, spared):
    """Pinned from 2 to 3 m up; a joint that meets it at 1 m ends it there, one at its own ends does not."""
    net = grid_of(AT, AT, must=[(0, 2, 2)])
    assert owed(UP | met, net) == UP - spared


def test_a_joint_is_owed_as_far_as_it_goes_and_where_it_is():
    net = grid_of(AT, AT, must=[(0, 2, 2)])
    assert owed(UP - {(0, 2, 1)}, net) == {(0, 2, 2), (0, 2, 3)}
    assert owed(UP - {(0, 2, 2)} | ACROSS, net) == set()


@pytest.mark.parametrize(
    ("start", "end", "takes"),
    [(1200, 1800, True), (1250, 1750, False), (1300, 1700, False)],
)
def test_a_wall_asks_for_the_pieces_that_lie_for_the_most_part_under_it(start, end, takes):
    joint = {(0, 2, 1)}
    path = ((2000.0, float(start)), (2000.0, float(end)))
    assert owed(joint, walls=(wall(*path),)) == (joint if takes else set())


@pytest.mark.parametrize(("aside", "takes"), [(50.4, True), (50.6, False), (-50.4, True)])
def test_a_joint_lies_under_a_wall_to_its_face(aside, takes):
    """50 mm from the centre line of a wall of 100 mm, and half a millimetre."""
    joint = {(1, 2, 1)}
    path = ((1000.0, 2000 + aside), (2000.0, 2000 + aside))
    assert owed(joint, walls=(wall(*path),)) == (joint if takes else set())


def test_a_wall_that_only_wishes_or_takes_no_joint_asks_for_none():
    path = ((2000.0, 0.0), (2000.0, 4000.0))
    assert owed(UP, walls=(wall(*path),)) == UP
    assert owed(UP, walls=(wall(*path),), wishes=frozenset({"W1"})) == set()
    assert owed(UP, walls=(wall(*path, bearing=True),)) == set()


def test_a_column_is_owed_its_joints_whole_whatever_meets_them():
    post = (column(100.0, Boxout.NONE),)
    met = {(1, 1, n) for n in range(4)}
    assert owed(UP | ACROSS | met, columns=post) == UP | ACROSS
    assert owed((UP | ACROSS) - {(0, 2, 2)}, columns=post) == ACROSS | {(0, 2, 0), (0, 2, 1)}


def test_a_boxout_that_is_an_opening_asks_at_its_corners_only():
    """One of 1.4 m has no line of the grid near its corners; a diamond of that size still has its centre met."""
    assert owed(UP | ACROSS, columns=(column(1400.0, Boxout.SQUARE),)) == set()
    assert owed(UP | ACROSS, columns=(column(1400.0, Boxout.DIAMOND),)) == UP | ACROSS


def test_a_corner_is_owed_its_joints_to_where_another_meets_them():
    net = grid_of(AT, AT, out=[(2, 2), (2, 3), (3, 2), (3, 3)])
    up, across = {(0, 2, 0), (0, 2, 1)}, {(1, 2, 0), (1, 2, 1)}
    assert owed(up, net) == up
    assert owed(across, net) == across
    assert owed(up | {(1, 1, 1)}, net) == {(0, 2, 1)}
    assert owed(across | {(0, 1, 2)}, net) == {(1, 2, 1)}


@pytest.mark.parametrize(
    ("off", "near"), [(203, True), (203.205, True), (203.22, False), (600, False)]
)
@pytest.mark.parametrize("axis", [0, 1])
def test_a_corner_eight_inches_off_a_line_shares_it(axis, off, near):
    corner = [2000.0, 2000.0]
    corner[axis] += off if off < 500 else off - 100
    assert owed(UP | ACROSS, gross=ell(corner)) == (UP | ACROSS if near else set())


@pytest.mark.parametrize(
    ("path", "covered"),
    [
        (((1000, 0), (1000, 4000)), {(0, 1, n) for n in range(4)}),
        (((3000, 3000), (1000, 3000)), {(1, 3, 1), (1, 3, 2)}),
        (((1000, 500), (1000, 2500)), {(0, 1, 1)}),
        (((1000, 1000.005), (1000, 1999.995)), {(0, 1, 1)}),
        (((1000, 1000.02), (1000, 2000)), set()),
        (((1000, 1000), (1000, 1999.98)), set()),
        (((1000, 1000), (1000.005, 2000)), {(0, 1, 1)}),
        (((1000, 1000), (1000.02, 2000)), set()),
    ],
)
def test_a_joint_covers_the_pieces_that_lie_whole_in_it(path, covered):
    net = grid_of(AT, AT)
    assert pieces_in(pieces_under(net, [path])) == covered


def test_joints_on_one_line_cover_what_each_does():
    net = grid_of(AT, AT)
    paths = [((2000, 0), (2000, 1000)), ((2000, 3000), (2000, 4000)), ((0, 1000), (1000, 1000))]
    assert pieces_in(pieces_under(net, paths)) == {(0, 2, 0), (0, 2, 3), (1, 1, 0)}
