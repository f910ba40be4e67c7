"""What is proven of a layout: the least joint length of any, and of parts what is proven of each."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings

from kerfline.engine.partition.bounds import (
    SQUARE,
    Proof,
    least_length,
    together,
)
from kerfline.model.layout import Status
from kerfline.units import MM_PER_FOOT
from strategies import turned_slabs
from unit.engine.plans import EL, HOUSE, RULES, box, layout, slab
from unit.engine.slabs import SHAPES

SPAN = 3000.0

FOUND = {
    **{
        name: SHAPES[name] for name in ("tapered drive", "bay window", "ring walk", "diagonal wall")
    },
    "house": HOUSE,
    "L": slab(EL),
}
"""Slabs of each kind: slanted, turned in part, round, walled."""


def rounded_square(radius):
    """A square of side one with its corners rounded."""
    return shapely.box(radius, radius, 1 - radius, 1 - radius).buffer(radius, quad_segs=256)


def test_the_constant_is_that_of_the_best_rounding_of_a_square():
    """Kawohl and Lachand-Robert: of all figures in a square the least perimeter for its area has the square
    with round corners, of the radius one over that constant."""
    radii = np.linspace(0.01, 0.49, 481)
    figures = [rounded_square(r) for r in radii]
    ratios = [f.length / f.area for f in figures]
    assert min(ratios) == pytest.approx(SQUARE, rel=1e-4)
    assert radii[int(np.argmin(ratios))] == pytest.approx(1 / SQUARE, abs=2e-3)


@pytest.mark.parametrize(("across", "up"), [(2, 2), (3, 1), (8, 5), (100, 60)])
def test_no_more_than_the_joints_of_full_squares(across, up):
    """A floor of full squares has the least length that squares can have; the bound stays below it."""
    floor = shapely.box(0, 0, across * SPAN, up * SPAN)
    joints = ((across - 1) * up + (up - 1) * across) * SPAN
    assert least_length(floor, SPAN) <= joints


def test_within_six_percent_of_the_squares_of_a_vast_floor():
    """(2 + sqrt(pi)) / 4 = 0.943."""
    floor = shapely.box(0, 0, 1000 * SPAN, 1000 * SPAN)
    assert least_length(floor, SPAN) == pytest.approx(0.943 * 2 * 999 * 1000 * SPAN, rel=1e-3)


def test_a_single_panel_needs_no_joint():
    assert least_length(shapely.box(0, 0, SPAN, SPAN), SPAN) == 0.0


@pytest.mark.parametrize("name", FOUND)
def test_never_above_the_length_found(name):
    found = layout(FOUND[name], effort=1.0)
    assert found.solution.length_bound <= found.joint_length + 1.0


@given(some=turned_slabs(most_boxes=1))
@settings(max_examples=6)
def test_never_above_the_length_found_on_any_slab(some):
    found = layout(some, effort=0.5)
    assert found.solution.length_bound <= found.joint_length + 1.0


def test_the_bound_of_a_plain_floor_is_its_length():
    """A rectangle of 3 by 2 spans, whose joints are known: two across and one along."""
    span = RULES.working(slab(EL).thickness).span / MM_PER_FOOT
    found = layout(slab(box(3 * span, 2 * span)))
    assert found.joint_length == pytest.approx((2 * 2 + 3) * span * MM_PER_FOOT, rel=1e-6)
    assert found.solution.length_bound == pytest.approx(found.joint_length, rel=1e-3)


def test_a_turned_octagon_has_a_bound():
    """No square method takes it: the bound is that of any slab, and above a fifth of the length."""
    points = [(32 * np.cos(a), 32 * np.sin(a)) for a in np.radians(np.arange(7, 367, 45))]
    from unit.engine.slabs import slab as from_points

    found = layout(from_points(*points), effort=0.5)
    assert found.joint_length / 5 < found.solution.length_bound <= found.joint_length


def test_one_part_at_its_bound_is_the_best():
    assert together([Proof(10.0, 10.0)]) == (Status.OPTIMAL, Proof(10.0, 10.0))


def test_one_part_off_its_bound_is_proven_to_within_a_gap():
    status, proof = together([Proof(10.0, 9.0)])
    assert status is Status.TIME_LIMIT
    assert not proof.closed


def test_costs_and_bounds_of_parts_add_up():
    """Parts that are searched one after the other are no proof of the whole, so the status says so."""
    assert together([Proof(10.0, 10.0), Proof(5.0, 4.0)]) == (Status.PARTS, Proof(15.0, 14.0))


def test_a_part_of_which_nothing_is_proven_spoils_the_proof():
    status, _ = together([Proof(10.0, 10.0), Proof(5.0, 0.0)])
    assert status is Status.HEURISTIC


def test_a_part_without_a_joint_needs_no_proof():
    assert together([Proof(), Proof(5.0, 5.0)])[0] is Status.PARTS
    assert together([Proof()])[0] is Status.OPTIMAL


"""The span of the floor set at 4 in: thirty times as much."""
