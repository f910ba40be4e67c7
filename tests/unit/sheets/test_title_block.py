"""The title block."""

import pytest

from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Board, Path, Text
from kerfline.sheets.title_block import (
    CARRIED_TEXT,
    LARGE,
    ROW,
    SEAL,
    TITLE_FIELD,
    draw_title_block,
    title_height,
)
from views import texts

VALUES = {
    "project": "Boathouse",
    "title": "Joint plan",
    "number": "S-101",
    "sheet": "1 of 2",
    "mark": "abc",
}


def drawn(text=2.5, width=100.0, values=VALUES):
    board = Board()
    draw_title_block(board, (420.0, 10.0), width, text, values)
    return board


def test_every_field_has_its_label_and_what_is_blank_stays_blank():
    board = drawn()
    said = [t.text for t in board if isinstance(t, Text)]
    for label in ("project", "owner", "firm", "document type", "title", "drawn", "checked", "approved", "date",
                  "scale", "size", "number", "revision", "run mark", "sheet"):  # fmt: skip
        assert label in said
    assert len(said) == 15 + len(VALUES)


def test_a_sheet_that_is_sealed_has_room_for_the_seal():
    assert "seal" not in texts(drawn(CARRIED_TEXT))
    assert "seal" in texts(drawn(CARRIED_TEXT + 0.1))
    assert title_height(3.2) / 3.2 == pytest.approx(title_height(2.5) / 2.5 + SEAL * ROW)


def test_it_stands_on_its_lower_right_corner():
    box = next(m for m in drawn() if isinstance(m, Path) and m.closed)
    xs, ys = zip(*box.points, strict=True)
    assert (min(xs), max(xs), min(ys)) == (320.0, 420.0, 10.0)
    assert max(ys) == pytest.approx(10.0 + title_height(2.5))


def test_title_and_number_are_larger_where_they_are_short_enough_and_long_words_are_cut():
    def value(board, key):
        return next(t for t in board if isinstance(t, Text) and t.ref == f"{TITLE_FIELD}{key}")

    assert value(drawn(), "title").height == LARGE * 2.5
    long = drawn(values={"title": "word " * 30, "project": "word " * 30})
    assert value(long, "title").height == 2.5
    for key in ("title", "project"):
        text = value(long, key)
        assert text_width(text.text, text.height) <= 98.0
