"""The order of the placements, their days and their clocks."""

import math

import pytest
import shapely
from shapely import MultiPolygon

from kerfline.model.day import Side
from kerfline.placement.division import DayLimit, Sizes
from kerfline.placement.pour_order import Site, against_the_clock, in_order

DEPTH = 100.0
BAYS = tuple(shapely.box(x, 0, x + 4000, 6000) for x in range(0, 16_000, 4000))
"""Four bays of 4 x 6 m in a row, 2.4 m3 each."""


def site(*, sides=(Side.LEFT,), limit=None, starts=(7.0,), rate=2.4e9, polygons=BAYS):
    return Site(
        bounds=shapely.total_bounds(polygons),
        panels=tuple(f"P{i}" for i in range(1, len(polygons) + 1)),
        sizes=Sizes(
            volumes=[p.area * DEPTH for p in polygons], polygons=polygons, holes=MultiPolygon()
        ),
        sides=sides,
        limit=limit or DayLimit(),
        starts=starts,
        rate=rate,
        volume_of=lambda region: float(region.area) * DEPTH,
    )


REGIONS = [0b0001, 0b0010, 0b0100, 0b1000]


@pytest.mark.parametrize(
    ("sides", "order"),
    [
        ((Side.LEFT,), [3, 2, 1, 0]),
        ((Side.RIGHT,), [0, 1, 2, 3]),
        ((Side.BOTTOM,), [0, 1, 2, 3]),
        ((Side.LEFT, Side.RIGHT), [1, 2, 0, 3]),
    ],
)
def test_the_farthest_from_the_trucks_comes_first_and_of_equals_the_leftmost(sides, order):
    assert in_order(REGIONS, site(sides=sides)) == [REGIONS[i] for i in order]


@pytest.mark.parametrize(
    ("side", "reach"),
    [(Side.LEFT, 1000), (Side.RIGHT, 15_000), (Side.BOTTOM, 2000), (Side.TOP, 4000)],
)
def test_reach_is_the_distance_from_the_trucks_side(side, reach):
    assert site(sides=(side,)).reach((1000, 2000)) == reach
    assert site(sides=tuple(Side)).reach((1000, 2000)) == 1000


def test_placements_of_one_day_follow_each_other():
    """2.4 m3 at 2.4 m3/h: an hour each from 7 on."""
    pours = against_the_clock(REGIONS, site())
    assert [(p.id, p.day, p.start) for p in pours] == [
        ("1", 1, 7),
        ("2", 1, 8),
        ("3", 1, 9),
        ("4", 1, 10),
    ]
    assert [p.end for p in pours] == pytest.approx([8, 9, 10, 11])
    assert [p.panels for p in pours] == [("P1",), ("P2",), ("P3",), ("P4",)]


@pytest.mark.parametrize(
    ("limit", "days"),
    [
        (DayLimit(volume=4.8e9), [1, 1, 2, 2]),
        (DayLimit(volume=4.7e9), [1, 2, 3, 4]),
        (DayLimit(area=72e6), [1, 1, 1, 2]),
        (DayLimit(area=48e6, volume=2.4e9), [1, 2, 3, 4]),
        (DayLimit(volume=1e9), [1, 2, 3, 4]),
        (DayLimit(), [1, 1, 1, 1]),
    ],
)
def test_a_day_takes_what_its_limit_allows_and_at_least_one_placement(limit, days):
    """24 m2 and 2.4 m3 each; what fills the day to its limit still fits."""
    pours = against_the_clock(REGIONS, site(limit=limit))
    assert [p.day for p in pours] == days
    first = {p.day: p.start for p in reversed(pours)}
    assert all(start == 7 + 24 * (day - 1) for day, start in first.items())


def test_given_starts_hold_unless_the_placement_before_is_not_through():
    """Starts at 7, 7.5 and 12: the second waits until 8; the fourth follows the third."""
    pours = against_the_clock(REGIONS, site(starts=(7.0, 7.5, 12.0)))
    assert [p.start for p in pours] == [7.0, 8.0, 12.0, 13.0]


def test_a_second_day_begins_with_the_first_start_again():
    pours = against_the_clock(REGIONS, site(starts=(6.0, 10.0), limit=DayLimit(volume=4.8e9)))
    assert [p.start for p in pours] == [6.0, 10.0, 30.0, 34.0]


def test_placing_backs_towards_the_trucks_along_the_long_side():
    """Trucks at the left: the far right end of a row of bays gets its concrete first."""
    (whole,) = against_the_clock([0b1111], site())
    (first, _), (last, _) = whole.clock.at((16_000, 3000)), whole.clock.at((0, 3000))
    assert (first, last) == pytest.approx((7.0, 11.0))
    (other,) = against_the_clock([0b1111], site(sides=(Side.RIGHT,)))
    assert other.clock.at((16_000, 3000))[0] == pytest.approx(11.0)


def test_a_placement_knows_its_size_reach_and_width():
    (whole,) = against_the_clock([0b1111], site())
    assert (whole.volume, whole.reach) == (9.6e9, 16_000)
    assert whole.width == pytest.approx(6000)
    assert whole.area.area == pytest.approx(96e6)
    assert whole.near.contains(shapely.Point(16_000.4, 3000))
    assert not whole.near.contains(shapely.Point(16_000.6, 3000))


def test_an_ell_names_the_corner_that_it_wraps():
    three = (*BAYS[:2], shapely.box(0, 6000, 4000, 12_000))
    (ell,) = against_the_clock([0b111], site(polygons=three))
    assert [pytest.approx(c, abs=1.0) for c in ell.corners] == [(4000, 6000)]
    assert against_the_clock([0b011], site(polygons=three))[0].corners == ()


def test_a_pour_without_end_of_day_has_one_front():
    (whole,) = against_the_clock([0b1111], site(limit=DayLimit(screed=math.inf)))
    assert len(whole.clock.lanes) == 1
    (lanes,) = against_the_clock([0b1111], site(limit=DayLimit(screed=3000.0)))
    assert len(lanes.clock.lanes) == 2
