"""The rows of a day's time line."""

from dataclasses import replace

from kerfline.sheets.day.text import day_text
from kerfline.sheets.day.time_rows import time_lines
from kerfline.units import Display
from workshop_days import DAY, planned


def test_a_time_line_for_each_day(plan):
    """Three days, three time lines; each shows its own placement and holds its own hours."""
    lines = time_lines(plan.placement, 2.4, Display.FEET_INCHES)
    assert [line.heading for line in lines] == [f"Day {n} against the clock" for n in (1, 2, 3)]
    for number, line in enumerate(lines):
        names = [row.name for row in line.rows]
        assert f"placement {number + 1}" in names
        assert f"cut placement {number + 1}" in names
        assert any(name.startswith("saw 1") for name in names)
        assert 24 * number < line.start < line.end <= 24 * (number + 2)
    assert lines[0].curve
    assert not lines[2].curve


def test_without_weather_there_is_no_graph():
    """Nor a rate in the text."""
    bare = planned(replace(DAY, weather=()))
    assert not time_lines(bare.placement, 2.4, Display.FEET_INCHES)[0].curve
    assert "no weather given" in day_text(bare, Display.FEET_INCHES)
