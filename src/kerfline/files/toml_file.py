"""Reads a TOML file, and knows the line of everything in it."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_locate import Places, lines_of
from kerfline.files.largest import LARGEST_JOB, refuse_too_large

MOST_PARTS = 1000
"""Parts of a key, as ``a.b.c`` has three, beyond which it is not even looked at: the time to read one grows
with their square."""

BETWEEN = re.compile(r"[=,{}\[\]\"'#\n]")
"""What a key never goes beyond."""


@dataclass(frozen=True)
class TomlFile:
    """A file's tables, and the places of its keys."""

    tables: Mapping[str, object]
    places: Places


def read_toml(path: Path, kind: str) -> TomlFile:
    """Reads a TOML file.

    Args:
        path: The file.
        kind: What it is, such as ``job file``, for the messages.

    Raises:
        InputRefused: It cannot be read or is no TOML.
    """
    text = _text_of(path, kind)
    if any(part.count(".") > MOST_PARTS for part in BETWEEN.split(text)):
        raise InputRefused(_no_toml(path, "a key of it has no end"))
    try:
        tables = tomllib.loads(text)
    except (
        ValueError,
        RecursionError,
    ) as error:  # endless numbers and nests too, not bad syntax alone
        raise InputRefused(_no_toml(path, str(error))) from None
    return TomlFile(tables, Places(path.name, lines_of(text)))


def _text_of(path: Path, kind: str) -> str:
    try:
        refuse_too_large(path, kind, LARGEST_JOB, "leave out what does not belong to the slab")
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        what, remedy = f"this is not UTF-8 text (byte {error.start})", "save it as UTF-8"
    except FileNotFoundError:
        what, remedy = f"there is no such {kind}", "check the path"
    except IsADirectoryError:
        what, remedy = "this is a folder", f"name the {kind} in it"
    except OSError as error:
        what, remedy = (
            f"the {kind} cannot be read ({str(error.strerror).lower()})",
            "check the path",
        )
    raise InputRefused(Mistake(what=what, where=str(path), remedy=remedy))


def _no_toml(path: Path, reason: str) -> Mistake:
    return Mistake(
        what=f"this is not valid TOML: {reason[:1].lower()}{reason[1:]}",
        where=path.name,
        remedy="mend that line; text stands in double quotes, lists in square brackets",
    )
