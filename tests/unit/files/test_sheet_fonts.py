"""The font that is embedded holds what the sheets write."""

import io

from fontTools.ttLib import TTFont

from kerfline.files.sheet_fonts import FAMILY, FILE, font_bytes


def test_it_is_the_family_that_the_sheets_name():
    font = TTFont(io.BytesIO(font_bytes()))
    assert FAMILY in {str(n) for n in font["name"].names}
    assert FILE.startswith(FAMILY.replace(" ", ""))


def test_it_has_the_letters_and_signs_of_drawings():
    letters = TTFont(io.BytesIO(font_bytes())).getBestCmap()
    assert {chr(n) for n in range(32, 127)} <= {chr(n) for n in letters}
    assert set("½¼¾⅛×′″–≤≥²°äöüßéñŁÅ") <= {chr(n) for n in letters}


def test_it_is_read_once():
    assert font_bytes() is font_bytes()
