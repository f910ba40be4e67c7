"""What is proven of a layout: the least joint length of any, and of parts what is proven of each."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings

from kerfline.engine.lines.lattice import lattice
from kerfline.engine.options import Weights
from kerfline.engine.partition.bounds import (
    SQUARE,
    Proof,
    least_length,
    length_bound,
    together,
)
from kerfline.engine.partition.grid import grid
from kerfline.model.layout import Status
from kerfline.model.slab import Boxout, Column
from kerfline.units import MM_PER_FOOT
from strategies import turned_slabs
from unit.engine.plans import EL, HOUSE, RULES, box, layout, region_of, ring, slab, wall
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


FOOT = MM_PER_FOOT
TEN_FEET = 10 * FOOT
"""The span of the floor set at 4 in: thirty times as much."""


def bound(plan, joints=True):
    """The bound in feet; whether walls have their joints."""
    region = region_of(plan)
    net = grid(region, lattice(region, 40, TEN_FEET), Weights())
    taken = tuple(i & joints for i in net.interior)
    return length_bound(net, region, TEN_FEET, taken) / FOOT


@pytest.mark.parametrize(
    ("wide", "deep", "feet"),
    [
        (40, 30, 3 * 30 + 2 * 40),
        (40.001, 30, 3 * 30 + 2 * 40.001),
        (40.01, 30, 4 * 30 + 2 * 40.01),
        (10, 10, 0),
        (9, 8, 0),
        (40, 5, 5 * 5),
        (40, 6, 4 * 6),
    ],
)
def test_a_hall_by_hand(wide, deep, feet):
    """ceil(s / L) - 1 joints across each chord; in a strip of 5 ft L is 1.5 times that, in one of 6 ft 9 ft."""
    assert bound(slab(box(wide, deep))) == pytest.approx(feet)


def test_an_ell_is_the_sum_of_its_rows():
    """40 x 18 ft and 22 x 18 ft above: rows of 40 ft take 3 x 18, of 22 ft 2 x 18; columns of 36 ft under
    the tower 3 x 22, of 18 ft 18 x 1."""
    assert bound(slab(EL)) == pytest.approx(3 * 18 + 2 * 18 + 3 * 22 + 18)


def test_a_joint_under_a_wall_counts_whole_and_divides_the_chords():
    """A wall up the middle of 30 x 20 ft at 13 ft: the wall's 20 ft, 1 x 20 on either side, 1 x 30 across."""
    plan = slab(box(30, 20), walls=(wall("W1", (13, 0), (13, 20)),))
    assert bound(plan) == pytest.approx(20 + 20 + 20 + 30)
    assert bound(plan, joints=False) == pytest.approx(2 * 20 + 30)


def test_boxouts_save_what_joints_need_not_cross():
    column = Column(id="C1", at=(20 * FOOT, 15 * FOOT), boxout=Boxout.SQUARE, size=2 * FOOT)
    assert bound(slab(box(40, 30), columns=(column,))) == pytest.approx(170 - 4)


@pytest.mark.parametrize("rise", [0.002, 0.004, 0.02])
def test_a_surveyed_outline_is_never_asked_for_more_than_its_own_chords(rise):
    """An upper edge that rises from 30 ft by a hair: the chords that are longer than 30 ft and half a millimetre
    need a third joint, the others two."""
    strayed = slab(ring((0, 0), (40, 0), (40, 30 + rise), (0, 30)))
    long = max(0.0, 1.0 - 0.5 / (rise * FOOT)) * 40
    assert 150 < bound(strayed) <= 3 * (30 + rise) + 2 * 40 + long


PLANS = {
    "hall": slab(box(41, 23)),
    "ell": slab(EL),
    "walled": slab(EL, walls=(wall("W1", (0, 18), (22, 18)),)),
    "strip": slab(box(47, 4)),
}


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_no_layout_has_less(plan):
    found = layout(plan, effort=0.2)
    assert 0 < found.solution.length_bound <= found.joint_length + 1.0
