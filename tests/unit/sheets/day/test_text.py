"""The placement day as plain text."""

import math
import re
from types import SimpleNamespace

from kerfline.placement.window import Span
from kerfline.sheets.day.text import (
    NEVER,
    READY,
    base_line,
    clock,
    cutting_lines,
    day_text,
    finishing_lines,
    span,
    truck_lines,
    window_words,
)
from kerfline.units import Display
from parted import parted_day, parted_outcome
from workshop_days import planned


def test_the_text_has_every_section(plan):
    """In order, with its lines set in."""
    text = day_text(plan, Display.FEET_INCHES)
    heads = [line for line in text.splitlines() if line and not line.startswith(" ")]
    assert heads == [
        "Placement day Workshop 2026-06-14",
        "Mind today",
        "Concrete",
        "Trucks",
        "Placements",
        "Weather",
        "Cutting",
        "Fewer days or fewer bulkheads",
        "Take-off",
        "Setting out and acceptance",
        "Habits of the trade",
        "Safety",
        "Assumed",
        "To be asked",
    ]


def test_a_metric_day_is_told_in_metric():
    """No feet, yards, pounds or Fahrenheit in orders, placements and weather."""
    text = day_text(planned(display=Display.METRIC), Display.METRIC)
    own = text.split("Setting out")[0]
    for unit in (" yd3", " ft2", " ft ", "°F", " lb", " gal"):
        assert unit not in own.replace("0.1 lb/ft2/h", "")
    assert " m3" in own
    assert "kg/m2/h" in own


def window(opens, closes, ready=None, deadline=None):
    return SimpleNamespace(
        opens=SimpleNamespace(likely=opens),
        closes=SimpleNamespace(likely=closes),
        workable=ready is None,
        ready=ready,
        deadline=deadline,
    )


def test_times_are_told_on_the_clock_of_their_day_and_what_never_comes_is_said():
    assert clock(7.5, 1) == "07:30"
    assert clock(24 + 7.5, 2) == "07:30"
    assert clock(math.inf, 1) == NEVER
    assert span(Span(early=6.0, likely=7.0, late=8.5), 1) == "07:00 (06:00 to 08:30)"
    assert span(Span(early=6.0, likely=math.inf, late=math.inf), 1) == NEVER


def test_a_window_is_open_all_at_once_or_follows_the_placing():
    assert window_words(window(10.0, 14.0), 1) == "10:00 to 14:00"
    assert (
        window_words(window(10.0, 9.0, ready=8.0, deadline=15.0), 1)
        == "08:00 to 15:00, behind the placing"
    )


def test_every_line_of_the_day_is_told_in_order():
    plan = parted_day(parted_outcome())
    lines = cutting_lines(plan, Display.FEET_INCHES)
    numbered = [line for line in lines if re.match(r"\d+\. day", line)]
    assert [int(line.split(".")[0]) for line in numbered] == sorted(
        c.order for c in plan.placement.cutting.cuts
    )
    assert len(truck_lines(plan, Display.FEET_INCHES)) == sum(o.delivery.loads for o in plan.orders)
    assert len(finishing_lines(plan)) == len(plan.placement.hours) + 1
    assert finishing_lines(plan)[-1] == READY


def test_a_base_too_low_takes_its_share_of_the_thickness_more():
    """1/8 in under 4 in is a 32nd."""
    plan = parted_day(parted_outcome())
    assert base_line(plan, Display.FEET_INCHES).startswith(
        'a base 1/8" too low under 4" takes 3.1% more'
    )
