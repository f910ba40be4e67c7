"""Lines in which the planes of a floor that falls to a drain meet."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, affinity, box

from kerfline.geometry.ring import Ring, circle
from kerfline.model.falls import Crease, asked_lines, fall_lines, given_joints
from kerfline.model.slab import Fall, FallJoints, GivenJoint, Slab
from shapes import feet

FLOOR = Slab(outline=Ring(feet((0, 0), (40, 0), (40, 24), (0, 24))), thickness=127.0)


def fall(*corners, to, name="D1", joints=FallJoints.BOTH):
    return Fall(id=name, area=Ring(feet(*corners)), to=feet(*to), joints=joints)


BASIN = fall((6, 6), (18, 6), (18, 18), (6, 18), to=[(12, 12)])


def with_falls(*falls, **more):
    return Slab(outline=FLOOR.outline, thickness=FLOOR.thickness, falls=falls, **more)


def drop(at, area, drain):
    """Depth of a floor below its border: the share of the way down, of the plane that holds the point."""
    ring = list(area.exterior.coords)[:-1]
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        u, v = _shares(at, a, b, drain)
        if u >= -1e-9 and v >= -1e-9 and u + v <= 1 + 1e-9:
            return 1 - u - v
    raise AssertionError


def _shares(at, a, b, drain):
    """Barycentric shares of two border points in the triangle with the drain."""
    det = (b[1] - drain.y) * (a[0] - drain.x) + (drain.x - b[0]) * (a[1] - drain.y)
    u = ((b[1] - drain.y) * (at.x - drain.x) + (drain.x - b[0]) * (at.y - drain.y)) / det
    v = ((drain.y - a[1]) * (at.x - drain.x) + (a[0] - drain.x) * (at.y - drain.y)) / det
    return u, v


@given(st.floats(0, 360), st.floats(0.2, 0.8), st.floats(0.2, 0.8))
def test_a_valley_lies_lower_than_the_floor_beside_it(turn, share_u, share_v):
    """Held against the planes themselves, reckoned from their three corners."""
    area = affinity.rotate(box(0, 0, 3000, 2000), turn, origin=(0, 0))
    drain = affinity.rotate(Point(3000 * share_u, 2000 * share_v), turn, origin=(0, 0))
    made = Fall(id="D1", area=Ring.of(area), to=((drain.x, drain.y),))
    valleys = [x for x in fall_lines(made) if x.crease is Crease.VALLEY]
    assert len(valleys) == 4
    for valley in valleys:
        line = LineString(valley.path)
        assert Point(line.coords[0]).distance(area.boundary) < 1e-6
        middle = line.interpolate(0.5, normalized=True)
        (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
        across = (-(y1 - y0) / line.length, (x1 - x0) / line.length)
        beside = [Point(middle.x + s * across[0], middle.y + s * across[1]) for s in (-5.0, 5.0)]
        here, sides = drop(middle, area, drain), [drop(p, area, drain) for p in beside]
        assert here > sum(sides) / 2 + 1e-4


def test_a_basin_in_the_open_floor_has_four_valleys_and_four_ridges():
    found = asked_lines(with_falls(BASIN))
    lengths = sorted((x.crease, round(LineString(x.path).length, 3)) for x in found)
    side, half = 12 * 304.8, round(math.hypot(6, 6) * 304.8, 3)
    assert lengths == [(Crease.RIDGE, pytest.approx(side))] * 4 + [(Crease.VALLEY, half)] * 4


@pytest.mark.parametrize(
    ("wish", "count"),
    [(FallJoints.BOTH, 8), (FallJoints.VALLEYS, 4), (FallJoints.RIDGES, 4), (FallJoints.NONE, 0)],
)
def test_joints_are_asked_for_along_what_the_fall_says(wish, count):
    basin = fall((6, 6), (18, 6), (18, 18), (6, 18), to=[(12, 12)], joints=wish)
    assert len(given_joints(with_falls(basin))) == count


def test_no_joint_is_asked_for_along_the_edge_of_the_slab():
    whole = fall((0, 0), (40, 0), (40, 24), (0, 24), to=[(20, 12)])
    assert {x.crease for x in asked_lines(with_falls(whole))} == {Crease.VALLEY}


def test_falls_side_by_side_share_one_ridge():
    left = fall((0, 0), (20, 0), (20, 24), (0, 24), to=[(10, 12)])
    right = fall((20, 0), (40, 0), (40, 24), (20, 24), to=[(30, 12)], name="D2")
    ridges = [x for x in asked_lines(with_falls(left, right)) if x.crease is Crease.RIDGE]
    assert [x.fall for x in ridges] == ["D1"]
    assert LineString(ridges[0].path).equals(LineString(feet((20, 0), (20, 24))))


def test_a_channel_is_a_valley_along_its_length():
    trench = fall((22, 4), (36, 4), (36, 20), (22, 20), to=[(26, 12), (32, 12)])
    valleys = [x.path for x in asked_lines(with_falls(trench)) if x.crease is Crease.VALLEY]
    assert feet((26, 12), (32, 12)) in valleys
    assert len(valleys) == 5


def test_planes_meet_in_a_ridge_at_a_corner_that_points_inward():
    ell = fall((0, 0), (20, 0), (20, 10), (10, 10), (10, 20), (0, 20), to=[(5, 5)])
    found = list(fall_lines(ell))
    inward = [x for x in found if x.path[0] == pytest.approx(feet((10, 10))[0])]
    assert Crease.RIDGE in {x.crease for x in inward}


def test_a_round_fall_has_a_border_and_no_valley():
    made = Fall(id="D1", area=circle(feet((12, 12))[0], 1800.0), to=feet((12, 12)))
    found = asked_lines(with_falls(made))
    assert {x.crease for x in found} == {Crease.RIDGE}
    total = sum(LineString(x.path).length for x in found)
    assert total == pytest.approx(2 * math.pi * 1800.0, rel=1e-3)


def test_a_joint_that_is_drawn_already_is_not_asked_for_again():
    own = GivenJoint(id="G1", path=feet((6, 6), (18, 18)))
    joints = given_joints(with_falls(BASIN, joints=(own,)))
    assert joints[0] is own
    assert len(joints) == 1 + 2 + 4
