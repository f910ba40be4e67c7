"""Running and chain dimensions: sums close and rounding moves no line."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.sheets.running import Running, between, dimension_text
from kerfline.units import MM_PER_INCH, Display, Unit, parse_length

offsets = st.lists(st.floats(0.0, 200_000.0), min_size=1, max_size=30)
displays = st.sampled_from(list(Display))


def running_texts(running):
    return tuple(dimension_text(offset, running.display) for offset in running.offsets)


def chain_texts(running):
    return tuple(
        dimension_text(between(a, b, running.display), running.display)
        for a, b in pairwise(running.offsets)
    )


@given(offsets, displays)
def test_running_values_are_the_sums_of_the_chain_to_the_last_digit(found, display):
    running = Running.of(found, display)
    total = 0.0
    for start, end in pairwise(running.offsets):
        total += between(start, end, display)
        assert total == pytest.approx(end, abs=1e-6)


@given(offsets)
def test_the_written_chain_closes_exactly_in_eighths(found):
    running = Running.of(found, Display.FEET_INCHES)

    def eighths(text):
        return round(parse_length(text, Unit.IN) / MM_PER_INCH * 8, 6)

    links = [eighths(t) for t in chain_texts(running)]
    ends = [eighths(t) for t in running_texts(running)]
    assert sum(links) == ends[-1] - ends[0]
    assert all(link == int(link) > 0 for link in links)


@given(offsets)
def test_feet_inches_move_no_line_by_more_than_a_sixteenth(found):
    running = Running.of(found, Display.FEET_INCHES)
    for offset in found:
        assert min(abs(offset - o) for o in running.offsets) <= MM_PER_INCH / 16 + 1e-6


@given(offsets)
def test_metric_moves_no_line_by_more_than_half_a_millimetre(found):
    running = Running.of(found, Display.METRIC)
    for offset in found:
        assert min(abs(offset - o) for o in running.offsets) <= 0.5 + 1e-6


def test_offsets_that_read_the_same_become_one():
    assert running_texts(Running.of([3048.0, 3048.2], Display.FEET_INCHES)) == ("0'-0\"", "10'-0\"")


def test_values_are_written_as_the_trade_does():
    running = Running.of([3810.0, 4127.5], Display.FEET_INCHES)
    assert running_texts(running) == ("0'-0\"", "12'-6\"", "13'-6 1/2\"")
    assert chain_texts(running) == ("12'-6\"", "1'-0 1/2\"")
    assert running_texts(Running.of([3810.0], Display.METRIC)) == ("0", "3810")
