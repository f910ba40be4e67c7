"""A job's name keeps its letters in file names, whatever their script and with accents or without."""

import pytest

from kerfline.app.file_names import file_stem


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Nave en U – año 2026", "nave-en-u-ano-2026"),
        ("Entrepôt Élan", "entrepot-elan"),
        ("../../etc", "etc"),
        ("日本 ガレージ", "日本-ガレージ"),
        ("Гараж Й", "гараж-й"),
        ("क़िला", "क़िला"),
        ("— !?", "job"),
        ("CON", "con-job"),
        ("Com¹", "com1-job"),
        ("a\u202eb\x00c", "a-b-c"),
    ],
)
def test_letters_stay_and_accents_of_plain_ones_are_dropped(name: str, stem: str) -> None:
    """Letters of every script stay, accented Latin ones as plain ones; no sign of a path does."""
    assert file_stem(name) == stem


def test_a_long_name_is_cut_short_between_letters() -> None:
    """Common file systems take names of 255 bytes; what is added to the stem must still fit."""
    stem = file_stem("日" * 300)
    assert stem == "日" * 33


def test_a_hundred_letters_are_kept_and_no_more() -> None:
    assert file_stem("x" * 101) == "x" * 100
    assert file_stem("x" * 99 + " y") == "x" * 99, "never a dash at the end"
