"""The tables of a layout as a workbook: real numbers, their units in the headings."""

import io
import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.rows import JointRow, PanelRow, joint_rows, panel_rows
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, MM_PER_METRE, Display

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.worksheet import Worksheet

Cell = str | float | int | None

MADE = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
"""The date of every workbook, so that the same input gives the same bytes."""

WIDEST = 60
"""Widest column in characters; longer text wraps."""

NUMBER, RATIO, SHARE = "#,##0.00", "0.00", "0%"


@dataclass(frozen=True, kw_only=True)
class Grid:
    """A table for one sheet of the workbook.

    Attributes:
        title: Name of the sheet, 31 characters at most.
        headings: Heading of each column, with its unit.
        rows: Text and real numbers; None is an empty cell.
        formats: Number format of each column, as spreadsheets write them; empty leaves it plain.
    """

    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    formats: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class UnitNames:
    """Names and sizes of the units of numbers in the workbook."""

    length: str
    mm: float
    depth: str
    depth_mm: float


PLACES = 4
"""Decimals of a number in a cell: finer than a hair in feet, metres and inches."""

UNITS = {
    Display.FEET_INCHES: UnitNames(length="ft", mm=MM_PER_FOOT, depth="in", depth_mm=MM_PER_INCH),
    Display.METRIC: UnitNames(length="m", mm=MM_PER_METRE, depth="mm", depth_mm=1.0),
}


def workbook(
    job: Job,
    layout: Layout,
    findings: Sequence[Finding],
    rules: SlabRules,
    more: Iterable[Grid] = (),
) -> bytes:
    """The workbook: panels, joints, cuts by depth, findings, then what else is given.

    Args:
        job: The job.
        layout: Its layout.
        findings: What was found.
        rules: The rules of the job.
        more: Further tables, such as the take-off.
    """
    units = UNITS[job.display]
    joints = joint_rows(job, layout)
    grids = [
        _panels(panel_rows(job, layout, findings, rules), units),
        _joints(joints, units),
        _cuts(joints, units),
        _findings(findings),
        *more,
    ]
    return _bytes(job, grids)


def _panels(rows: Iterable[PanelRow], units: UnitNames) -> Grid:
    return Grid(
        title="Panels",
        headings=(
            "panel", f"length, {units.length}", f"width, {units.length}", f"area, {units.length}2",
            "length / width", "share of span", "status",
        ),
        rows=tuple(
            (
                row.id, row.length / units.mm, row.width / units.mm, row.area / units.mm**2,
                row.aspect, row.span_used, row.status.value,
            )
            for row in rows
        ),
        formats=("", NUMBER, NUMBER, NUMBER, RATIO, SHARE, ""),
    )  # fmt: skip


def _joints(rows: Iterable[JointRow], units: UnitNames) -> Grid:
    ends = ("start along", "start across", "end along", "end across")
    return Grid(
        title="Joints",
        headings=(
            "joint", "kind", f"length, {units.length}", f"under walls, {units.length}",
            f"depth, {units.depth}", *(f"{end}, {units.length}" for end in ends), "reason", "note",
        ),
        rows=tuple(
            (
                row.id, row.kind.value, row.length / units.mm, row.hidden / units.mm,
                row.depth / units.depth_mm, *(mm / units.mm for mm in (*row.start, *row.end)),
                row.reason, row.note,
            )
            for row in rows
        ),
        formats=("", "", *[NUMBER] * 7, "", ""),
    )  # fmt: skip


def _cuts(rows: Iterable[JointRow], units: UnitNames) -> Grid:
    """Sawn joints summed by depth, then those that are formed."""
    groups: dict[tuple[str, float], list[JointRow]] = defaultdict(list)
    for row in rows:
        groups[row.kind.value, round(row.depth, 1)].append(row)
    return Grid(
        title="Cuts",
        headings=("kind", f"depth, {units.depth}", "joints", f"length, {units.length}"),
        rows=tuple(
            (kind, depth / units.depth_mm, len(group), sum(r.length for r in group) / units.mm)
            for (kind, depth), group in sorted(groups.items())
        ),
        formats=("", NUMBER, "", NUMBER),
    )


def _findings(findings: Iterable[Finding]) -> Grid:
    return Grid(
        title="Findings",
        headings=("severity", "rule", "subject", "finding", "remedy", "source"),
        rows=tuple(
            (f.severity.value, f.rule.value, f.subject, f.message, f.remedy, f.source)
            for f in findings
        ),
    )


def _bytes(job: Job, grids: Iterable[Grid]) -> bytes:
    import xlsxwriter

    buffer = io.BytesIO()
    book = xlsxwriter.Workbook(buffer, {"in_memory": True})
    run = f"run mark {job.sheet.run}" if job.sheet.run else ""
    book.set_properties({"title": job.name, "created": MADE, "comments": run})
    for grid in grids:
        sheet = book.add_worksheet(grid.title)
        sheet.set_footer(f"&L{_footer(job.name)}&R{_footer(run)}")
        _write(book, sheet, grid)
    book.close()
    return buffer.getvalue()


def _write(book: "Workbook", sheet: "Worksheet", grid: Grid) -> None:
    head = book.add_format({"bold": True, "text_wrap": True, "valign": "top", "bottom": 1})
    for column, heading in enumerate(grid.headings):
        sheet.write_string(0, column, heading, head)
        sheet.set_column(column, column, _width(grid, column))
    formats = [book.add_format(_style(f)) for f in grid.formats or [""] * len(grid.headings)]
    for number, row in enumerate(grid.rows, start=1):
        for column, cell in enumerate(row):
            _put(sheet, number, column, cell, formats[column])
    sheet.freeze_panes(1, 1)
    sheet.autofilter(0, 0, max(len(grid.rows), 1), len(grid.headings) - 1)
    sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)


def _footer(words: str) -> str:
    """Words as they stand in a footer, where an ampersand begins a code and stands for itself twice."""
    return words.replace("&", "&&")


def _style(number_format: str) -> dict[str, Any]:
    plain = {"valign": "top", "text_wrap": True}
    return {**plain, "num_format": number_format} if number_format else plain


def _put(sheet: "Worksheet", row: int, column: int, cell: Cell, style: object) -> None:
    """Writes text as text (never as a formula or a link) and numbers as numbers."""
    if cell is None or (isinstance(cell, float) and not math.isfinite(cell)):
        sheet.write_blank(row, column, None, style)
    elif isinstance(cell, str):
        sheet.write_string(row, column, cell, style)
    else:  # adding zero takes the sign off minus zero
        sheet.write_number(row, column, round(cell, PLACES) + 0.0, style)


def _width(grid: Grid, column: int) -> int:
    """Characters of the longest word of the heading or the longest text below it."""
    words = [len(word) for word in grid.headings[column].split()]
    texts = [len(str(r[column])) for r in grid.rows if isinstance(r[column], str)]
    numbers = [len(f"{r[column]:,.2f}") for r in grid.rows if isinstance(r[column], float)]
    return min(max([*words, *texts, *numbers, 6]) + 2, WIDEST)
