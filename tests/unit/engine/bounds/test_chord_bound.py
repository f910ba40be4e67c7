"""The chord bound: never above a layout found, against every division of small floors, and by hand."""

import numpy as np
import pytest
from hypothesis import given, settings

from kerfline.engine.bounds.chord_bound import length_bound
from kerfline.engine.lines.lattice import GridLine, Lattice, lattice
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition.grid import grid
from kerfline.engine.regions.features import Rank, model_outline
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, GivenJoint, Slab, Wall
from kerfline.units import MM_PER_FOOT
from strategies import turned_slabs
from unit.engine.divided import cells_of, pieces_of, shortest, size_of
from unit.engine.plans import EL, FOUR_INCHES, HOUSE, RULES, box, layout, slab
from unit.engine.plans import region_of as placed
from unit.engine.plans import ring as feet_ring
from unit.engine.plans import wall as feet_wall
from unit.engine.slabs import SHAPES

FOUND = {
    **{
        name: SHAPES[name] for name in ("tapered drive", "bay window", "ring walk", "diagonal wall")
    },
    "house": HOUSE,
    "L": slab(EL),
}
"""Slabs of each kind: slanted, turned in part, round, walled."""


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


FOOT = MM_PER_FOOT
TEN_FEET = 10 * FOOT

UNIT = 762.0
"""A quarter of the span of a slab of 4 in, 10 ft: panels are up to 4 units a side."""

ASPECT = 1.5


def in_mm(*points):
    return tuple((x * UNIT, y * UNIT) for x, y in points)


def wall(*points):
    return Wall(id="W1", path=in_mm(*points), thickness=100.0)


def column(*at):
    return Column(id="C1", at=in_mm(at)[0], size=100.0, boxout=Boxout.NONE)


def pinned(*points):
    return GivenJoint(id="G1", path=in_mm(*points))


BOX = ((0, 0), (9, 0), (9, 5), (0, 5))
ELL = ((0, 0), (8, 0), (8, 3), (3, 3), (3, 7), (0, 7))
TEE = ((0, 0), (9, 0), (9, 3), (6, 3), (6, 6), (3, 6), (3, 3), (0, 3))

CASES = {
    "plain": (BOX, {}),
    "wall": (BOX, {"walls": (wall((3, 0), (3, 5)),)}),
    "wall in the open": (BOX, {"walls": (wall((2, 2), (7, 2)),)}),
    "column": (BOX, {"columns": (column(3, 2),)}),
    "column off the bays": (BOX, {"columns": (column(5, 1),)}),
    "given joint": (BOX, {"joints": (pinned((0, 2), (9, 2)),)}),
    "L": (ELL, {}),
    "L with a wall": (ELL, {"walls": (wall((3, 0), (3, 3)),)}),
    "T": (TEE, {}),
    "T with a column": (TEE, {"columns": (column(4, 2),)}),
}


REENTRANT = {BOX: (), ELL: ((3, 3),), TEE: ((6, 3), (3, 3))}

NEAR = {"column off the bays": 0.85, "T with a column": 0.9}
"""Share of the length that the bound reaches; all of it elsewhere. What of a joint a column does not ask for may
be left out, but the bound does not see that panels beside it must then be small."""


def region_of(ring, given):
    slab = Slab(outline=Ring(in_mm(*ring)), thickness=FOUR_INCHES, **given)
    return placed_region(slab, RULES, EngineOptions(), gross=slab.gross, angle=0.0).region


def bound_of(ring, given, pieces, aspect=None):
    """The engine's bound of a division into those pieces, in units."""
    region = region_of(ring, given)
    lines = tuple(
        tuple(GridLine(at=n * UNIT, rank=Rank.EDGE) for n in range(count + 1))
        for count in size_of(ring)
    )
    net = grid(region, Lattice(lines=lines, outline=model_outline(region)), Weights())
    joints = tuple(np.zeros_like(net.interior[a]) for a in (0, 1))
    for axis, line, piece in pieces:
        joints[axis][line, piece] = True
    return length_bound(net, region, joints, aspect=aspect) / UNIT


def needed(given):
    """The pieces that a wall or a given joint covers."""
    found = set()
    for line in (*given.get("walls", ()), *given.get("joints", ())):
        (x0, y0), (x1, y1) = (in_units(at) for at in line.path)
        axis = 0 if x0 == x1 else 1
        low, high = sorted((y0, y1) if axis == 0 else (x0, x1))
        found |= {(axis, x0 if axis == 0 else y0, n) for n in range(low, high)}
    return frozenset(found)


def in_units(at):
    return tuple(round(v / UNIT) for v in at)


def onward(pieces, axis, at, *, crossed):
    """The joint through a place on an axis, both ways: to its ends, or as far as another meets it."""
    line, node = at[axis], at[1 - axis]
    for way in (-1, 1):
        piece = node if way > 0 else node - 1
        while (axis, line, piece) in pieces:
            yield axis, line, piece
            piece += way
            met = piece if way > 0 else piece + 1
            if crossed and {(1 - axis, met, line - 1), (1 - axis, met, line)} & pieces:
                break


