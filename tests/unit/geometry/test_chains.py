"""Loose paths joined end to end."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString

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


PLACES = st.tuples(st.floats(-900, 900), st.floats(-900, 900))


@given(PLACES, PLACES, PLACES, PLACES)
def test_lines_cross_where_the_library_says_that_they_do(a, b, c, d):
    """Carried on by 10 m either way; nothing where they cross at under 20 degrees or farther off."""
    assume(math.dist(a, b) > 1 and math.dist(c, d) > 1)
    found = crossing((a, b), (c, d), 5000)
    turn = abs(math.atan2(b[1] - a[1], b[0] - a[0]) - math.atan2(d[1] - c[1], d[0] - c[0]))
    flat = min(turn % math.pi, math.pi - turn % math.pi)
    assume(abs(flat - math.asin(math.sin(0.34))) > 1e-6)
    if flat < 0.34:
        assert found is None
        return
    met = carried(a, b).intersection(carried(c, d))
    near = max(math.dist((met.x, met.y), b), math.dist((met.x, met.y), d))
    assume(abs(near - 5000) > 1e-3)
    assert found == (pytest.approx((met.x, met.y), abs=1e-3) if near < 5000 else None)


def carried(a, b):
    size = math.dist(a, b)
    x, y = (b[0] - a[0]) / size * 1e5, (b[1] - a[1]) / size * 1e5
    return LineString([(a[0] - x, a[1] - y), (b[0] + x, b[1] + y)])


def test_a_chain_is_closed_over_a_gap_that_is_small_against_itself_whatever_the_others_are():
    """A horseshoe of 8 m with a gap of 0.5 m closes; one of 1 m with the same gap stays open."""
    long = Path(((0, 0), (0, 90_000)))
    wide = Path(((20_000, 0), (22_500, 0), (22_500, 2_500), (20_000, 2_500), (20_000, 500)))
    small = Path(((40_000, 0), (40_300, 0), (40_300, 500), (40_000, 500)))
    for order in ([long, wide, small], [small, long, wide], [wide, small, long]):
        found = join(order, 500.0)
        assert [p.length for p in found.rings] == [pytest.approx(10_000, rel=0.01)]
