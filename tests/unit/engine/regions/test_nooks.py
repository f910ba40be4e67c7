"""Bites out of an edge that are smaller than a panel may be are filled, and ask for one joint from a corner."""

from dataclasses import replace
from itertools import product

import pytest
import shapely
from shapely import Polygon, box

from kerfline.engine.regions.features import Rank, features
from kerfline.engine.regions.nooks import without_nooks
from kerfline.engine.regions.orientation import Move, moved, reading
from kerfline.engine.regions.placing import clipped
from kerfline.engine.regions.region import Nook, X, Y
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from unit.engine.plans import region_of

WIDE, HIGH = 9000.0, 6000.0
FLOOR = box(0, 0, WIDE, HIGH)
"""The least width of a panel is 2 ft, 609.6 mm."""


def filled(shape):
    slab = Slab(
        outline=Ring.of(Polygon(shape.exterior)),
        openings=tuple(Ring.of(Polygon(r)) for r in shape.interiors),
        thickness=101.6,
    )
    return without_nooks(region_of(slab))


def bitten(*bites):
    return filled(FLOOR.difference(shapely.union_all([box(*bite) for bite in bites])))


def is_filled(region, shape=FLOOR):
    return region.gross.symmetric_difference(shape).area < 1.0


def test_a_floor_without_bites_stays_the_same():
    region = filled(FLOOR)
    assert is_filled(region)
    assert region.nooks == ()


def test_a_notch_is_filled_and_told_by_its_corners():
    region = bitten((3000, -100, 3400, 300))
    assert is_filled(region)
    assert region.nooks == (Nook(axis=X, low=3000.0, high=3400.0, level=0.0),)


def test_notches_on_all_sides_are_told():
    region = bitten(
        (3000, 0, 3400, 300),
        (3000, 5700, 3400, 6000),
        (0, 2000, 300, 2500),
        (8700, 2000, 9000, 2500),
    )
    assert is_filled(region)
    assert sorted((n.axis, n.low, n.high, n.level) for n in region.nooks) == [
        (X, 3000.0, 3400.0, 0.0),
        (X, 3000.0, 3400.0, 6000.0),
        (Y, 2000.0, 2500.0, 0.0),
        (Y, 2000.0, 2500.0, 9000.0),
    ]


@pytest.mark.parametrize(
    ("bite", "small"),
    [
        ((3000, 0, 3609.0, 300), True),
        ((3000, 0, 3609.2, 300), False),
        ((3000, 0, 3300, 609.0), True),
        ((3000, 0, 3300, 609.2), False),
    ],
)
def test_a_bite_as_wide_or_as_deep_as_a_panel_may_be_is_none(bite, small):
    """A panel may be half a millimetre under 609.6 mm."""
    region = bitten(bite)
    assert is_filled(region) is small
    assert bool(region.nooks) is small


def test_a_bite_out_of_the_slabs_own_corner_is_filled_and_asks_for_nothing():
    region = bitten((8600, 0, 9000, 400))
    assert is_filled(region)
    assert region.nooks == ()


def test_a_pointed_notch_asks_at_its_one_corner():
    region = filled(FLOOR.difference(Polygon([(3000, 0), (3400, 0), (3200, 300)])))
    assert is_filled(region)
    assert region.nooks == (Nook(axis=X, low=3200.0, high=3200.0, level=0.0),)


def test_a_notch_in_the_rim_of_an_opening_is_filled_too():
    """The pit's own rim runs on across it, and its corners stay."""
    pit = box(3000, 2000, 6000, 4000)
    region = filled(FLOOR.difference(pit.union(box(4000, 1700, 4400, 2000))))
    assert is_filled(region, FLOOR.difference(pit))
    assert region.nooks == (Nook(axis=X, low=4000.0, high=4400.0, level=2000.0),)


@pytest.mark.parametrize(
    "shape",
    [
        FLOOR.union(box(3000, -300, 3400, 0)),
        FLOOR.difference(box(4000, 0, 9000, 400)),
        FLOOR.difference(box(3000, 2000, 3400, 2400)),
        FLOOR.difference(box(4000, 3000, 9000, 6000)).difference(box(3700, 2700, 4300, 3300)),
        FLOOR.difference(Polygon([(8700, 0), (9000, 0), (9000, 300)])),
        FLOOR.difference(Polygon([(3000, 0), (3150, 0), (3150, 2000), (3075, 2100), (3000, 2000)])),
        FLOOR.difference(Polygon([(3000, 0), (3900, 0), (3900, 300), (3450, 310), (3000, 300)])),
    ],
    ids=[
        "a sill",
        "a step",
        "a small opening",
        "a pilaster in an inner corner",
        "a chamfer",
        "the tip of a slot",
        "a bite of short sides that is as wide as a panel may be",
    ],
)
def test_what_is_no_bite_out_of_an_edge_stays(shape):
    region = filled(shape)
    assert is_filled(region, shape)
    assert region.nooks == ()


@pytest.mark.parametrize(("step", "one"), [(203.0, True), (204.0, False)])
def test_edges_further_apart_than_a_line_of_the_grid_serves_are_not_one(step, one):
    """The edge to the right of the notch lies lower by a step."""
    shape = FLOOR.union(box(3400, -step, WIDE, 0)).difference(box(3000, -step, 3400, 200))
    assert bool(filled(shape).nooks) is one


def test_a_nook_asks_for_a_line_between_its_corners():
    found = [f for f in features(bitten((3000, 0, 3400, 300))) if f.rank is Rank.NOOK]
    assert [(f.axis, f.at, f.slack) for f in found] == [(X, 3200.0, 200.0)]


MOVES = [Move(flip_x, flip_y, swap) for flip_x, flip_y, swap in product((False, True), repeat=3)]


@pytest.mark.parametrize("move", MOVES)
def test_a_nook_moves_with_its_region(move):
    """Filled and then moved, or moved and then filled: the same."""
    bites = FLOOR.difference(box(3000, 0, 3400, 300)).difference(box(0, 2000, 300, 2500))
    region = region_of(Slab(outline=Ring.of(bites), thickness=101.6))
    first, last = moved(without_nooks(region), move), without_nooks(moved(region, move))
    assert is_filled(first, last.gross)
    assert sorted(n.mouth for n in first.nooks) == sorted(n.mouth for n in last.nooks)
    assert {n.axis for n in first.nooks} == {X, Y}


def test_a_part_of_a_floor_keeps_the_nooks_on_its_own_edge():
    region = bitten((3000, 0, 3400, 300), (0, 2000, 300, 2500))
    right, left = box(2000, 0, WIDE, HIGH), box(0, 1000, 2000, HIGH)
    assert [n.axis for n in clipped(region, right, right).nooks] == [X]
    assert [n.axis for n in clipped(region, left, left).nooks] == [Y]
    assert len(clipped(region, FLOOR, FLOOR).nooks) == 2


def test_what_is_filled_already_stays_told():
    region = bitten((3000, 0, 3400, 300))
    assert without_nooks(region).nooks == region.nooks
    bitten_again = replace(region, gross=region.gross.difference(box(6000, 0, 6400, 300)))
    assert [n.low for n in without_nooks(bitten_again).nooks] == [3000.0, 6000.0]


def test_blocks_that_differ_in_their_nooks_alone_have_no_layout_in_common():
    region = bitten((3000, 0, 3400, 300))
    assert reading(region) != reading(replace(region, nooks=()))