def duties_of(ring, given, pieces):
    """What a division must keep: joints under walls, through columns, from corners, as far as they are owed."""
    found = set(needed(given))
    ends = [in_units(at) for w in given.get("walls", ()) for at in w.path]
    for axis in (0, 1):
        for post in given.get("columns", ()):
            found |= set(onward(pieces, axis, in_units(post.at), crossed=False))
        for corner in REENTRANT[ring]:
            found |= set(onward(pieces, axis, corner, crossed=True))
        for w in given.get("walls", ()):
            along = 0 if w.path[0][0] == w.path[1][0] else 1
            for end in ends if axis == along else ():
                found |= set(onward(pieces, axis, end, crossed=True))
    return frozenset(found)


def cross(ring, given):
    """The whole lines through a column."""
    (wide, high), cells, found = size_of(ring), cells_of(ring), set()
    for post in given.get("columns", ()):
        x, y = in_units(post.at)
        found |= {(0, x, n) for n in range(high) if {(x - 1, n), (x, n)} <= cells}
        found |= {(1, y, n) for n in range(wide) if {(n, y - 1), (n, y)} <= cells}
    return frozenset(found)


@pytest.mark.parametrize("aspect", [1.0, 4 / 3, ASPECT])
@pytest.mark.parametrize("name", CASES)
def test_no_division_with_the_same_duties_is_shorter_than_the_bound(name, aspect):
    ring, given = CASES[name]
    length, rectangles = shortest(ring, needed(given) | cross(ring, given), aspect)
    pieces = pieces_of(ring, rectangles)
    assert length == len(pieces)
    least, _ = shortest(ring, duties_of(ring, given, pieces), aspect)
    assert bound_of(ring, given, pieces, aspect) <= least + 1e-6


@pytest.mark.parametrize("name", CASES)
def test_the_bound_is_near_the_shortest(name):
    ring, given = CASES[name]
    length, rectangles = shortest(ring, needed(given) | cross(ring, given))
    assert bound_of(ring, given, pieces_of(ring, rectangles)) >= NEAR.get(name, 1.0) * length - 1e-6


def bound(plan, joints=True):
    """The bound in feet; whether walls have their joints."""
    region = placed(plan)
    net = grid(region, lattice(region, 40, TEN_FEET), Weights())
    taken = tuple(i & joints for i in net.interior)
    return length_bound(net, region, taken) / FOOT


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
    assert bound(slab(EL), joints=False) == pytest.approx(3 * 18 + 2 * 18 + 3 * 22 + 18)


def test_a_joint_under_a_wall_counts_whole_and_divides_the_chords():
    """A wall up the middle of 30 x 20 ft at 13 ft: the wall's 20 ft, 1 x 20 on either side, 1 x 30 across."""
    plan = slab(box(30, 20), walls=(feet_wall("W1", (13, 0), (13, 20)),))
    assert bound(plan) == pytest.approx(20 + 20 + 20 + 30)
    assert bound(plan, joints=False) == pytest.approx(2 * 20 + 30)


def test_boxouts_save_what_joints_need_not_cross():
    """40 x 30 ft: 3 x 30 and 2 x 40, less 2 ft each way; lines through the column make bays of 15 ft two each."""
    column = Column(id="C1", at=(20 * FOOT, 15 * FOOT), boxout=Boxout.SQUARE, size=2 * FOOT)
    plan = slab(box(40, 30), columns=(column,))
    assert bound(plan, joints=False) == pytest.approx(3 * 30 + 2 * 40 - 4)
    assert bound(plan) == pytest.approx(3 * 30 + 3 * 40 - 4)


@pytest.mark.parametrize("rise", [0.002, 0.004, 0.02])
def test_a_surveyed_outline_is_never_asked_for_more_than_its_own_chords(rise):
    """An upper edge that rises from 30 ft by a hair: the chords that are longer than 30 ft and half a millimetre
    need a third joint, the others two."""
    strayed = slab(feet_ring((0, 0), (40, 0), (40, 30 + rise), (0, 30)))
    long = max(0.0, 1.0 - 0.5 / (rise * FOOT)) * 40
    assert 150 < bound(strayed) <= 3 * (30 + rise) + 2 * 40 + long


def test_only_chords_beside_a_strayed_edge_are_asked_for_less():
    """A strip of 5 ft keeps its cuts at 7.5 ft wherever else the outline strays by 1 in; a tower's lose their ends."""
    straight, strayed = (
        ((0, 0), (45.1, 0), (45.1, 5), (20, 5), (20, 35), *edge, (0, 35))
        for edge in ((), ((10, 35), (10, 35 + 1 / 12)))
    )
    found, plain = (bound(slab(feet_ring(*r)), joints=False) for r in (strayed, straight))
    assert plain - 0.5 < found < plain - 0.1


def test_the_bound_is_that_of_panels_of_the_advised_aspect_where_a_layout_keeps_it():
    """A walk of 60 x 3 ft in bays of 3.75 ft, 1.25 times as long as wide: no fewer do; at 1.5 twelve cuts would."""
    found = layout(slab(box(60, 3)))
    assert found.joint_length == pytest.approx(15 * 3 * FOOT)
    assert found.solution.length_bound == pytest.approx(15 * 3 * FOOT)


PLANS = {
    "hall": slab(box(41, 23)),
    "ell": slab(EL),
    "walled": slab(EL, walls=(feet_wall("W1", (0, 18), (22, 18)),)),
    "strip": slab(box(47, 4)),
}


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_no_layout_has_less(plan):
    found = layout(plan, effort=0.2)
    assert 0 < found.solution.length_bound <= found.joint_length + 1.0
