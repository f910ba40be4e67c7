"""The model of a text DXF alone: its sheets are cut out of its bytes before it is taken apart.

A set of sheets for a crowded floor takes ten times the records of the floor itself, and nothing of a slab is drawn on
them. What goes is what stands in paper space, with the blocks that its dimensions are drawn by, and of our own drawings,
which tell each part by extended data, what lies on the layers of words and figures.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice, pairwise

from kerfline.files.dxf_setup import APP_ID
from kerfline.sheets.marks import Layer

MANY = 10_000
"""Records from which it is worth while: so many are taken apart in some six tenths of a second."""

MOST_RECORDS = 3_000_000
"""Records up to which a drawing is taken for one with sheets: ours of 1,000 walls has 611,000. More fill the memory of a
small machine, and are left to the limits."""

RECORD = re.compile(rb"\n[ \t]*0[ \t]*\r?\n(?=[A-Z])")
"""Where a record of a text DXF begins: an entity, a vertex, a layer, a block."""

TYPE = re.compile(rb"[A-Z][A-Z0-9_]*")

ON_PAPER = re.compile(rb"\n[ \t]*67[ \t]*\r?\n[ \t]*1[ \t]*(?=\r?\n)")
"""The flag of what stands in paper space."""

NAME = re.compile(rb"\n[ \t]*2[ \t]*\r?\n([^\r\n]*)")
"""The name of a section or a block, and of the block that a dimension is drawn by."""

LAYER = re.compile(rb"\n[ \t]*8[ \t]*\r?\n([^\r\n]*)")

PAPER_BLOCK = re.compile(rb"[*$]paper_space", re.IGNORECASE)
"""How the names of the blocks begin that hold what stands on sheets."""

OWN = re.compile(rb"\n1001\r?\n" + APP_ID.encode() + rb"\r?\n")
"""Extended data of our own."""

SAYING = frozenset(
    layer.value.encode()
    for layer in (
        Layer.TITLE, Layer.TABLE, Layer.NOTE, Layer.SYMBOL, Layer.DETAIL, Layer.TAG, Layer.FINDING,
        Layer.DIMENSION, Layer.MATCH, Layer.PANEL, Layer.HATCH, Layer.BARS,
    )
)  # fmt: skip
"""Layers of our own drawings on which nothing lies that a slab or its joints are read from."""

PARTS = frozenset((b"VERTEX", b"ATTRIB", b"SEQEND"))
"""Records that belong to the entity before them."""


@dataclass
class _Reader:
    """Goes through the records of a drawing in their order.

    Attributes:
        own: Whether it is a drawing of our own.
        drawn_by: Names of the blocks that dimensions are drawn by which are left out.
        drawn: How many records of the model's entities are kept.
    """

    own: bool
    drawn_by: set[bytes] = field(default_factory=set)
    drawn: int = 0
    _section: bytes = b""
    _on_sheet: bool = False
    _left_out: bool = False

    def keeps(self, record: bytes) -> bool:
        """Whether a record is of the model."""
        kind = _kind(record)
        if kind == b"SECTION":
            self._section = _said(NAME, record)
        if kind in (b"SECTION", b"ENDSEC", b"EOF"):
            return True
        if self._section == b"BLOCKS" and kind in (b"BLOCK", b"ENDBLK"):
            name = _said(NAME, record) if kind == b"BLOCK" else b""
            self._on_sheet = PAPER_BLOCK.match(name) is not None
            return True
        if self._section not in (b"BLOCKS", b"ENTITIES"):
            return True
        if kind not in PARTS:
            self._left_out = self._on_sheet or self._is_sheets(record)
            if self._left_out and kind == b"DIMENSION":
                self.drawn_by.add(_said(NAME, record))
        self.drawn += self._section == b"ENTITIES" and not self._left_out
        return not self._left_out

    def _is_sheets(self, record: bytes) -> bool:
        """Whether an entity of the model's section stands on a sheet, or says what needs no reading."""
        if self._section != b"ENTITIES":
            return False
        return _on_paper(record) or (self.own and _said(LAYER, record) in SAYING)


def model_alone(content: bytes) -> bytes:
    """A text DXF without its sheets; as it is where it has few records or far too many, or no model at all.

    Args:
        content: Its bytes.

    Returns:
        The same bytes with records left out.
    """
    records_found = islice(RECORD.finditer(content), MOST_RECORDS + 1)
    starts = [found.start() for found in records_found]
    if not MANY <= len(starts) <= MOST_RECORDS:
        return content
    reader = _Reader(own=OWN.search(content) is not None)
    records = (content[start:end] for start, end in pairwise((*starts, len(content))))
    kept = [record for record in records if reader.keeps(record)]
    if not reader.drawn:
        return content
    return b"".join((content[: starts[0]], *_without(kept, frozenset(reader.drawn_by))))


def _without(records: list[bytes], names: frozenset[bytes]) -> Iterator[bytes]:
    """Records without some blocks and their entries in the table of blocks."""
    inside = False
    for record in records:
        kind = _kind(record)
        if kind in (b"BLOCK", b"BLOCK_RECORD"):
            inside = _said(NAME, record) in names
        if not inside:
            yield record
        if kind in (b"BLOCK_RECORD", b"ENDBLK"):
            inside = False


def _kind(record: bytes) -> bytes:
    """The type of a record, which stands behind its code 0."""
    found = TYPE.search(record)
    return found[0] if found else b""


def _on_paper(record: bytes) -> bool:
    """Whether a record says that it stands in paper space."""
    return any(_is_code(record, found) for found in ON_PAPER.finditer(record))


def _said(pattern: re.Pattern[bytes], record: bytes) -> bytes:
    """What a record says first under a code; empty where it says nothing."""
    said = (found[1].strip() for found in pattern.finditer(record) if _is_code(record, found))
    return next(said, b"")


def _is_code(record: bytes, found: re.Match[bytes]) -> bool:
    """Whether what was found begins with a code, not with a value that looks like one.

    Codes and values take turns, a line each, and a record begins with the line end before its first code.
    """
    return record.count(b"\n", 0, found.start()) % 2 == 0
