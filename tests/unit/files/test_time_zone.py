"""Time zones of a site, and its clock."""

import datetime

import pytest

from kerfline.files.time_zone import SiteClock, zone_of

LAST = "2026-03-28"
"""The day before summer time begins in Berlin: 29 March 2026, 2:00 to 3:00 (tz database, zone Europe/Berlin)."""

BERLIN = zone_of("Europe/Berlin")


@pytest.mark.parametrize(
    ("name", "hours"), [("UTC", 0), ("z", 0), ("-07:00", -7), ("+0530", 5.5), ("+14:00", 14)]
)
def test_an_offset_is_a_zone(name, hours):
    assert zone_of(name).utcoffset(None) == datetime.timedelta(hours=hours)


@pytest.mark.parametrize("name", ["", "Moon/Base", "+15:00", "+01:60", "7", "../etc/passwd"])
def test_what_is_no_zone(name):
    assert zone_of(name) is None


def test_hours_count_from_midnight_by_the_clock_at_the_first_truck():
    clock = SiteClock.at("2026-06-14", 6.5, BERLIN)
    assert clock.utc_offset == 2
    moment = datetime.datetime(2026, 6, 14, 10, 0, tzinfo=datetime.UTC)
    assert clock.clock(moment, 0.0) == 12.0
    assert clock.clock(datetime.datetime.fromisoformat("2026-06-15T03:30"), 0.0) == 27.5


def test_a_change_of_the_clock_is_told_with_its_hour():
    assert SiteClock.at(LAST, 6.0, BERLIN).change() == (26.0, 1.0)
    assert SiteClock.at("2026-06-14", 6.0, BERLIN).change() is None
    assert SiteClock.at(LAST, 6.0, zone_of("-07:00")).change() is None


def test_of_an_hour_that_comes_twice_the_second_is_meant_after_the_first():
    """On 25 October 2026 the clock goes back from 3:00 to 2:00; 2:30 comes at 2.5 and at 3.5 h after midnight."""
    clock = SiteClock.at("2026-10-25", 0.0, BERLIN)
    moment = datetime.datetime.fromisoformat("2026-10-25T02:30")
    assert clock.clock(moment, 1.0) == 2.5
    assert clock.clock(moment, 2.5) == 3.5


def test_where_the_first_truck_is_not_known_the_clock_is_that_of_noon():
    assert SiteClock.at("2026-03-29", None, BERLIN).utc_offset == 2
    assert SiteClock.at("2026-03-29", 1.0, BERLIN).utc_offset == 1
