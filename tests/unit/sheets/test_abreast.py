"""Figures side by side: as many in a row as the width holds, in order, heads level."""

from kerfline.sheets.abreast import abreast
from kerfline.sheets.blocks import Figure
from kerfline.sheets.flow import COLUMN_GAP
from kerfline.sheets.marks import Board

TALLS = (10.0, 30.0, 20.0)


def figures(placed):
    def painter(number):
        return lambda _board, at, _width: placed.append((number, at))

    return [Figure(width=40.0, tall=t, painter=painter(n)) for n, t in enumerate(TALLS)]


def drawn(width):
    placed = []
    rows = abreast(figures(placed), width)
    for row in rows:
        row.draw(Board(), (5.0, 100.0), width)
    return rows, placed


def test_two_stand_beside_each_other_where_the_width_holds_two():
    rows, placed = drawn(80.0 + COLUMN_GAP)
    assert [r.tall for r in rows] == [30.0, 20.0]
    assert [r.width for r in rows] == [80.0 + COLUMN_GAP, 40.0]
    assert placed == [(0, (5.0, 100.0)), (1, (45.0 + COLUMN_GAP, 100.0)), (2, (5.0, 100.0))]


def test_a_narrow_column_has_them_below_each_other():
    rows, placed = drawn(60.0)
    assert [r.tall for r in rows] == list(TALLS)
    assert [number for number, _ in placed] == [0, 1, 2]


def test_none_give_none():
    assert abreast([], 100.0) == []
