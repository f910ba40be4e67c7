"""What details are drawn of, and sizes as the trade sells them."""

import pytest

from kerfline.model.layout import Dowels
from kerfline.sheets.detail_marks import (
    SIDE,
    draw_dowel,
    draw_fixed,
    draw_measure,
    draw_slab,
    trade_size,
)
from kerfline.sheets.marks import Board
from kerfline.units import Display


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (12.7, "12 mm"), (19.05, "20 mm"), (15.9, "16 mm"), (40.0, "40 mm"),
        (63.5, "65 mm"), (152.4, "150 mm"), (457.2, "450 mm"), (406.4, "400 mm"),
    ],
)  # fmt: skip
def test_in_millimetres_a_size_is_one_that_is_sold_or_a_round_one(mm, said):
    assert trade_size(mm, Display.METRIC) == said


def test_in_inches_a_size_is_what_it_is():
    assert trade_size(12.7, Display.FEET_INCHES) == '1/2"'


def test_a_dowel_lies_half_on_either_side_at_true_scale_and_no_longer_than_the_section():
    dowel = Dowels(count=1, diameter=20.0, length=400.0, spacing=300.0)
    board = Board()
    draw_dowel(board, (100.0, 50.0), dowel, 10.0)
    xs, ys = zip(*board.marks[1].points, strict=True)
    assert (min(xs), max(xs)) == (80.0, 120.0)
    assert (min(ys), max(ys)) == (49.0, 51.0)
    draw_dowel(board, (100.0, 50.0), dowel, 2.0)
    xs, _ = zip(*board.marks[-1].points, strict=True)
    assert max(xs) - min(xs) == 2 * (SIDE - 1.0)


def test_a_slab_is_open_at_its_ends_and_its_stones_lie_inside():
    board = Board()
    draw_slab(board, (0.0, 0.0, 44.0, 12.0))
    top, bottom, *stones = board.marks
    assert top.points == ((0.0, 12.0), (44.0, 12.0))
    assert bottom.points == ((0.0, 0.0), (44.0, 0.0))
    for stone in stones:
        assert all(0 < x < 44 and 0 < y < 12 for x, y in stone.points)


def test_a_measure_runs_from_level_to_level():
    board = Board()
    draw_measure(board, 7.0, 10.0, 22.0)
    assert board.marks[0].points == ((7.0, 10.0), (7.0, 22.0))
    assert {y for mark in board.marks[1:] for _, y in mark.points} == {
        9.5,
        10.0,
        10.5,
        21.5,
        22.0,
        22.5,
    }


def test_what_stands_fixed_is_hatched_inside_its_box():
    board = Board()
    draw_fixed(board, (0.0, 0.0, 12.0, 30.0))
    _, *lines = board.marks
    assert lines
    assert all(
        -1e-9 <= x <= 12 + 1e-9 and -1e-9 <= y <= 30 + 1e-9 for m in lines for x, y in m.points
    )
