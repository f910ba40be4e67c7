"""The panel table and the joint table as CSV (RFC 4180: commas, quotes, CR LF; UTF-8)."""

import csv
import io
from collections.abc import Iterable, Sequence

from kerfline.model.finding import Finding
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.rows import JointRow, PanelRow, joint_rows, panel_rows
from kerfline.units import MM_PER_METRE, Display, format_area, format_depth, format_length

Cell = str | float | int

PANEL_HEADER = (
    "panel", "length", "width", "area", "aspect", "span_used_percent", "status", "length_mm",
    "width_mm", "area_m2", "run",
)  # fmt: skip
JOINT_HEADER = (
    "joint", "kind", "length", "under_walls", "depth", "start_along", "start_across", "end_along",
    "end_across", "reason", "note", "length_mm", "under_walls_mm", "depth_mm", "start_along_mm",
    "start_across_mm", "end_along_mm", "end_across_mm", "run",
)  # fmt: skip

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet takes a cell that begins with one of these for a formula."""

PLACES_MM = 1
PLACES_AREA = 4
PLACES_RATIO = 3
PERCENT = 100.0


def panels_csv(job: Job, layout: Layout, findings: Iterable[Finding], rules: SlabRules) -> bytes:
    """The panel table: for people in the job's units, then in mm and m2 for programs."""
    rows = panel_rows(job, layout, findings, rules)
    return csv_bytes(PANEL_HEADER, ((*_panel(row, job.display), job.sheet.run) for row in rows))


def joints_csv(job: Job, layout: Layout) -> bytes:
    """The joint table; ends are offsets along and across the first baseline of the sheets."""
    rows = joint_rows(job, layout)
    return csv_bytes(JOINT_HEADER, ((*_joint(row, job.display), job.sheet.run) for row in rows))


def _panel(row: PanelRow, display: Display) -> Sequence[Cell]:
    return (
        row.id,
        format_length(row.length, display),
        format_length(row.width, display),
        format_area(row.area, display),
        round(row.aspect, PLACES_RATIO),
        round(row.span_used * PERCENT, 1),
        row.status.value,
        round(row.length, PLACES_MM),
        round(row.width, PLACES_MM),
        round(row.area / MM_PER_METRE**2, PLACES_AREA),
    )


def _joint(row: JointRow, display: Display) -> Sequence[Cell]:
    lengths = (row.length, row.hidden, row.depth)
    offsets = (*row.start, *row.end)
    return (
        row.id,
        row.kind.value,
        format_length(row.length, display),
        format_length(row.hidden, display),
        format_depth(row.depth, display),
        *(format_length(offset, display) for offset in offsets),
        row.reason,
        row.note,
        *(_plain(mm) for mm in (*lengths, *offsets)),
    )


def _plain(mm: float) -> float:
    """A rounded number; adding zero takes the sign off minus zero."""
    return round(mm, PLACES_MM) + 0.0


def csv_bytes(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """A table as CSV; cells that a spreadsheet would take for a formula are quoted."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(header)
    writer.writerows([safe(cell) for cell in row] for row in rows)
    return text.getvalue().encode("utf-8")


def safe(cell: Cell) -> Cell:
    """A cell that no spreadsheet takes for a formula; numbers stay numbers."""
    if isinstance(cell, str) and cell.startswith(FORMULA_STARTS):
        return f"'{cell}"
    return cell
