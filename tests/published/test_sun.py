"""Sunrise and sunset against an independent library.

The code follows NOAA's "General Solar Position Calculations"; the library is ``astral`` 3.2 (Apache 2.0), which
works with the longer series of Meeus, Astronomical Algorithms, 2nd edition, chapter 25. Its times were
written down once, by the clock of each place.
"""

from datetime import date

import pytest

from kerfline.placement.light import sun

ROWS = [
    ((39.74, -104.99, -7), "2026-03-20", "06:03", "18:11"),
    ((39.74, -104.99, -7), "2026-06-14", "04:31", "19:29"),
    ((39.74, -104.99, -7), "2026-11-01", "06:28", "16:57"),
    ((39.74, -104.99, -7), "2026-12-21", "07:17", "16:38"),
    ((51.48, 0.0, 0), "2026-03-20", "06:03", "18:12"),
    ((51.48, 0.0, 0), "2026-06-14", "03:42", "20:17"),
    ((51.48, 0.0, 0), "2026-11-01", "06:53", "16:32"),
    ((51.48, 0.0, 0), "2026-12-21", "08:03", "15:52"),
    ((-33.87, 151.21, 10), "2026-03-20", "05:58", "18:06"),
    ((-33.87, 151.21, 10), "2026-06-14", "06:58", "16:52"),
    ((-33.87, 151.21, 10), "2026-11-01", "04:55", "18:22"),
    ((-33.87, 151.21, 10), "2026-12-21", "04:40", "19:05"),
    ((60.17, 24.94, 2), "2026-03-20", "06:22", "18:34"),
    ((60.17, 24.94, 2), "2026-06-14", "02:55", "21:45"),
    ((60.17, 24.94, 2), "2026-11-01", "07:43", "16:23"),
    ((60.17, 24.94, 2), "2026-12-21", "09:24", "15:12"),
    ((1.35, 103.82, 8), "2026-03-20", "07:09", "19:15"),
    ((1.35, 103.82, 8), "2026-06-14", "06:59", "19:10"),
    ((1.35, 103.82, 8), "2026-11-01", "06:46", "18:50"),
    ((1.35, 103.82, 8), "2026-12-21", "07:01", "19:03"),
]
"""Latitude, longitude and hours before universal time; date; sunrise and sunset by that clock."""


def minutes(clock):
    hour, minute = clock.split(":")
    return 60 * int(hour) + int(minute)


@pytest.mark.parametrize(("place", "when", "rise", "set_"), ROWS)
def test_sunrise_and_sunset(place, when, rise, set_):
    """Within five minutes, as good as the short series is."""
    latitude, longitude, offset = place
    found = sun(date.fromisoformat(when), latitude, longitude, offset)
    assert found.rise * 60 == pytest.approx(minutes(rise), abs=5)
    assert found.set * 60 == pytest.approx(minutes(set_), abs=5)


def test_where_the_sun_never_sets_or_never_rises():
    """Tromsø, 69.6 degrees north: light all day at midsummer, none at midwinter."""
    summer = sun(date(2026, 6, 21), 69.65, 18.96, 1)
    assert not summer.dark(0.0, 23.9)
    winter = sun(date(2026, 12, 21), 69.65, 18.96, 1)
    assert winter.dark(11.0, 12.5)
