"""The files of a set in a line for the terminal, summed up by kind."""

import re
from collections.abc import Sequence
from pathlib import Path

from kerfline.units import counted

_PART = re.compile(r"(-placement-\d+|-area-\d+|-wing-\d+|-flat|-\d+)+$")
"""What tells the files of one kind apart."""

DRAWN = ".svg"


def files_told(written: Sequence[Path]) -> str:
    """The folder, then each kind of file: ``joint plan: 13 sheets, PDF, SVG, DXF``."""
    if len(written) == 1:
        return str(written[0])
    stem = _stem([path.stem for path in written])
    kinds: dict[str, list[Path]] = {}
    for path in written:
        rest = path.stem.removeprefix(stem).lstrip("-")
        kinds.setdefault(_PART.sub("", f"-{rest}").lstrip("-").replace("-", " "), []).append(path)
    told = [_kind_told(kind, paths) for kind, paths in kinds.items()]
    return f"{written[0].parent} ({'; '.join(told)})"


def _stem(names: Sequence[str]) -> str:
    """What all names begin with, up to a dash or an end."""
    shortest = min(names, key=len)
    ends = [i for i, sign in enumerate(shortest) if sign == "-"] + [len(shortest)]
    fitting = (shortest[:end] for end in reversed(ends))
    return next((s for s in fitting if all(n == s or n.startswith(f"{s}-") for n in names)), "")


def _kind_told(kind: str, paths: Sequence[Path]) -> str:
    sheets = sum(path.suffix == DRAWN for path in paths)
    forms = list(dict.fromkeys(path.suffix.lstrip(".").upper() for path in paths))
    name = kind or "tables"
    words = [counted(sheets, "sheet")] if sheets else []
    return f"{name}: {', '.join([*words, *forms])}"
