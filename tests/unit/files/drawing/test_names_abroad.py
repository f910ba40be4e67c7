"""What layer names say in other languages."""

import pytest

from kerfline.files.drawing.names_abroad import STEMS, WORDS, plain, speaks_of


@pytest.mark.parametrize(
    ("name", "letters"),
    [
        ("Öffnung", "OFFNUNG"),
        ("Słup", "SLUP"),
        ("Søjle", "SOJLE"),
        ("Straße", "STRASSE"),
        ("İç duvar", "IC DUVAR"),
        ("дверь", "ДВЕРЬ"),
    ],
)
def test_a_name_in_capitals_without_accents(name, letters):
    assert plain(name) == letters


@pytest.mark.parametrize(
    ("what", "name"),
    [
        ("walls", "Innenwände"),
        ("walls", "TABIQUES"),
        ("walls", "A-MUR-1"),
        ("columns", "Stützen EG"),
        ("openings", "Aussparungen"),
        ("outline", "01_DALLE"),
        ("outline", "Fundamentplatte"),
        ("penetrations", "排水"),
        ("decor", "Bemaßung"),
        ("elsewhere", "Fenster"),
    ],
)
def test_what_a_name_speaks_of(what, name):
    assert speaks_of(what, name)
    assert not speaks_of(what, "S-9")


def test_a_word_counts_only_where_it_stands_by_itself():
    assert speaks_of("walls", "MUR")
    assert speaks_of("walls", "x_mur2")
    assert not speaks_of("walls", "MURAL")


def test_every_part_that_has_words_has_stems_too():
    assert set(WORDS) == set(STEMS)
