"""Joints bend square to skew edges, and the choice of panels leaves room for the bend.

Pavement guidance: no angle under 60 degrees, the last 0.5 to 1.0 m (1.5 to 3 ft) bent square where it
must be (ACPA, guidance on joint layout of concrete pavements).
"""

import math

import pytest
from shapely import LineString

from kerfline.engine.lines.bends import bends_at
from kerfline.geometry.corners import angle_between, direction

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
