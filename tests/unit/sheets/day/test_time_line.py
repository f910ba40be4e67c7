"""A day against the clock as a picture."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from kerfline.sheets.day.time_line import BLACK, DARK, Bar, Row, TimeLine
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Board, Layer, Text
from kerfline.units import Display
from views import fills, paths, texts

ROWS = (Row(name="place", bars=(Bar(start=7.0, end=10.0, tone=DARK, words="place"),)),)


def line(**more):
    values = {
        "heading": "The day",
        "rows": ROWS,
        "curve": (),
        "start": 6.0,
        "end": 18.0,
        "text": 2.5,
        "display": Display.METRIC,
    }
    return TimeLine(**{**values, **more})


def drawn(one, width=200.0):
    board = Board()
    one.draw(board, (0.0, 100.0), width)
    return board


def test_a_bar_is_as_long_as_its_hours():
    """Twelve hours across the axis; the bar of three is a quarter of it."""
    board = drawn(line())
    axis = next(
        m
        for m in paths(board, Layer.TABLE)
        if not m.closed and m.points[0][1] == m.points[1][1] and m.points[0][0] > 5
    )
    bar = next(m for m in paths(board, Layer.TABLE) if m.closed)
    xs = [x for x, _ in bar.points]
    whole = axis.points[1][0] - axis.points[0][0]
    assert (max(xs) - min(xs)) / whole == pytest.approx(3 / 12)
    assert (min(xs) - axis.points[0][0]) / whole == pytest.approx(1 / 12)


def test_hours_stand_on_the_axis_apart_from_each_other():
    board = drawn(line())
    hours = [t for t in board if isinstance(t, Text) and re.fullmatch(r"\d\d:\d\d", t.text)]
    assert "12:00" in {t.text for t in hours}
    for one, two in pairwise(hours):
        assert two.at[0] - one.at[0] >= text_width(one.text, 2.5)


def test_words_stand_in_a_bar_that_has_room_for_them():
    assert "place" in texts(drawn(line(rows=(Row(name="x", bars=ROWS[0].bars),))))
    short = (Row(name="x", bars=(Bar(start=7.0, end=7.2, tone=DARK, words="place"),)),)
    assert "place" not in texts(drawn(line(rows=short)))
    mixed = (Row(name="x", bars=(*ROWS[0].bars, *short[0].bars)),)
    assert "place" not in texts(drawn(line(rows=mixed))), "all or none"
    assert "place" in texts(drawn(line(rows=(replace(mixed[0], each=True),))))


def test_the_dark_is_drawn_and_told_with_sunrise_and_sunset():
    dark = line(changes=((6.5, "sunrise"),), dark=((6.0, 6.5),))
    said = " ".join(texts(drawn(dark)))
    assert "dark (sunrise 06:30)" in said
    assert any(f.tone == BLACK for f in fills(drawn(dark)))
    assert not any(f.tone == BLACK for f in fills(drawn(line())))


def test_it_is_one_picture_as_high_as_it_says():
    one = line()
    tall = one.height(200.0)
    assert one.split(200.0, tall) == (one, None)
    assert one.split(200.0, tall - 0.1) == (None, one)
    lowest = min(y for m in paths(drawn(one)) for _, y in m.points)
    assert lowest >= 100.0 - tall - 1e-9
    assert line(rows=ROWS * 2).height(200.0) > tall
