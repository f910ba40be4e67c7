"""Where joints end, and how many chalk lines they are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, affinity
from shapely.geometry import box

from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends, knees

FLOOR = box(0, 0, 6000, 4000)
ACROSS = LineString([(0, 2000), (6000, 2000)])

turns = st.floats(0.0, 360.0)
shifts = st.floats(-1e8, 1e8)


def kinds(*joints, concrete=FLOOR):
    return [end.kind.value for end in joint_ends(concrete, joints)]


def test_a_joint_from_edge_to_edge():
    assert kinds(ACROSS) == ["edge", "edge"]


def test_a_joint_to_an_opening_ends_on_an_edge():
    pierced = FLOOR.difference(box(2000, 1000, 3000, 3000))
    assert kinds(LineString([(0, 2000), (2000, 2000)]), concrete=pierced) == ["edge", "edge"]


def test_a_joint_that_stops_inside_the_concrete_is_free():
    assert kinds(LineString([(3000, 0), (3000, 1000)])) == ["edge", "free"]


def test_a_joint_that_stops_on_another_is_a_tee():
    assert kinds(ACROSS, LineString([(3000, 0), (3000, 2000)]))[2:] == ["edge", "tee"]


def test_a_joint_that_another_carries_on_is_no_tee():
    below, above = LineString([(3000, 0), (3000, 2000)]), LineString([(3000, 2000), (3000, 4000)])
    assert kinds(ACROSS, below, above)[2:] == ["edge", "corner", "corner", "edge"]


@pytest.mark.parametrize(("shift", "kind"), [(500, "corner"), (2500, "tee")])
def test_straight_on_is_within_thirty_degrees(shift, kind):
    """500 in 2000 is 14 degrees, 2500 in 2000 is 51."""
    below = LineString([(3000, 0), (3000, 2000)])
    above = LineString([(3000, 2000), (3000 + shift, 4000)])
    assert kinds(ACROSS, below, above)[3] == kind


def test_two_ends_that_meet_are_a_corner():
    one, two = LineString([(3000, 0), (3000, 2000)]), LineString([(3000, 2000), (6000, 2000)])
    assert kinds(one, two) == ["edge", "corner", "corner", "edge"]


def test_an_end_within_the_tolerance_counts_as_touching():
    assert kinds(ACROSS, LineString([(3000, 0), (3000, 1999.6)]))[3] == "tee"
    assert kinds(ACROSS, LineString([(3000, 0), (3000, 1999.4)]))[3] == "free"


def test_an_end_knows_its_joint_its_way_and_what_it_meets():
    ends = joint_ends(FLOOR, [ACROSS, LineString([(3000, 0), (3000, 2000)])])
    last = ends[3]
    assert (last.joint, last.at, last.outward, last.others) == (1, (3000, 2000), (0, 1), (0,))
    assert last.kind is EndKind.TEE


def test_a_bent_joint_ends_along_its_last_piece():
    bent = LineString([(0, 1000), (3000, 1000), (6000, 2000)])
    assert joint_ends(FLOOR, [bent])[1].outward == pytest.approx((0.9486833, 0.3162278))


def line(x0, y0, x1, y1):
    return LineString([(x0, y0), (x1, y1)])


HALVES = [line(0, 0, 2500, 0), line(6000, 0, 3000, 0)]
GRID = [*HALVES, line(0, 900, 900, 900), line(0, 3, 60, 3), line(500, 0, 500, 900)]


def test_no_joints_need_no_line():
    assert chalk_lines([]) == 0


def test_pieces_on_one_line_are_snapped_once_whichever_way_they_run():
    assert chalk_lines(HALVES) == 1


def test_lines_within_the_tolerance_are_one():
    assert chalk_lines(GRID) == 3
    assert chalk_lines(GRID, tolerance=1.0) == 4


def test_parallel_lines_apart_are_two():
    assert chalk_lines([line(0, 0, 3000, 0), line(0, 20, 3000, 20)]) == 2


def test_a_bent_joint_is_a_line_of_its_own():
    assert chalk_lines([*HALVES, LineString([(0, 0), (1, 1), (2, 0)])]) == 2


@given(turns, shifts, shifts)
def test_turning_and_moving_change_no_count(turn, dx, dy):
    """Also far from the origin, where surveys put their slabs."""
    moved = [affinity.translate(affinity.rotate(g, turn, origin=(0, 0)), dx, dy) for g in GRID]
    assert chalk_lines(moved) == 3


@pytest.mark.parametrize("hair", [1e-9, 1e-6, 1e-4])
def test_directions_a_hair_either_side_of_the_axis_are_one(hair):
    up, down = line(0, 0, 3000, 3000 * hair), line(4000, 0, 7000, -3000 * hair)
    assert chalk_lines([up, down]) == 1


def test_knees_are_found_at_both_ends_of_a_joint_of_any_number_of_points():
    """Bends of 45 degrees 0.5 m from either end; that in the middle is no knee, nor one 2 m from its end."""
    first, last = (500.0, 500.0), (5000.0, 500.0)
    path = [(0.0, 0.0), first, (2500.0, 700.0), last, (5500.0, 0.0)]
    assert knees(LineString(path)) == [first, last]
    assert knees(LineString([*path[:2], *path[3:]])) == [first, last]
    assert knees(LineString([(0, 0), (1500, 1500), *path[2:]])) == [last]
    assert knees(LineString([(0, 0), (6000, 0)])) == []
