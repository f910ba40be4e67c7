"""A job's name keeps its letters in file names when they carry accents."""

import pytest

from kerfline.app.deliver import file_stem


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Nave en U – año 2026", "nave-en-u-ano-2026"),
        ("Entrepôt Élan", "entrepot-elan"),
        ("../../etc", "etc"),
        ("日本", "job"),
    ],
)
def test_an_accent_is_dropped_and_its_letter_stays(name: str, stem: str) -> None:
    """An accented letter stands in the file name as the plain letter, and no sign of a path does."""
    assert file_stem(name) == stem
