"""Tells what a file is by what stands in it; its name decides only where plain text could be two things."""

import os
import re
from enum import StrEnum
from pathlib import Path

from kerfline.errors import InputRefused, Mistake

HEAD = 65_536
"""Bytes at the start of a file that tell what it is; the header of a building model may be long."""

PDF_STARTS_WITHIN = 1024
"""Bytes that may stand before the mark of a PDF (ISO 32000-1, annex H, note 13)."""

BINARY_DXF = b"AutoCAD Binary DXF"

READ = 'a job file (.toml), a drawing (.dxf, .dwg, .pdf), a building model (.ifc) or a size such as "40 ft x 28 ft"'
"""What a command can be given."""


class Kind(StrEnum):
    """What a file is, in words."""

    JOB = "a job file"
    LAYOUT = "a layout file (JSON)"
    DXF = "a DXF"
    DWG = "a DWG"
    IFC = "a building model (IFC)"
    PDF = "a PDF"
    PICTURE = "a picture"


DRAWINGS = frozenset({Kind.DXF, Kind.DWG, Kind.PDF, Kind.IFC})
"""Files that a plan is read from, and that a job file may name under ``[drawing]``."""

BY_NAME = {".toml": Kind.JOB, ".dxf": Kind.DXF}
"""What plain text is taken for by its name, where what stands in it does not tell."""

_REMEDIES = {
    Kind.LAYOUT: "name the job that it was made of; kerfline check takes it with --plan or --beside",
    Kind.PICTURE: "lay it under the page (kerfline view, Picture underneath) and trace over it, or write the slab's sizes",
}
_PICTURES = {
    b"\x89PNG": "PNG",
    b"\xff\xd8\xff": "JPEG",
    b"II*\x00": "TIFF",
    b"MM\x00*": "TIFF",
    b"GIF8": "GIF",
}
_BOXED_PICTURES = (b"heic", b"heix", b"mif1", b"msf1", b"avif")
"""Brands of pictures as telephones keep them (ISO 14496-12, file type box)."""

_FOREIGN = {
    b"ISO-10303": ("a STEP file of no building", "export the building as IFC"),
    b"PK\x03\x04": ("a ZIP archive", "unpack it and name the file in it"),
    b"<?xml": ("an XML or SVG file", ""),
    b"<svg": ("an XML or SVG file", ""),
    b"<!doctype": ("a web page", ""),
    b"<html": ("a web page", ""),
}
_DWG = re.compile(rb"AC(10[0-9]{2}|[12]\.[0-9]{1,2})(\x00|$)")
_IFC = re.compile(rb"FILE_SCHEMA\s*\(\s*\(\s*'IFC")
_KEY = re.compile(rb"\s*(\[{1,2}\s*[\w\"'.-]+|[\w\"'.-]+\s*=)")


def kind_of(path: Path) -> Kind:
    """What a file is.

    Args:
        path: The file; only its first bytes are read.

    Raises:
        InputRefused: It is not there, cannot be read, is empty, or is nothing that can be read here.
    """
    head = head_of(path)
    kind = kind_of_bytes(head) or _by_name(path, head)
    if kind is None:
        what = f"this is {words_for(head) or 'nothing that can be read here'}"
        raise InputRefused(
            Mistake(what=what, where=str(path), allowed=READ, remedy=_remedy_for(head))
        )
    return kind


def head_of(path: Path) -> bytes:
    """The first bytes of a file.

    Raises:
        InputRefused: It is not there, is a folder, or cannot be read.
    """
    try:
        with path.open("rb") as file:
            return file.read(HEAD)
    except FileNotFoundError:
        what, remedy = "there is no such file", "check the path"
    except IsADirectoryError:
        what, remedy = "this is a folder", "name the file in it"
    except (OSError, ValueError) as error:  # a path with a zero byte is a ValueError
        code = getattr(error, "errno", None)
        what = f"the file cannot be read ({os.strerror(code) if code else error})"
        remedy = "check who may read it"
    raise InputRefused(Mistake(what=what, where=str(path), remedy=remedy))


def kind_of_bytes(head: bytes) -> Kind | None:
    """What the first bytes of a file say that it is; None where they do not say it."""
    text = _text(head)
    if _DWG.match(head):
        return Kind.DWG
    if b"%PDF-" in head[:PDF_STARTS_WITHIN]:
        return Kind.PDF
    if picture_kind(head):
        return Kind.PICTURE
    if text.startswith(b"ISO-10303-21"):
        return Kind.IFC if _IFC.search(text) else None
    if head.startswith(BINARY_DXF) or _starts_with_section(text):
        return Kind.DXF
    if b"\x00" in head:
        return None
    if text.startswith(b"{"):
        return Kind.LAYOUT
    return Kind.JOB if _looks_like_toml(text) else None


def cannot_start(kind: Kind, path: Path) -> Mistake:
    """Why a file whose kind is known starts no job."""
    return Mistake(what=f"this is {kind}", where=str(path), allowed=READ, remedy=_REMEDIES[kind])


def words_for(head: bytes) -> str:
    """What the first bytes of a file say that it is, in words; empty where they do not say it."""
    if not head.strip():
        return "an empty file"
    kind = kind_of_bytes(head)
    if kind is Kind.PICTURE:
        return f"a {picture_kind(head)} picture"
    if kind in (None, Kind.JOB):
        return next((name for mark, (name, _) in _FOREIGN.items() if _starts(head, mark)), "")
    return str(kind)


def picture_kind(head: bytes) -> str:
    """Which kind of picture the first bytes of a file begin, such as ``PNG``; empty where none."""
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "WebP"
    if head[4:8] == b"ftyp" and head[8:12] in _BOXED_PICTURES:
        return "HEIC"
    if head[:2] == b"BM" and head[6:10] == bytes(4):
        return "BMP"
    return next((name for mark, name in _PICTURES.items() if head.startswith(mark)), "")


def _remedy_for(head: bytes) -> str:
    return next((remedy for mark, (_, remedy) in _FOREIGN.items() if _starts(head, mark)), "")


def _starts(head: bytes, mark: bytes) -> bool:
    """Whether a file starts with a mark, in small or capital letters, behind spaces or not."""
    return _text(head)[: len(mark)].lower() == mark.lower()


def _text(head: bytes) -> bytes:
    """What stands behind the mark of UTF-8 and white space."""
    return head.removeprefix(b"\xef\xbb\xbf").lstrip()


def _starts_with_section(text: bytes) -> bool:
    """Whether the first line that is no comment (group 999) is a section's group code of a DXF."""
    lines = [line.strip() for line in text.splitlines()]
    at = 0
    while at + 1 < len(lines) and lines[at] in (b"999", b""):
        at += 2 if lines[at] == b"999" else 1
    return at + 1 < len(lines) and lines[at] == b"0" and lines[at + 1] == b"SECTION"


def _looks_like_toml(text: bytes) -> bool:
    """Whether the first line that says something is a table's head or a key with a value."""
    lines = (line for line in text.splitlines() if not line.lstrip().startswith(b"#"))
    first = next((line for line in lines if line.strip()), b"")
    return bool(_KEY.match(first))


def _by_name(path: Path, head: bytes) -> Kind | None:
    """What its name says of a file that could be anything."""
    return None if words_for(head) else BY_NAME.get(path.suffix.lower())
