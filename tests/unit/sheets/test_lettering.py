"""Sizes of text are those of the font that is shipped."""

import io

import pytest
from fontTools.ttLib import TTFont

from kerfline.files.sheet_fonts import font_bytes
from kerfline.sheets.font_widths import ADVANCES, CAP_HEIGHT, UNITS_PER_EM
from kerfline.sheets.lettering import ASCENT, DESCENT, below, fitted, text_width, wrap


@pytest.fixture(scope="module")
def font():
    return TTFont(io.BytesIO(font_bytes()))


def test_advance_widths_are_the_fonts(font):
    names, metrics = font.getBestCmap(), font["hmtx"]
    for start, widths in ADVANCES.items():
        for i, width in enumerate(widths):
            assert metrics[names[start + i]][0] == width
    assert sum(len(w) for w in ADVANCES.values()) == len(names)


def test_capital_height_is_0_729_em_as_measured(font):
    assert font["head"].unitsPerEm == UNITS_PER_EM
    assert font["glyf"]["H"].yMax == CAP_HEIGHT
    assert pytest.approx(0.729, abs=5e-4) == CAP_HEIGHT / UNITS_PER_EM


def test_no_printable_letter_is_taller_or_deeper_than_its_box(font):
    names, glyphs = font.getBestCmap(), font["glyf"]
    for code in range(0x21, 0x7F):
        glyph = glyphs[names[code]]
        assert glyph.yMax <= ASCENT * CAP_HEIGHT
        assert -glyph.yMin <= max(below(chr(code), CAP_HEIGHT), 0.03 * CAP_HEIGHT)
        assert below(chr(code), CAP_HEIGHT) <= DESCENT * CAP_HEIGHT


def test_width_grows_with_height():
    assert text_width("P12", 5.0) == pytest.approx(2 * text_width("P12", 2.5))


def test_wrapped_lines_fit_and_lose_no_word():
    words = "Find tubing, conduit, tendons and other buried services before cutting anything at all"
    lines = wrap(words, 2.4, 40.0)
    assert " ".join(lines) == words
    assert all(text_width(line, 2.4) <= 40.0 for line in lines)


def test_a_word_longer_than_the_line_is_broken():
    lines = wrap("x" * 60, 2.4, 30.0)
    assert "".join(lines) == "x" * 60
    assert all(text_width(line, 2.4) <= 30.0 for line in lines)


def test_a_text_that_is_too_long_is_cut_with_dots():
    short = fitted("Community workshop of the whole valley", 2.4, 30.0)
    assert short.endswith("...")
    assert text_width(short, 2.4) <= 30.0


def test_the_licence_of_the_font_stands_beside_it():
    from importlib.resources import files

    text = files("kerfline.files").joinpath("fonts", "LICENSE-DejaVu.txt").read_text()
    assert "Permission is hereby granted" in text


@pytest.mark.parametrize(
    "measure",
    [
        "29'-0 9/16\"",
        '1 1/2" = 1\'-0"',
        "12'-2\" x 11'-0\"",
        "13'-11\", 33'-8 1/2\"",
        "30 mm",
        '1 1/4"',
    ],
)
def test_a_measure_never_breaks_across_lines(measure):
    words = f"Some words and then {measure} and more words that go on"
    for width in range(30, 120, 3):
        lines = wrap(words, 2.5, float(width))
        if text_width(measure, 2.5) <= width:
            assert sum(measure in line for line in lines) == 1
        assert " ".join(lines).replace("  ", " ") == words or text_width(measure, 2.5) > width
