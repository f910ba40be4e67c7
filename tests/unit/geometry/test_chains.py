"""Loose paths joined end to end."""

import math
from itertools import pairwise

import pytest

from kerfline.geometry.chains import Gap, crossing, join, loose_gaps, places, unlike
from kerfline.geometry.paths import Path

BOX = [(0, 0), (1000, 0), (1000, 500), (0, 500)]


def lines(*points):
    return [Path((a, b)) for a, b in pairwise(points)]


def test_four_lines_are_one_ring():
    joined = join(lines(*BOX, BOX[0]), 25)
    (ring,) = joined.rings
    assert ring.closed
    assert sorted(ring.points) == sorted(BOX)
    assert joined.open == joined.closed == ()


def test_ends_that_nearly_meet_are_one_place():
    assert places([(0, 0), (0.3, 0), (5, 0), (5.2, 0.1), (9, 0)]) == [0, 0, 2, 2, 4]
    assert places([]) == []


def test_paths_are_not_joined_through_a_junction():
    joined = join([*lines((0, 0), (100, 0), (200, 0)), Path(((100, 0), (100, 50)))], 0)
    assert len(joined.open) == 3


def test_nearest_ends_are_joined_first():
    # three loose ends in a row: 5 apart, then 8 apart
    joined = join(
        [Path(((0, 0), (100, 0))), Path(((105, 0), (200, 0))), Path(((208, 0), (300, 0)))], 6
    )
    assert [g.size for g in joined.closed] == [5]
    assert len(joined.open) == 2


def test_a_gap_at_a_corner_is_closed_at_the_crossing():
    joined = join([Path(((0, 0), (95, 0))), Path(((100, 5), (100, 90)))], 10)
    (chain,) = joined.open
    assert chain.points == ((0, 0), (100, 0), (100, 90))


def test_a_gap_beside_an_arc_is_closed_by_a_straight_piece():
    quarter = math.tan(math.radians(90) / 4)
    joined = join([Path(((0, 0), (95, 0))), Path(((100, 5), (200, 105)), (quarter, 0))], 10)
    (chain,) = joined.open
    assert chain.points == ((0, 0), (95, 0), (100, 5), (200, 105))
    assert chain.bulges == pytest.approx((0, 0, quarter, 0))


def test_a_short_line_does_not_close_on_itself():
    joined = join([Path(((0, 0), (20, 0)))], 25)
    assert joined.rings == ()
    assert len(joined.open) == 1


def test_two_arcs_are_a_ring():
    joined = join([Path(((0, 0), (10, 0)), (1, 0)), Path(((0, 0), (10, 0)), (-1, 0))], 0)
    (ring,) = joined.rings
    assert ring.ring().polygon.area == pytest.approx(math.pi * 25, rel=2e-2)


def test_paths_drawn_twice_count_once():
    path = Path(((0, 0), (10, 0), (10, 10)))
    assert unlike([path, path.reversed(), path]) == [path]


def test_gaps_are_listed_the_smallest_first():
    gaps = loose_gaps(
        [Path(((0, 0), (100, 0))), Path(((103, 0), (200, 0))), Path(((210, 0), (300, 0)))]
    )
    assert gaps[:2] == [Gap((100, 0), (103, 0)), Gap((200, 0), (210, 0))]
    assert loose_gaps([]) == []


def test_flat_lines_do_not_cross():
    assert crossing(((0, 0), (100, 0)), ((300, 5), (110, 1)), 50) is None
    assert crossing(((0, 0), (100, 0)), ((110, 90), (110, 10)), 50) == pytest.approx((110, 0))
    assert crossing(((0, 0), (100, 0)), ((300, 90), (300, 10)), 50) is None


def test_chains_come_by_their_lower_free_end_then_rings_by_their_first_path():
    left, right = lines((0, 900), (100, 900), (200, 900))
    square = lines(*BOX, BOX[0])
    joined = join([*square[:2], right, left, *square[2:]], 0)
    (ring,), (chain,) = joined.rings, joined.open
    assert ring.points == tuple(BOX), "the way its first path runs"
    assert chain.points == ((200, 900), (100, 900), (0, 900)), (
        "from the free end of the first given"
    )


def test_one_path_that_comes_back_to_its_start_is_a_ring():
    (ring,) = join([Path((*BOX, (0.0, 0.2)))], 0).rings
    assert ring.points[1:] == tuple(BOX[1:])


@pytest.mark.parametrize(("gap", "rings"), [(20, 1), (140, 1), (150, 0)])
def test_a_long_chain_closes_on_itself_over_a_tenth_of_its_length(gap, rings):
    """The line is 1600 mm less the gap: 140 mm are less than a tenth of the rest of it, 150 mm are more."""
    points = [(gap, 0), (500, 0), (500, 300), (0, 300), (0, 0)]
    joined = join(lines(*points), 200)
    assert len(joined.rings) == rings
    assert [g.size for g in joined.closed] == [gap] * rings
