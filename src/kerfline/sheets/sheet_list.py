"""The list of sheets on the first sheet of a long set: what stands on which."""

from collections.abc import Sequence

from kerfline.sheets.blocks import HEAD
from kerfline.sheets.marks import Sheet
from kerfline.sheets.prose import Prose

LONG = 5
"""A set of so many sheets has a list of them."""

MOST = 4
"""Headings that are named of one sheet."""


def listed_sheets(sheets: Sequence[Sheet]) -> tuple[str, ...]:
    """A line for each sheet of a long set: its number, its part of the plan, the headings on it; none of a short set."""
    if len(sheets) < LONG:
        return ()
    lines = []
    for sheet in sheets:
        heads = list(dict.fromkeys(t.text for t in sheet.texts if t.ref == HEAD))
        if sheet.views:
            lines.append(f"{sheet.number}: {sheet.title}{_parts_told(sheet, sheets)}")
        else:
            more = ["and more"] if len(heads) > MOST else []
            lines.append(f"{sheet.number}: {', '.join([*heads[:MOST], *more])}")
    return tuple(lines)


def _parts_told(sheet: Sheet, sheets: Sequence[Sheet]) -> str:
    """Which parts of its plan a sheet shows; nothing where it shows all of it."""
    alike = [s for s in sheets if s.views and s.title == sheet.title]
    count = sum(len(s.views) for s in alike)
    if count == 1:
        return ""
    last = sum(len(s.views) for s in alike if s.number <= sheet.number)
    first = last - len(sheet.views) + 1
    return f", {f'part {first}' if first == last else f'parts {first} to {last}'} of {count}"


def sheet_list(lines: Sequence[str], text: float, width: float) -> Prose:
    """The list as a block."""
    return Prose("Sheets", tuple(lines), text, width, first=0)
