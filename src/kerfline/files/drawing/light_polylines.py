"""Polylines that the library would not read, or read without their layer: written as older releases write them.

Scripts write the polylines of release 14 and later (LWPOLYLINE) into files that say release 12 or nothing, or leave out
the subclass markers that they need there. The group codes are those of the DXF reference.
"""

import re
from collections.abc import Iterator, Sequence

NAME = b"LWPOLYLINE"

VERSION = re.compile(rb"\$ACADVER\s+1\s+AC(\d+)")

CODE_PAGE = re.compile(rb"\$DWGCODEPAGE\s+3\s+(\S+)")

FIRST = 1012
"""The first version of the format that has such polylines: release 13."""

MISSING = "missing 'AcDbPolyline' subclass"
"""What the library says where the markers are left out."""

AT_EACH = frozenset(("20", "30", "40", "41", "42"))
"""Codes of a corner behind its x (10): y, z, the widths, the bulge."""

OWN = frozenset(("10", "38", "43", "70", "90", "91", "100", *AT_EACH))
"""Codes that such a polyline has beside those of all entities."""

Group = tuple[str, str]


def too_new(content: bytes) -> bool:
    """Whether a DXF of release 12 or of none holds such polylines all the same."""
    if NAME not in content:
        return False
    said = VERSION.search(content)
    return said is None or int(said[1]) < FIRST


def as_older(content: bytes) -> str:
    """The text of a DXF with all such polylines as older ones, each corner a record of its own (POLYLINE, VERTEX)."""
    # Only line ends part lines: other breaks, of a page or a paragraph, may stand in a text.
    lines = re.split("\r\n|\r|\n", text_of(content))
    groups = [(c.strip(), v) for c, v in zip(lines[::2], lines[1::2], strict=False)]
    out: list[Group] = []
    for record in _records(groups):
        light = record[0][1].strip() == NAME.decode()
        out += _older(record) if light else record
    return "".join(f"{code}\n{value}\n" for code, value in out)


def text_of(content: bytes) -> str:
    """A DXF's text: UTF-8, else in the code page that it says."""
    from ezdxf.tools.codepage import toencoding

    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        said = CODE_PAGE.search(content)
        page = toencoding(said[1].decode("ascii", errors="replace")) if said else "cp1252"
        return content.decode(page, errors="replace")


def _records(groups: Sequence[Group]) -> Iterator[list[Group]]:
    """The groups of each record; each begins with its code 0."""
    record: list[Group] = []
    for group in groups:
        if group[0] == "0" and record:
            yield record
            record = []
        record.append(group)
    if record:
        yield record


def _older(record: Sequence[Group]) -> Iterator[Group]:
    common = [g for g in record[1:] if g[0] not in OWN]
    layer = next((g for g in common if g[0] == "8"), ("8", "0"))
    said = dict(record)
    yield ("0", "POLYLINE")
    yield from common
    yield ("66", "1")
    yield ("70", said.get("70", "0"))
    if "43" in said:
        yield ("40", said["43"])
        yield ("41", said["43"])
    yield from (("10", "0"), ("20", "0"), ("30", said.get("38", "0")))
    corner = False
    for code, value in record[1:]:
        if code == "10":
            corner = True
            yield ("0", "VERTEX")
            yield layer
        if code == "10" or (corner and code in AT_EACH):
            yield (code, value)
    yield ("0", "SEQEND")
    yield layer
