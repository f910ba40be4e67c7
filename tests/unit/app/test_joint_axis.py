"""The line that a straight joint lies on, and the stops along it."""

import pytest
from shapely import LineString
from shapely.geometry import box

from drawn_joints import HALL, JOG, joint
from kerfline.app.joint_axis import (
    SHORTEST,
    Axis,
    axis_of,
    crossings,
    inside,
    next_stop,
    reach_of,
    stops_along,
    straight,
)

LEVEL = Axis((1000, 2000), (1.0, 0.0))
PITTED = HALL.difference(box(4000, 1000, 5000, 3000))


def test_an_axis_runs_from_the_first_point_to_the_last():
    axis = axis_of(joint("J1", (1000, 500), (4000, 4500)))
    assert axis.origin == (1000, 500)
    assert axis.way == pytest.approx((0.6, 0.8))
    assert axis.at(5000) == pytest.approx((4000, 4500))
    assert axis.place((4000, 4500)) == pytest.approx(5000)
    assert axis.place((1000 - 80, 500 + 60)) == pytest.approx(0), "square to it"


def test_a_joint_with_a_knee_is_not_straight():
    assert straight(joint("J1", JOG[0], JOG[-1]))
    assert not straight(joint("J1", *JOG[:3]))


def test_crossings_are_sorted_and_only_as_far_as_is_looked():
    upright = LineString([(3000, 0), (3000, 6000)])
    assert crossings(LEVEL, HALL.boundary, 20_000) == pytest.approx([-1000, 8000])
    assert crossings(LEVEL, upright, 20_000) == pytest.approx([2000])
    assert crossings(LEVEL, upright, 1999) == []


def test_the_reach_goes_beyond_every_corner():
    for point in ((0, 0), (4500, 3000), (9000, 6000)):
        assert reach_of(HALL, point) > max(
            ((point[0] - x) ** 2 + (point[1] - y) ** 2) ** 0.5 for x in (0, 9000) for y in (0, 6000)
        )


def test_a_stretch_is_cut_to_the_concrete_in_either_order():
    parts = [((1000, 2000), (4000, 2000)), ((5000, 2000), (9000, 2000))]
    assert inside(PITTED, LEVEL, (0, 20_000)) == parts
    assert inside(PITTED, LEVEL, (20_000, 0)) == parts
    assert inside(PITTED, LEVEL, (3100, 3900)) == [], "in the pit"


@pytest.mark.parametrize(("length", "found"), [(SHORTEST - 0.1, 0), (SHORTEST + 0.1, 1)])
def test_nobody_cuts_an_inch(length, found):
    assert len(inside(HALL, LEVEL, (0, length))) == found
    assert len(inside(HALL, Axis((9000 - length, 2000), (1.0, 0.0)), (0, 3000))) == found


def test_a_joint_may_stop_at_every_edge_and_joint_on_its_way():
    others = [joint("J2", (3000, 0), (3000, 6000)), joint("J3", (2000, 2500), (2000, 6000))]
    assert stops_along(PITTED, LEVEL, others) == pytest.approx([-1000, 2000, 3000, 4000, 8000])
    assert next_stop(PITTED, LEVEL, 2100, others) == pytest.approx(3000)
    assert next_stop(PITTED, LEVEL, 2000, others) == pytest.approx(2000), "where it is already"
    assert next_stop(PITTED, LEVEL, 9000, others) == 9000, "nothing further on"
