"""Dark and light: from when it is dark, whether all through, and the changes in a stretch of the clock."""

import math

import pytest

from kerfline.placement.light import Daylight

DAY = Daylight(rise=6.0, set=20.0)
NEVER_DARK = Daylight(rise=-math.inf, set=math.inf)
NEVER_LIGHT = Daylight(rise=12.0, set=12.0)


@pytest.mark.parametrize(
    ("start", "end", "dark"),
    [
        (6.0, 20.0, None),
        (5.9, 7.0, 5.9),
        (8.0, 20.1, 20.0),
        (20.0, 21.0, 20.0),
        (28.0, 29.0, 28.0),
        (30.0, 43.0, None),
        (8.0, math.inf, None),
    ],
)
def test_from_when_it_is_dark(start, end, dark):
    """By hand, sunrise 6 and sunset 20; hours past 24 are those of the next day."""
    assert DAY.dark_from(start, end) == dark
    assert DAY.dark(start, end) is (dark is not None)


@pytest.mark.parametrize(
    ("start", "end", "through"),
    [
        (20.0, 30.0, True),
        (21.0, 29.0, True),
        (20.0, 30.1, False),
        (19.9, 25.0, False),
        (1.0, 6.0, True),
        (1.0, 6.1, False),
        (8.0, 12.0, False),
    ],
)
def test_whether_it_is_dark_all_through(start, end, through):
    assert DAY.dark_all_through(start, end) is through


def test_sunrises_and_sunsets_in_their_order():
    assert DAY.changes(5.0, 31.0) == ((6.0, "sunrise"), (20.0, "sunset"), (30.0, "sunrise"))
    assert DAY.changes(6.0, 20.0) == ()
    assert DAY.changes(7.0, 19.0) == ()


def test_where_the_sun_does_not_set_or_rise():
    assert NEVER_DARK.dark_from(0.0, 40.0) is None
    assert NEVER_DARK.changes(0.0, 48.0) == ()
    assert NEVER_LIGHT.dark_all_through(0.0, 40.0)
    assert NEVER_LIGHT.changes(0.0, 48.0) == ()
