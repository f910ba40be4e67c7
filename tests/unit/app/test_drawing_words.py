"""What is told of a drawing on the terminal, and what only the user can answer."""

from types import SimpleNamespace

import pytest

from kerfline.app.drawing_words import ask, gathered, told_in_lines
from kerfline.errors import InputRefused

MENDED = 'G{n} was carried on by {n}/8" at {n}\'-0" to the edge.'


def mended(*numbers):
    return [MENDED.format(n=n) for n in numbers]


def test_notes_of_one_wording_are_said_once_with_how_many_there_are():
    other = "Layer NOTES was left out."
    said = gathered([*mended(1), other, *mended(3, 5)])
    assert said == [f"{mended(1)[0]} (And 2 more of this kind.)", other]


def test_other_words_are_another_note():
    notes = ["Layer WALL was left out.", "Layer TEXT was left out."]
    assert gathered(notes) == notes
    assert gathered([]) == []


def words(count):
    """Notes that are all worded differently."""
    return ["note " + "abcdefghijklmnopqrstuvwxyz"[n] for n in range(count)]


@pytest.mark.parametrize(("notes", "left"), [(8, 0), (9, 2), (12, 5)])
def test_ten_lines_at_most_are_told_and_the_last_says_how_many_are_left(notes, left):
    reading = ["Slab: layer S-SLAB.", "Unit: feet."]
    told = told_in_lines(reading, words(notes), "the record has them all")
    assert told[:2] == reading
    assert len(told) == min(10, notes + 2)
    if left:
        assert told[-1] == f"{left} more notes; the record has them all."
    else:
        assert told[2:] == words(notes)


def test_what_the_reading_says_already_is_not_said_again():
    reading = ["Unit: inches. It was read in inches, since 3 dimensions state it."]
    notes = ["It was read in inches, since 3 dimensions state it.", "A gap was closed."]
    assert told_in_lines(reading, notes) == [*reading, "A gap was closed."]


def proposal(*questions, joints=()):
    return SimpleNamespace(questions=questions, layers=SimpleNamespace(joints=joints))


CJ = "layer S-CJ says CJ, which is control to some and construction to others."


def test_what_cj_means_is_asked_with_the_words_to_type():
    with pytest.raises(InputRefused) as refused:
        ask(proposal(CJ, "which outline is the slab?", joints=("S-SAWN",)), {})
    (said,) = refused.value.mistakes
    assert str(said).startswith(CJ.rstrip("."))
    assert '--joints "LAYER = control"' in str(said)
    assert 'the other joint layers found are --joints "S-SAWN"' in str(said)


def test_nothing_is_asked_where_the_user_named_the_joints_or_no_layer_says_cj():
    ask(proposal(CJ), {"joints": ("S-CJ = control",)})
    ask(proposal("which outline is the slab?"), {})
