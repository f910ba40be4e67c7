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
    plans, shown = sum(len(s.views) for s in sheets), 0
    lines = []
    for sheet in sheets:
        heads = list(dict.fromkeys(t.text for t in sheet.texts if t.ref == HEAD))
        if sheet.views:
            first, shown = shown + 1, shown + len(sheet.views)
            parts = f"part {first}" if first == shown else f"parts {first} to {shown}"
            told = f", {parts} of {plans}" if plans > 1 else ""
            lines.append(f"{sheet.number}: {sheet.title}{told}")
        else:
            more = ["and more"] if len(heads) > MOST else []
            lines.append(f"{sheet.number}: {', '.join([*heads[:MOST], *more])}")
    return tuple(lines)


def sheet_list(lines: Sequence[str], text: float, width: float) -> Prose:
    """The list as a block."""
    return Prose("Sheets", tuple(lines), text, width, first=0)
