"""The scale of a page, as it is written and as its dimensions state it."""

import pytest

from kerfline.files.plan_pdf.page_objects import Drawn, Written
from kerfline.files.plan_pdf.page_scale import (
    FIELD,
    dimensioned_scale,
    titled_scale,
    written_scales,
)
from kerfline.geometry.paths import Path


def text(words, at=(0.0, 0.0), turn=0.0):
    return Written(text=words, at=at, turn=turn, height=2.5)


def drawn(start, end, filled=False):
    return Drawn(layer="DIM", path=Path((start, end)), filled=filled)


@pytest.mark.parametrize(
    ("words", "scales"),
    [
        ("SCALE 1:100", [100]),
        ("1 : 50", [50]),
        ('1/4" = 1\'-0"', [48]),
        ("1/8 in = 1 ft", [96]),
        ("1\" = 20'", [240]),
        ("1 1/2\" = 1'", [8]),
        ("1:37", []),
        ("21:100", []),
        ("11:1:100", []),
        ("at 9:30", []),
        ("", []),
    ],
)
def test_the_scale_that_a_text_states(words, scales):
    assert written_scales([words]) == scales


def test_the_one_stated_most_often_comes_first():
    assert written_scales(["1:50", "1:100", "1:100", "1:20"]) == [100, 20, 50]


def test_a_title_block_states_the_scale_beside_its_word():
    page = [text("Scale:"), text("1:100", (0, -5)), text("1:20", (300, 300))]
    assert titled_scale(page) == 100
    assert titled_scale(page[:1]) is None
    assert titled_scale(page[1:]) is None


@pytest.mark.parametrize(("off", "scale"), [(FIELD, 100), (FIELD + 0.1, None)])
def test_a_field_is_filled_in_near_its_word(off, scale):
    assert titled_scale([text("DRAWING SCALE"), text("1:100", (off, 0))]) == scale


def test_two_title_blocks_that_differ_state_nothing():
    page = [text("Scale"), text("1:100", (5, 0)), text("Scale", (500, 0)), text("1:50", (505, 0))]
    assert titled_scale(page) is None


def dims(*pairs, turn=0.0):
    """Dimensions one over the other, each a length on paper and what its text says."""
    paths, texts = [], []
    for n, (length, words) in enumerate(pairs):
        y = 30.0 * n
        paths.append(drawn((0, y), (length, y)))
        texts.append(text(words, (length / 2, y + 2), turn))
    return paths, texts


def test_three_dimensions_that_agree_state_a_scale():
    assert dimensioned_scale(*dims((50, "5000"), (30, "3000"), (20, "2 m"))) == pytest.approx(100)
    assert dimensioned_scale(*dims((50, "5000"), (30, "3000"))) is None


def test_six_in_ten_must_agree():
    three = [(50, "5000"), (30, "3000"), (20, "2000")]
    assert dimensioned_scale(*dims(*three, (40, "9000"), (40, "7000"))) == pytest.approx(100)
    assert dimensioned_scale(*dims(*three, (40, "9000"), (40, "7000"), (40, "600"))) is None


def test_feet_and_inches_are_lengths_too():
    pairs = [(63.5, "10'-0\""), (31.75, "5'"), (127, "20'-0\"")]
    assert dimensioned_scale(*dims(*pairs)) == pytest.approx(48)


def test_a_text_across_its_line_or_off_its_middle_is_no_dimension():
    pairs = [(50, "5000"), (30, "3000"), (20, "2000")]
    assert dimensioned_scale(*dims(*pairs, turn=90.0)) is None
    assert dimensioned_scale(*dims(*pairs, turn=180.0)) == pytest.approx(100)
    paths, texts = dims(*pairs)
    aside = [text(t.text, (0.0, t.at[1])) for t in texts]
    assert dimensioned_scale(paths, aside) is None


def test_filled_areas_and_short_strokes_are_no_lines():
    paths, texts = dims((50, "5000"), (30, "3000"), (20, "2000"))
    assert dimensioned_scale([drawn(*p.path.points, filled=True) for p in paths], texts) is None
    assert dimensioned_scale(*dims((1.9, "190"), (2, "200"), (1, "100"))) is None


def test_a_page_without_lines_or_lengths_states_nothing():
    assert dimensioned_scale([], []) is None
    assert dimensioned_scale(*dims((50, "ROOM 5"), (30, "A-3"), (20, "12"))) is None
