"""Prose that is too tall for a sheet goes on upon the next, and loses no word."""

from types import SimpleNamespace

import pytest

from kerfline.sheets.cut.words import _cuts
from kerfline.sheets.prose import Prose

WORDS = " ".join(f"word{i}" for i in range(400))


def poured(prose, width, room):
    """The pieces that a block falls into on sheets with some room."""
    pieces, rest = [], prose
    while rest:
        piece, rest = rest.split(width, room)
        assert piece is not None
        assert piece.height(width) <= room + 1e-9
        pieces.append(piece)
    return pieces


@pytest.mark.parametrize("room", [60.0, 90.0, 200.0])
def test_a_paragraph_taller_than_the_sheet_is_divided_between_lines(room):
    prose = Prose("Heading", ("A short one.", WORDS, "The last one."), 2.4, 100.0)
    pieces = poured(prose, 100.0, room)
    said = " ".join(p for piece in pieces for p in piece.paragraphs)
    assert said == f"A short one. {WORDS} The last one."
    assert [p.continued for p in pieces] == [False] + [True] * (len(pieces) - 1)
    assert pieces[-1].first + len(pieces[-1].paragraphs) - 1 == len(prose.paragraphs)


def test_a_short_paragraph_stays_whole():
    first, rest = Prose("Heading", ("One.", "Two. " * 30), 2.4, 100.0).split(100.0, 15.0)
    assert first.paragraphs == ("One.",)
    assert len(rest.paragraphs) == 1


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((3,), "Cut 3"),
        ((3, 4), "Cuts 3, 4"),
        ((7, 3, 4, 5, 9), "Cuts 3 to 5, 7, 9"),
        (range(1, 1030), "Cuts 1 to 1029"),
    ],
)
def test_numbers_that_follow_on_one_another_are_said_as_a_run(numbers, words):
    assert _cuts([SimpleNamespace(number=n) for n in numbers]) == words
