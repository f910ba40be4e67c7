"""Blocks that flow down columns: headings and figures."""

from kerfline.sheets.blocks import HEAD, Figure, draw_heading, heading_height, title
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Board


def painted(log):
    return lambda board, at, width: log.append((at, width))


def test_a_figure_is_never_split_and_takes_the_width_that_it_is_given():
    log = []
    figure = Figure(width=40.0, tall=20.0, painter=painted(log))
    assert figure.whole
    assert figure.height(90.0) == 20.0
    assert figure.split(90.0, 20.0) == (figure, None)
    assert figure.split(90.0, 19.9) == (None, figure)
    figure.draw(Board(), (5, 6), 90.0)
    figure.draw(Board(), (5, 6), 10.0)
    assert log == [((5, 6), 90.0), ((5, 6), 40.0)]


def test_a_heading_stands_over_a_rule_across_the_column():
    board = Board()
    below = draw_heading(board, (10.0, 100.0), 60.0, "Notes", 2.5)
    text, rule = board.marks
    assert (text.text, text.ref, text.height) == ("Notes", HEAD, 1.3 * 2.5)
    assert rule.points[0][0] == 10.0
    assert rule.points[1][0] == 70.0
    assert below == 100.0 - heading_height(2.5)
    assert rule.points[0][1] > below
    assert text.at[1] > rule.points[0][1]


def test_a_long_heading_is_written_as_small_as_the_text_before_it_is_cut():
    board = Board()
    draw_heading(board, (0, 0), 30.0, "Long heading words", 2.5)
    assert board.marks[0].height == 2.5
    assert text_width(board.marks[0].text, board.marks[0].height) <= 30.0


def test_what_goes_on_from_the_sheet_before_says_so():
    assert title("Joints", continued=False) == "Joints"
    assert title("Joints", continued=True) == "Joints (continued)"
