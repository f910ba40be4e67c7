"""Ties on the plan: letters at corners and what the tape reads at each end."""

import math
from dataclasses import replace

from kerfline.sheets.marks import Board, Text
from kerfline.sheets.pegs import Peg
from kerfline.sheets.tie_marks import label_ties, tie_words
from kerfline.sheets.ties import Tie, Ties
from kerfline.units import Display
from views import maker_on, paths, texts

PEGS = (Peg("B", (12000.0, 0.0)),)
TIE = Tie(
    line="J1", at=(6000.0, 0.0), inward=(0.6, 0.8), along=(1.0, 0.0), tapes=((PEGS[0], 6000.0),)
)


def labelled(found, **more):
    board = Board()
    maker = maker_on(board, **more)
    label_ties(maker, found, Display.METRIC)
    return board, maker


def test_a_tie_reads_its_letter_and_its_length():
    assert tie_words(TIE, Display.METRIC) == ("B 6000",)
    assert tie_words(TIE, Display.FEET_INCHES) == ("B 19'-8 1/4\"",)


def test_a_corner_has_its_letter_in_a_circle_beside_it_and_the_end_its_words():
    board, maker = labelled(Ties(pegs=PEGS, points=(TIE,)))
    assert sorted(texts(board)) == ["B", "B 6000"]
    assert paths(board)[0].closed
    assert maker.left_out.ties == []
    corner = maker.view.to_paper(PEGS[0].at)
    letter = next(t for t in board if isinstance(t, Text) and t.text == "B")
    assert math.dist(letter.at, corner) < 12


def test_two_tapes_stand_one_under_the_other():
    both = replace(TIE, along=None, tapes=((PEGS[0], 6000.0), (Peg("D", (0.0, 0.0)), 1000.0)))
    board, _ = labelled(Ties(points=(both,)))
    first, second = (t for t in board if isinstance(t, Text))
    assert (first.text, second.text) == ("B 6000", "D 1000")
    assert second.at[1] < first.at[1]


def test_what_finds_no_room_is_told_with_its_line():
    _, maker = labelled(Ties(pegs=PEGS, points=(TIE,)), frame=(0.0, 0.0, 2.0, 2.0))
    assert maker.left_out.ties == ["the letter B", "B 6000 at J1"]


def test_ties_out_of_the_window_are_another_sheets():
    far = replace(TIE, at=(1e6, 0.0))
    board, maker = labelled(Ties(points=(far,)))
    assert texts(board) == []
    assert maker.left_out.ties == []
