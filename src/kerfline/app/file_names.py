"""How a job's name stands in the names of its files, on any of the usual systems."""

import unicodedata

LONGEST = 100
"""Bytes of a job's name that file names keep; with what is added, every system takes the whole."""

UNNAMED = "job"
"""Stands for a name without a letter or digit."""

RESERVED = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))]
)
"""Names that no file can have on Windows, whatever its ending (Microsoft, Naming Files, Paths, and
Namespaces)."""


def file_stem(name: str) -> str:
    """A job's name as it stands in file names: small letters of any script, digits and dashes.

    Plain Latin letters lose their accents; every other letter stays as it is, with its marks. A name of
    more than 100 bytes is cut short there.
    """
    words = "".join(mark if _in_names(mark) else " " for mark in _without_accents(name.lower()))
    stem = _short("-".join(words.split())) or UNNAMED
    return f"{stem}-{UNNAMED}" if stem in RESERVED else stem


def _without_accents(text: str) -> str:
    """Text whose plain Latin letters have lost their accents; other letters keep the marks they need."""
    kept, plain = [], False
    for mark in unicodedata.normalize("NFKD", text):
        plain = mark.isascii() or (plain and bool(unicodedata.combining(mark)))
        if mark.isascii() or not plain:
            kept.append(mark)
    return unicodedata.normalize("NFC", "".join(kept))


def _in_names(mark: str) -> bool:
    """Whether it is a letter, a digit or the mark of a letter."""
    return unicodedata.category(mark)[0] in "LNM"


def _short(stem: str) -> str:
    """A stem that is not too long, and ends in no dash."""
    return stem.encode()[:LONGEST].decode(errors="ignore").strip("-")
