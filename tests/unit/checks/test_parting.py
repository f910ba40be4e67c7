"""The concrete cut along joints, and cut again after a change: as if afresh, what is far from it untouched."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box

from kerfline.checks.net import EDGE
from kerfline.checks.parting import parted, parted_again

FLOOR = box(0, 0, 12_000, 9000)
GRID = [
    *(LineString([(x, 0), (x, 9000)]) for x in (3000, 6000, 9000)),
    *(LineString([(0, y), (12_000, y)]) for y in (3000, 6000)),
]
BEFORE = parted(FLOOR, GRID)


def nodes(cut):
    """Each node's place with its arms' owners and directions, whatever the order of nodes."""
    return sorted(
        (
            tuple(round(v, 3) + 0.0 for v in n.at),
            tuple((a.joint, round(a.way[0], 6) + 0.0, round(a.way[1], 6) + 0.0) for a in n.arms),
        )
        for n in cut.net.nodes
    )


def pieces(cut):
    owned = zip(cut.net.pieces, cut.net.owners, strict=True)
    return sorted((shapely.normalize(p).wkt, owner) for p, owner in owned)


def assert_as_afresh(given, concrete=FLOOR, before=BEFORE):
    again, fresh = parted_again(before, concrete, given), parted(concrete, given)
    assert [f.polygon.wkb for f in again.faces] == [f.polygon.wkb for f in fresh.faces]
    assert nodes(again) == nodes(fresh)
    assert pieces(again) == pieces(fresh)
    return again


def test_a_grid_closes_its_bays():
    assert len(BEFORE.faces) == 12
    assert sum(f.polygon.area for f in BEFORE.faces) == FLOOR.area


def test_nothing_changed_is_the_very_same_cut():
    assert parted_again(BEFORE, FLOOR, list(GRID)) is BEFORE
    assert parted_again(BEFORE, box(0, 0, 12_000, 9000), list(GRID)) is BEFORE


def test_after_a_change_far_faces_and_nodes_are_the_same_objects():
    half = LineString([(1500, 0), (1500, 3000)])
    again = assert_as_afresh([*GRID, half])
    assert len(again.faces) == 13
    kept = {id(f) for f in BEFORE.faces} & {id(f) for f in again.faces}
    assert len(kept) >= 8
    assert {id(n) for n in BEFORE.net.nodes} & {id(n) for n in again.net.nodes}


@pytest.mark.parametrize("gone", range(5))
def test_a_joint_taken_out_renumbers_those_after_it(gone):
    again = assert_as_afresh([li for i, li in enumerate(GRID) if i != gone])
    assert set(again.net.owners) == {EDGE, 0, 1, 2, 3}


def test_joints_in_another_order_have_other_numbers():
    assert_as_afresh(GRID[::-1])


def test_of_two_joints_on_each_other_the_first_owns_them_again():
    assert_as_afresh([GRID[0], *GRID])


def test_the_edge_may_change():
    assert_as_afresh(GRID, concrete=FLOOR - box(0, 0, 500, 500))
    assert_as_afresh(GRID, concrete=box(0, 0, 12_000, 9500))


def test_from_no_joints_to_some_and_back():
    bare = parted(FLOOR, [])
    assert len(bare.faces) == 1
    assert_as_afresh(GRID, before=bare)
    assert_as_afresh([])


@settings(max_examples=25)
@given(
    st.sets(st.integers(0, 4), max_size=2),
    st.lists(st.tuples(*(st.integers(-1, 13),) * 4), max_size=2),
)
def test_whatever_comes_and_goes_it_is_cut_as_afresh(gone, drawn):
    """Joints between points of a grid of 1 m, over the edge too."""
    kept = [li for i, li in enumerate(GRID) if i not in gone]
    new = [
        LineString([(x0 * 1000, y0 * 1000), (x1 * 1000, y1 * 1000)])
        for x0, y0, x1, y1 in drawn
        if (x0, y0) != (x1, y1)
    ]
    assert_as_afresh([*kept, *new])
