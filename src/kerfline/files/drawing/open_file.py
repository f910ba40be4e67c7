"""Opens a DXF, sound or damaged, ASCII or binary, or a DWG, or says what is wrong with the file."""

import io
import logging
import os
import re
from pathlib import Path

from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.dwg_apart import open_dwg_apart
from kerfline.files.drawing.expansion import MOST
from kerfline.files.drawing.light_polylines import MISSING, as_older, text_of, too_new
from kerfline.files.drawing.model_alone import RECORD, model_alone
from kerfline.files.kinds import BINARY_DXF, HEAD, Kind, kind_of_bytes, words_for
from kerfline.files.largest import (
    LARGEST_PLAN,
    LARGEST_WITH_SHEETS,
    refuse_size,
    refuse_too_large,
)

TAIL = 4096
"""Bytes at the end of a text DXF in which its last word stands."""

POINT = re.compile(rb"\n[ \t]*10[ \t]*\r?\n")
"""Where a point of one begins."""

BINARY_START = len(BINARY_DXF) + 4
"""Where the first group code of a binary DXF stands."""

BINARY_RECORD = re.compile(rb"\x00[A-Z][A-Z0-9_]{2,}\x00")
"""Where a record of a binary DXF begins that has group codes of one byte, as up to release 12: code 0 and a name."""

BINARY_POINT = re.compile(rb"\x0a.{8}\x14", re.DOTALL)
"""Where a point begins there: code 10, a number of eight bytes, code 20."""

WIDE_RECORD = re.compile(rb"\x00\x00[A-Z][A-Z0-9_]{2,}\x00")
"""The same with group codes of two bytes, the low one first."""

WIDE_POINT = re.compile(rb"\x0a\x00.{8}\x14\x00", re.DOTALL)

MOST_POINTS = 200_000
"""Points that are read at most; each takes some four kilobytes while its outline is sought."""

LONGEST_LINE = 100_000
"""Bytes of the longest line of a text DXF; its texts have some hundreds."""

ALONE = "save the floor plan alone as a drawing of its own, and purge what it does not use"
EXPORT = "export the drawing as DXF from the program it was drawn with"
# The library reports damage on its own logger; the user reads of it in our words.
logging.getLogger("ezdxf").addHandler(logging.NullHandler())


def open_document(path: Path) -> tuple[Document, tuple[str, ...]]:
    """Opens a DXF or a DWG.

    Args:
        path: The file.

    Returns:
        The document, and sentences about damage that was passed over.

    Raises:
        InputRefused: There is no such file, it cannot be read, it is empty, cut off, or no drawing.
    """
    content = _bytes_of(path)
    _refuse_foreign(path, content[:HEAD])
    if kind_of_bytes(content[:HEAD]) is Kind.DWG:
        return open_dwg_apart(path)
    if content.startswith(BINARY_DXF):
        wide = content[BINARY_START : BINARY_START + 2] == bytes(2)
        _refuse_many(
            path,
            content,
            WIDE_RECORD if wide else BINARY_RECORD,
            WIDE_POINT if wide else BINARY_POINT,
        )
        return _open_binary(path), ()
    _refuse_cut_off(path, content)
    content = model_alone(content)
    refuse_size(len(content), path, "drawing", LARGEST_PLAN, ALONE)
    if _longest_line(content) > LONGEST_LINE:
        raise _refused(path, "this DXF is damaged: a line of it has no end", "export it again")
    _refuse_many(path, content, RECORD, POINT)
    return _open_text(path, content)


def _bytes_of(path: Path) -> bytes:
    if not path.exists():
        raise _refused(path, "there is no such file", "check the path")
    if path.is_dir():
        raise _refused(path, "this is a folder", "name the DXF file in it")
    try:
        with path.open("rb") as file:
            text = _is_text_dxf(file.read(HEAD))
        largest = LARGEST_WITH_SHEETS if text else LARGEST_PLAN
        refuse_too_large(path, "drawing", largest, ALONE)
        content = path.read_bytes()
    except OSError as error:
        reason = os.strerror(error.errno) if error.errno else str(error)
        raise _refused(
            path, f"the file cannot be read ({reason})", "check who may read it"
        ) from error
    if not content.strip():
        raise _refused(path, "the file is empty", EXPORT)
    return content


