"""The front of a placement against the clock."""

import math

import numpy as np
import pytest
import shapely
import shapely.affinity

from kerfline.placement.clock import placing_clock

AREA = shapely.box(0, 0, 12000, 6000)
RATE = 10e9  # mm3 per hour


def volume(region):
    """A slab of 100 mm."""
    return float(region.area) * 100.0


def test_one_front_moves_at_the_rate_over_its_section():
    """7.2 m3 at 10 m3/h: 0.72 h from end to end, half way in half the time, either way."""
    clock = placing_clock(AREA, 0.0, 8.0, RATE, math.inf, volume)
    assert clock.at((0, 3000)) == pytest.approx((8.0, 8.0))
    assert clock.at((6000, 100)) == pytest.approx((8.36, 8.36))
    assert clock.at((12000, 5900)) == pytest.approx((8.72, 8.72))
    back = placing_clock(AREA, -180.0, 8.0, RATE, math.inf, volume)
    assert back.at((12000, 3000)) == pytest.approx((8.0, 8.0))


def test_lanes_follow_one_another_and_meet_along_a_line():
    """Two passes of 3 m: the line between them has its first concrete a pass before its last."""
    clock = placing_clock(AREA, 0.0, 8.0, RATE, 3100.0, volume)
    assert len(clock.lanes) == 2
    assert clock.pass_time == pytest.approx(0.36)
    assert clock.at((12000, 1000)) == pytest.approx((8.36, 8.36))
    assert clock.at((0, 5000)) == pytest.approx((8.36, 8.36))
    assert clock.at((6000, 3000)) == pytest.approx((8.18, 8.54))


def test_times_of_many_points_at_once_are_those_of_each():
    """Whatever the lanes: an array gives what each point gives by itself."""
    clock = placing_clock(AREA, 0.0, 8.0, RATE, 3100.0, volume)
    points = np.array([(x, y) for x in range(0, 12001, 1500) for y in (0, 2999, 3000, 6000)])
    first, last = clock.times(points)
    assert [clock.at(p) for p in points] == list(zip(first, last, strict=True))


def test_a_turned_placement_keeps_its_times():
    """The same placement at 30 degrees."""
    turned = shapely.affinity.rotate(AREA, 30, origin=(0, 0))
    clock = placing_clock(turned, 30.0, 8.0, RATE, math.inf, volume)
    end = (12000 * math.cos(math.radians(30)), 12000 * math.sin(math.radians(30)))
    assert clock.at(end) == pytest.approx((8.72, 8.72))
