"""The chord bound: no layout has less joint; on even halls it is the joint length itself."""

import pytest

from kerfline.engine.lines.lattice import lattice
from kerfline.engine.options import Weights
from kerfline.engine.partition.chord_bound import length_bound
from kerfline.engine.partition.grid import grid
from kerfline.model.slab import Boxout, Column
from unit.engine.plans import EL, MM_PER_FOOT, box, layout, region_of, ring, slab, wall

FOOT = MM_PER_FOOT
SPAN = 10 * FOOT
"""Thirty times 4 in."""


def bound(plan, joints=True):
    """The bound in feet; whether walls have their joints."""
    region = region_of(plan)
    net = grid(region, lattice(region, 40, SPAN), Weights())
    taken = tuple(i & joints for i in net.interior)
    return length_bound(net, region, SPAN, taken) / FOOT


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
