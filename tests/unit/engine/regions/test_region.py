"""A piece of slab in its own frame: turns that are exact where they can be, what runs along an axis, its sides."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box

from kerfline.engine.regions.region import (
    HAIR,
    NEAR_AXIS,
    Cut,
    PlacedRegion,
    Proof,
    RegionLayout,
    X,
    Y,
    along_axis,
    cos_sin,
    given_reason,
    overshot,
    parts_in,
    together,
    turned,
    turned_shape,
)
from kerfline.model.layout import Reason, Status
from kerfline.model.slab import GivenJoint
from unit.engine.plans import EL, feet, region_of, slab, wall
from unit.engine.plans import box as floor

FLOOR = box(0, 0, 6000, 4000)


def test_a_path_reaches_a_hair_beyond_both_ends():
    (x0, y0), (x1, y1) = overshot(((0.0, 0.0), (3000.0, 4000.0)))
    assert (x0, y0) == pytest.approx((-0.6 * HAIR, -0.8 * HAIR))
    assert (x1, y1) == pytest.approx((3000 + 0.6 * HAIR, 4000 + 0.8 * HAIR))


def test_bends_of_a_path_stay_and_each_end_goes_on_its_own_way():
    path = overshot(((0.0, 0.0), (0.0, 100.0), (100.0, 100.0)))
    assert path == ((0.0, -HAIR), (0.0, 100.0), (100.0 + HAIR, 100.0))


@pytest.mark.parametrize(
    ("angle", "at"),
    [(0, (3, 4)), (90, (-4, 3)), (180, (-3, -4)), (270, (4, -3)), (-90, (4, -3)), (720, (3, 4))],
)
def test_right_angles_are_turned_to_the_last_bit(angle, at):
    assert turned((3.0, 4.0), angle) == at


def test_any_angle_by_hand():
    assert turned((100.0, 0.0), 30.0) == pytest.approx((50 * math.sqrt(3), 50))
    assert cos_sin(60.0) == pytest.approx((0.5, math.sqrt(0.75)))


@given(st.floats(-720, 720), st.floats(-1e5, 1e5), st.floats(-1e5, 1e5))
def test_a_turn_and_back_is_where_it_was(angle, x, y):
    assert turned(turned((x, y), angle), -angle) == pytest.approx((x, y), abs=1e-6)


@given(st.floats(0, 360))
def test_a_turned_shape_is_as_large(angle):
    assert turned_shape(box(0, 0, 3000, 2000), angle).area == pytest.approx(6e6)


@given(st.floats(0, 360), st.floats(-1e5, 1e5), st.floats(-1e5, 1e5))
def test_places_go_into_a_frame_and_back(angle, x, y):
    placed = PlacedRegion(region=region_of(slab(floor(10, 10))), angle=angle)
    assert placed.to_slab(placed.to_region((x, y))) == pytest.approx((x, y), abs=1e-6)


@pytest.mark.parametrize(
    ("end", "axis"),
    [
        ((0, 1000), X),
        ((1000, 0), Y),
        ((-1000, 0), Y),
        ((1000 * NEAR_AXIS, 1000), X),
        ((1000 * NEAR_AXIS + 1, 1000), None),
        ((1000, 1000 * NEAR_AXIS), Y),
        ((1000, 1000 * NEAR_AXIS + 1), None),
        ((700, 700), None),
        ((0, 0), None),
        ((0.005, 0), None),
    ],
)
def test_a_segment_runs_along_an_axis_up_to_eight_degrees(end, axis):
    assert along_axis((0.0, 0.0), end) == axis


def test_of_a_line_only_what_lies_in_the_concrete_stays():
    holed = FLOOR - box(2000, 1000, 3000, 3000)
    assert parts_in(holed, ((-500, 2000), (7000, 2000))) == [
        ((0, 2000), (2000, 2000)),
        ((3000, 2000), (6000, 2000)),
    ]
    assert parts_in(holed, ((-500, -5), (7000, -5))) == []
    assert parts_in(FLOOR, ((0, 0), (0.4, 0))) == []


@pytest.mark.parametrize(
    ("more", "reason", "words"),
    [
        ({}, Reason.PINNED, "pinned joint G1"),
        ({"existing": True}, Reason.FOUND, "existing joint G1"),
        ({"reason": "fall", "note": "valley of D1"}, Reason.FALL, "valley of D1"),
        ({"reason": "fall", "existing": True}, Reason.FOUND, "existing joint G1"),
        ({"reason": "wall"}, Reason.PINNED, "pinned joint G1"),
    ],
)
def test_why_a_given_joint_is_there(more, reason, words):
    joint = GivenJoint(id="G1", path=((0, 0), (1, 1)), **more)
    assert given_reason(joint) == (reason, words)


def test_the_sides_of_a_region_are_its_edges_and_then_the_pieces_of_its_walls():
    bent = wall("W1", (5, 0), (5, 9), (20, 9))
    region = region_of(slab(EL, walls=(bent,)))
    assert region.sides.walls.tolist() == [""] * 6 + ["W1"] * 2
    assert region.sides.ends.shape == (8, 2, 2)
    assert sum(line.length for line in region.sides.lines[:6]) == pytest.approx(EL.polygon.length)
    assert [tuple(p) for p in region.sides.ends[-1].tolist()] == list(feet((5, 9), (20, 9)))


def test_the_thickest_wall_and_walls_by_place():
    thin, thick = wall("W1", (5, 0), (5, 9)), wall("W2", (15, 0), (15, 9), thickness=200.0)
    region = region_of(slab(EL, walls=(thin, thick)))
    assert region.thickest == 200.0
    assert region_of(slab(EL)).thickest == 0.0
    found = region.wall_tree.query(LineString(feet((14, 4), (16, 4))), "intersects")
    assert found.tolist() == [1]


def test_one_part_at_its_bound_is_the_best():
    assert together([Proof(10.0, 10.0)]) == (Status.OPTIMAL, Proof(10.0, 10.0))


def test_one_part_off_its_bound_is_proven_to_within_a_gap():
    assert together([Proof(10.0, 9.0)])[0] is Status.TIME_LIMIT


def test_costs_and_bounds_of_parts_add_up():
    """Parts that are searched one after the other are no proof of the whole, so the status says so."""
    assert together([Proof(10.0, 10.0), Proof(5.0, 4.0)]) == (Status.PARTS, Proof(15.0, 14.0))


def test_a_part_of_which_nothing_is_proven_spoils_the_proof():
    status, _ = together([Proof(10.0, 10.0), Proof(5.0, 0.0)])
    assert status is Status.HEURISTIC


def test_a_part_without_a_joint_needs_no_proof():
    assert together([Proof(), Proof(5.0, 5.0)])[0] is Status.PARTS
    assert together([Proof()])[0] is Status.OPTIMAL
    assert together([]) == (Status.OPTIMAL, Proof())


def part(status=Status.OPTIMAL, **more):
    return RegionLayout(cuts=(Cut(path=((0.0, 0.0), (1.0, 0.0))),), status=status, **more)


def test_a_layout_of_parts_is_all_of_them_and_no_better_proven_than_the_worst():
    one = part(cost=10.0, bound=9.0, length_bound=5.0, notes=("a",), walls_left={"W1": "why"})
    other = part(Status.HEURISTIC, cost=4.0, through_bound=3.0, notes=("b",), wall_shifts={"W2": 5})
    found = RegionLayout.joined([one, other])
    assert (len(found.cuts), found.cost, found.bound) == (2, 14.0, 9.0)
    assert (found.length_bound, found.through_bound) == (5.0, 8.0)
    assert (found.walls_left, found.wall_shifts) == ({"W1": "why"}, {"W2": 5})
    assert (found.status, found.notes) == (Status.HEURISTIC, ("a", "b"))
    assert RegionLayout.joined([one, part(Status.TIME_LIMIT)]).status is Status.PARTS
    assert RegionLayout.joined([part(Status.TIME_LIMIT)]).status is Status.TIME_LIMIT
