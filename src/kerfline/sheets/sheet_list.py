"""The list of sheets on the first sheet of a long set: what stands on which."""

from collections.abc import Sequence
from itertools import groupby

from kerfline.sheets.blocks import HEAD
from kerfline.sheets.marks import Sheet
from kerfline.sheets.prose import Prose

LONG = 5
"""A set of so many sheets has a list of them."""

MOST = 4
"""Headings that are named of one sheet."""

MANY_ALIKE = 8
"""So many sheets in a row of which the same is said have one line."""


def listed_sheets(sheets: Sequence[Sheet]) -> tuple[str, ...]:
    """A line for each sheet of a long set: its number, its part of the plan, the headings on it; none of a short set.

    Sheets in a row that differ in their part of a plan alone, or in nothing, are one line where they are many.
    """
    if len(sheets) < LONG:
        return ()
    lines: list[str] = []
    for _, run in groupby(sheets, key=_words):
        alike = list(run)
        rows = [alike] if len(alike) >= MANY_ALIKE else [[sheet] for sheet in alike]
        lines += [_line(row, sheets) for row in rows]
    return tuple(lines)


def _words(sheet: Sheet) -> tuple[bool, str]:
    """Whether a sheet shows a plan, and what is said of it: its title, or the headings on it."""
    if sheet.views:
        return True, sheet.title
    heads = list(dict.fromkeys(t.text for t in sheet.texts if t.ref == HEAD))
    more = ["and more"] if len(heads) > MOST else []
    return False, ", ".join([*heads[:MOST], *more])


def _line(row: Sequence[Sheet], sheets: Sequence[Sheet]) -> str:
    """The line of one sheet, or of several in a row."""
    first, last = row[0].number, row[-1].number
    numbers = f"{first}" if first == last else f"{first} to {last}"
    parts = _parts_told(row, sheets) if row[0].views else ""
    return f"{numbers}: {_words(row[0])[1]}{parts}"


def _parts_told(row: Sequence[Sheet], sheets: Sequence[Sheet]) -> str:
    """Which parts of their plan some sheets in a row show; nothing where they show all of it."""
    alike = [s for s in sheets if s.views and s.title == row[0].title]
    count = sum(len(s.views) for s in alike)
    if count == 1:
        return ""
    last = sum(len(s.views) for s in alike if s.number <= row[-1].number)
    first = last - sum(len(s.views) for s in row) + 1
    return f", {f'part {first}' if first == last else f'parts {first} to {last}'} of {count}"


def sheet_list(lines: Sequence[str], text: float, width: float) -> Prose:
    """The list as a block."""
    return Prose("Sheets", tuple(lines), text, width, first=0)
