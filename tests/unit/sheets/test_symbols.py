"""Scale bar, check bar, north arrow and corner marks."""

import math
from itertools import pairwise

import pytest

from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Board, Fill, Text
from kerfline.sheets.symbols import check_bar, check_length, letter_mark, north_arrow, scale_bar
from kerfline.units import Display

BOTH = [Display.FEET_INCHES, Display.METRIC]


def texts(board):
    return [mark.text for mark in board if isinstance(mark, Text)]


@pytest.mark.parametrize("display", BOTH)
@pytest.mark.parametrize("scale", [4.0, 48.0, 96.0, 100.0, 1200.0])
def test_a_scale_bar_has_four_true_steps_with_labels_that_stand_apart(display, scale):
    board = Board()
    length = scale_bar(board, (10.0, 10.0), scale, display, 2.5)
    *_, last = texts(board)
    number, unit = last.split()
    mm = {"in": 25.4, "ft": 304.8, "mm": 1.0, "m": 1000.0}[unit]
    assert length == pytest.approx(float(number) * mm / scale)
    labels = [m for m in board if isinstance(m, Text)]
    for one, two in pairwise(labels):
        clear = (text_width(one.text, 2.5) + text_width(two.text, 2.5)) / 2
        assert two.at[0] - one.at[0] > clear


@pytest.mark.parametrize(
    ("display", "length", "said"), [(BOTH[0], 101.6, "4 in"), (BOTH[1], 100.0, "100 mm")]
)
def test_a_check_bar_is_as_long_as_it_says(display, length, said):
    board = Board()
    assert check_bar(board, (5.0, 5.0), display, 2.5) == length == check_length(display)
    assert board.marks[0].points == ((5.0, 5.0), (5.0 + length, 5.0))
    assert texts(board) == [f"check bar {said}: measure before use"]


@pytest.mark.parametrize(("north", "tip"), [(0.0, (50, 60)), (90.0, (40, 50)), (180.0, (50, 40))])
def test_the_arrow_points_north_anticlockwise_from_the_top(north, tip):
    board = Board()
    north_arrow(board, (50.0, 50.0), north, 10.0, 3.0)
    fill = next(m for m in board if isinstance(m, Fill))
    assert fill.rings[0][0] == pytest.approx(tip)
    (letter,) = [m for m in board if isinstance(m, Text)]
    beyond = math.dist((letter.at[0], letter.at[1] + 1.5), (50, 50))
    assert beyond == pytest.approx(13.0)


def test_a_letter_stands_in_a_circle_that_holds_it():
    board = Board()
    letter_mark(board, (20.0, 20.0), "BB2", 3.0)
    ring, text = board
    radius = (ring.points[1][0] - ring.points[0][0]) / 2
    assert radius >= text_width("BB2", 3.0) / 2 + 1.0
    assert text.at == (20.0, 18.5)
