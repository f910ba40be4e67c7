"""Walls without a joint: one sentence a reason, singular and plural, in part and whole."""

from kerfline.sheets.bare_walls import bare_wall_words, bare_walls

SHORT = "it is shorter than half the span"
PART = "along {1990}, a joint under it would leave poor panels beside it"


def test_alike_reasons_are_one_sentence_with_every_wall_named():
    left = {"W1": SHORT, "W5": PART, "W2": SHORT, "W10": SHORT}
    assert bare_walls(left) == {SHORT: ["W1", "W2", "W10"], PART: ["W5"]}
    assert bare_wall_words(left) == [
        f"Walls W1, W2 and W10 have no joint under them. Of each: {SHORT}.",
        f"Wall W5 has no joint under part of it: {PART}.",
    ]


def test_one_wall_and_none():
    assert bare_wall_words({"W3": SHORT}) == [f"Wall W3 has no joint under it: {SHORT}."]
    assert bare_wall_words({}) == []
