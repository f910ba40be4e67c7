"""What is refused is told in one plain sentence."""

import pytest

from kerfline.errors import InputRefused, KerflineError, Mistake, OutputRefused


def test_a_mistake_says_where_what_found_allowed_and_what_to_do():
    mistake = Mistake(
        what="the slab is too thin",
        where="plan.toml, slab.thickness",
        found="1 in",
        allowed="2 in or more",
        remedy="give its thickness",
    )
    assert str(mistake) == (
        "plan.toml, slab.thickness: the slab is too thin; found 1 in; allowed is 2 in or more; "
        "give its thickness."
    )


@pytest.mark.parametrize(
    ("parts", "sentence"),
    [
        ({}, "no outline."),
        ({"where": "a.dxf"}, "a.dxf: no outline."),
        ({"found": "0"}, "no outline; found 0."),
        ({"remedy": "is it drawn?"}, "no outline; is it drawn?"),
        ({"remedy": "Draw it."}, "no outline; Draw it."),
    ],
)
def test_what_a_mistake_does_not_know_it_leaves_out_and_it_ends_once(parts, sentence):
    assert str(Mistake(what="no outline", **parts)) == sentence


@pytest.mark.parametrize(
    ("found", "shown"), [("x" * 120, "x" * 120 + "."), ("x" * 121, "x" * 120 + "...")]
)
def test_a_long_value_is_cut_after_120_letters(found, shown):
    assert str(Mistake(what="no number", found=found)) == f"no number; found {shown}"


def test_all_mistakes_of_an_input_are_told_one_a_line():
    mistakes = Mistake(what="one"), Mistake(what="two", where="here")
    refused = InputRefused(*mistakes)
    assert str(refused) == "one.\nhere: two."
    assert refused.mistakes == mistakes


def test_what_cannot_be_written_carries_its_mistake():
    mistake = Mistake(what="the folder is full")
    refused = OutputRefused(mistake)
    assert (str(refused), refused.mistake) == ("the folder is full.", mistake)


@pytest.mark.parametrize("refused", [InputRefused(), OutputRefused(Mistake(what="no"))])
def test_every_refusal_is_caught_as_one(refused):
    assert isinstance(refused, KerflineError)
