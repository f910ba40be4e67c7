"""The summary of many slabs: a table for the terminal, a CSV, a sheet, and the totals of the tract."""

import textwrap
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from kerfline.app.many.line import Fate, Line
from kerfline.app.sheet_files import sheet_files
from kerfline.app.summary import WIDTH
from kerfline.units import (
    MM3_PER_M3,
    MM_PER_METRE,
    Display,
    counted,
    format_area,
    format_run,
    format_volume,
)

NAME = "summary"
LONGEST = 28
"""Letters of a slab's name that the terminal shows."""

HEAD = ("slab", "", "area", "panels", "joints", "errors", "warnings", "concrete", "files")

CSV_HEAD = (
    "slab", "source", "state", "why", "area_m2", "panels", "joints_m", "sawn_m", "dowels", "concrete_m3",
    "errors", "warnings", "files", "folder", "run",
)  # fmt: skip

WORST_FIRST = (Fate.FAILED, Fate.REFUSED)


def summary_files(lines: Sequence[Line]) -> dict[str, bytes]:
    """The summary's files by name: ``summary.csv``, ``summary.pdf``, ``summary.svg``, ..."""
    from kerfline.files.tables import csv_bytes
    from kerfline.sheets.tract_sheet import tract_sheets

    title = counted(len(lines), "slab")
    rows = [_row(line) for line in lines]
    left = [(line.source, line.words) for line in _not_done(lines)]
    drawn = tract_sheets(title, _display(lines), HEAD, rows, _totals(lines), left)
    return {
        **sheet_files(NAME, drawn),
        f"{NAME}.csv": csv_bytes(CSV_HEAD, (_csv_row(line) for line in lines)),
    }


def summary_text(lines: Sequence[Line], written: Sequence[Path]) -> str:
    """The table of the slabs, the totals, what was not done and why, and where the summary lies."""
    rows = [HEAD, *(_row(line) for line in lines)]
    rows = [(_short(row[0]), *row[1:]) for row in rows]
    widths = [max(len(row[i]) for row in rows) for i in range(len(HEAD))]
    table = ["  ".join(_set(row, widths)).rstrip() for row in rows]
    totals = [f"{name:<10}{words}" for name, words in _totals(lines)]
    left = [_told(line) for line in _not_done(lines)]
    parts = (table, totals, left, [f"{'files':<10}{path}" for path in written])
    return "\n\n".join("\n".join(part) for part in parts if part)


def worst(lines: Iterable[Line]) -> int:
    """The exit status: the worst of those that the slabs would have alone."""
    return max((line.status for line in lines), default=0)


def _row(line: Line) -> tuple[str, ...]:
    """A slab's cells, in its own units."""
    if not line.counts:
        return (line.name, line.fate.value, *[""] * (len(HEAD) - 2))
    return (
        line.name,
        "" if line.fate is Fate.DONE else line.fate.value,
        format_area(line.area, line.display),
        f"{line.panels:,}",
        format_run(line.joints, line.display),
        str(line.errors or ""),
        str(line.warnings or ""),
        format_volume(line.concrete, line.display),
        str(line.files),
    )


def _csv_row(line: Line) -> tuple[str | float, ...]:
    figures: tuple[str | float, ...] = ("",) * 8
    if line.counts:
        figures = (
            round(line.area / MM_PER_METRE**2, 2), line.panels, round(line.joints / MM_PER_METRE, 2),
            round(line.sawn / MM_PER_METRE, 2), line.dowels, round(line.concrete / MM3_PER_M3, 3),
            line.errors, line.warnings,
        )  # fmt: skip
    ends = (line.files, line.folder, line.mark) if line.counts else ("", "", "")
    return (line.name, line.source, line.fate.value, line.words, *figures, *ends)


def _totals(lines: Sequence[Line]) -> list[tuple[str, str]]:
    """The totals of the tract; equal plans count as often as they are named."""
    display = _display(lines)
    done = [line for line in lines if line.counts]

    def total(of: Callable[[Line], float]) -> float:
        return sum(of(line) for line in done)

    slabs = f"{len(lines):,}" if len(done) == len(lines) else f"{len(done):,} of {len(lines):,}"
    return [
        ("slabs", slabs),
        ("area", format_area(total(lambda x: x.area), display)),
        ("concrete", format_volume(total(lambda x: x.concrete), display)),
        ("joints", format_run(total(lambda x: x.joints), display)),
        ("sawn", format_run(total(lambda x: x.sawn), display)),
        ("dowels", f"{int(total(lambda x: x.dowels)):,}"),
        ("errors", f"{int(total(lambda x: x.errors)):,}"),
        ("warnings", f"{int(total(lambda x: x.warnings)):,}"),
    ]


def _display(lines: Sequence[Line]) -> Display:
    """How totals are written: as the first slab that was read."""
    return next((line.display for line in lines if line.counts), Display.FEET_INCHES)


def _not_done(lines: Iterable[Line]) -> list[Line]:
    return sorted((x for x in lines if not x.counts), key=lambda x: WORST_FIRST.index(x.fate))


def _told(line: Line) -> str:
    return textwrap.fill(
        line.words if line.source in line.words else f"{line.source}: {line.words}",
        WIDTH,
        initial_indent=f"{line.fate.value:<9} ",
        subsequent_indent=" " * 10,
        break_on_hyphens=False,
        break_long_words=False,
    )


def _short(name: str) -> str:
    return name if len(name) <= LONGEST else f"{name[: LONGEST - 3]}..."


def _set(row: Sequence[str], widths: Sequence[int]) -> list[str]:
    """A row's cells set in their columns: words to the left, numbers to the right."""
    return [
        cell.ljust(width) if i < 2 else cell.rjust(width)  # noqa: PLR2004 - name and state are words
        for i, (cell, width) in enumerate(zip(row, widths, strict=True))
    ]