def _is_text_dxf(head: bytes) -> bool:
    return kind_of_bytes(head) is Kind.DXF and not head.startswith(BINARY_DXF)


def _refuse_many(
    path: Path, content: bytes, record: re.Pattern[bytes], point: re.Pattern[bytes]
) -> None:
    """Refuses a DXF of more records or points than can be read, counted before any is taken apart."""
    counts = ((record, MOST, "entities, layers and blocks"), (point, MOST_POINTS, "points"))
    for pattern, most, words in counts:
        count = sum(1 for _ in pattern.finditer(content))
        if count > most:
            raise InputRefused(
                Mistake(
                    what="the drawing is too large to read",
                    where=str(path),
                    found=f"{count:,} {words}",
                    allowed=f"up to {most:,}",
                    remedy=ALONE,
                )
            )


def _refuse_foreign(path: Path, head: bytes) -> None:
    kind = kind_of_bytes(head)
    if kind not in (Kind.DXF, Kind.DWG):
        name = words_for(head)
        raise _refused(path, f"this is {name}, not a DXF" if name else "this is not a DXF", EXPORT)


def _refuse_cut_off(path: Path, content: bytes) -> None:
    """Refuses a text DXF whose entities do not end.

    The recovering reader gives back an empty drawing for such a file, without a word.
    """
    tail = content[-TAIL:].split()
    if tail and tail[-1] == b"EOF":
        return
    start = content.find(b"ENTITIES")
    if start < 0 or b"ENDSEC" not in content[start:]:
        raise _refused(
            path,
            "the file is cut off: its entities do not come to an end",
            "copy or export it again",
        )


def _longest_line(content: bytes) -> int:
    import numpy as np

    ends = np.flatnonzero(np.frombuffer(content, np.uint8) == ord("\n"))
    return int(np.diff(ends, prepend=-1, append=len(content)).max()) - 1


def _open_binary(path: Path) -> Document:
    import ezdxf

    try:
        return ezdxf.readfile(path)
    except Exception as error:  # whatever damaged bytes make the parser do
        raise _refused(
            path,
            "this binary DXF is damaged or cut off",
            "export it again, best as ASCII DXF",
        ) from error


def _open_text(path: Path, content: bytes) -> tuple[Document, tuple[str, ...]]:
    import ezdxf
    from ezdxf import recover

    trouble = ""
    if not too_new(content):
        try:
            return ezdxf.read(io.StringIO(text_of(content), newline=None)), ()
        except Exception as first:  # damaged: the recovering reader forgives more
            trouble = str(first)
    if not trouble or MISSING in trouble:
        try:
            return ezdxf.read(io.StringIO(as_older(content))), ()
        except Exception as first:  # damaged in another way as well
            trouble = trouble or str(first)
    try:
        document, _ = recover.read(io.BytesIO(content))
    except Exception as error:  # whatever damaged text makes the parser do
        raise _refused(
            path, "this DXF is damaged beyond recovery", "export it again", _clause(error)
        ) from error
    if not len(document.modelspace()) and b"ENTITIES" not in content:
        raise _refused(path, "the file is cut off: it has no entities", "copy or export it again")
    return document, (f"The file is damaged and was read through recovery ({trouble}).",)


def _refused(path: Path, what: str, remedy: str, found: str = "") -> InputRefused:
    return InputRefused(Mistake(what=what, where=str(path), found=found, remedy=remedy))


def _clause(error: Exception) -> str:
    """A library's sentence as a part of ours."""
    said = str(error).strip().rstrip(".").replace(": ", " ")
    return f"{said[:1].lower()}{said[1:]}"
