"""A ruled table whose rows flow."""

from dataclasses import replace

import pytest

from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Board, Path, Text
from kerfline.sheets.table import CELL_PAD, FEWEST_ROWS, Column, Table

ROWS = tuple((f"J{n}", "words that make a sentence", f"{n}") for n in range(20))
TABLE = Table(
    "Joints",
    (Column("No."), Column("what", widest=30.0), Column("a long|number", right=True)),
    ROWS,
    2.5,
)


def test_columns_hold_their_heads_and_cells_up_to_their_bound():
    no, what, number = TABLE.widths
    assert no == pytest.approx(
        max(text_width(t, 2.5) for t in ("No.", *(r[0] for r in ROWS))) + 2 * CELL_PAD
    )
    assert what == 30.0 + 2 * CELL_PAD
    assert number == pytest.approx(text_width("number", 2.5) + 2 * CELL_PAD)
    assert TABLE.width == no + what + number


def test_a_long_cell_is_wrapped_and_its_row_is_taller():
    single = Table("x", (Column("a"),), (("b",),), 2.5)
    wrapped = Table(
        "x", (Column("a", widest=20.0),), (("several words that need more lines",),), 2.5
    )
    assert wrapped.height(0) > single.height(0)


def test_a_table_is_split_between_rows_and_says_that_it_goes_on():
    room = TABLE.height(0) / 2
    done, rest = TABLE.split(0, room)
    assert done.rows + rest.rows == ROWS
    assert done.height(0) <= room
    assert rest.continued
    assert rest.widths == TABLE.widths, "the same on every sheet"
    assert TABLE.split(0, TABLE.height(0)) == (TABLE, None)


def test_fewer_than_three_rows_do_not_begin_a_column():
    head = TABLE.height(0) - sum(r for r in TABLE._row_heights)
    three = head + sum(TABLE._row_heights[:FEWEST_ROWS])
    assert TABLE.split(0, three)[0].rows == ROWS[:3]
    assert TABLE.split(0, three - 0.1) == (None, TABLE)


def test_a_table_made_narrower_wraps_sentences_first_and_letters_stay():
    narrow = TABLE.within(TABLE.width - 10)
    assert narrow.width == pytest.approx(TABLE.width - 10)
    assert narrow.widths[0] == TABLE.widths[0]
    assert narrow.text == TABLE.text
    assert TABLE.within(TABLE.width + 1) is TABLE
    assert TABLE.within(TABLE.least_width).width == pytest.approx(TABLE.least_width)


def test_every_cell_is_drawn_in_its_column_numbers_to_the_right():
    board = Board()
    TABLE.draw(board, (10.0, 200.0), 0)
    drawn = {t.text: t for t in board if isinstance(t, Text)}
    assert {"Joints", "No.", "what", "a long", "number", "J0", "J19"} <= set(drawn)
    assert drawn["19"].anchor is Anchor.END
    assert drawn["19"].at[0] == pytest.approx(10 + TABLE.width - CELL_PAD)
    assert drawn["J0"].at[0] == 10 + CELL_PAD
    assert drawn["J19"].at[1] < drawn["J0"].at[1]
    lowest = min(y for m in board if isinstance(m, Path) for _, y in m.points)
    assert lowest == pytest.approx(200 - TABLE.height(0))


def test_a_table_to_be_written_in_has_tall_rows_and_lines_between_columns():
    board = Board()
    table = Table(
        "Revisions",
        (Column("rev.", least=6.0), Column("by", least=12.0)),
        (("", ""),) * 3,
        2.5,
        tall=6.0,
    )
    table.draw(board, (0.0, 100.0), 0)
    assert table.widths[1] == 12.0 + 2 * CELL_PAD
    upright = [m for m in board if isinstance(m, Path) and m.points[0][0] == m.points[1][0]]
    assert len(upright) == 3
    assert upright[0].points[0][1] - upright[0].points[1][1] == pytest.approx(18.0)


def test_a_list_that_is_worked_off_may_begin_anywhere():
    assert TABLE.whole
    assert not replace(TABLE, parts=True).whole
