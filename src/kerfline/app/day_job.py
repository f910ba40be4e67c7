"""Lays a job out and plans its placement day."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from kerfline.app.day import plan_day
from kerfline.app.deliver import file_stem
from kerfline.app.lay_out import lay_out_job
from kerfline.app.open_job import Wishes, open_job
from kerfline.app.outcome import Outcome
from kerfline.sheets.day.day_plan import DayPlan


@dataclass(frozen=True, kw_only=True)
class DayOutcome:
    """A layout and the day on which it is placed and cut."""

    outcome: Outcome
    plan: DayPlan


def day_job(
    path: Path, wishes: Wishes, progress: Callable[[str], None] | None = None
) -> DayOutcome:
    """Lays out what a job file gives and works its placement day out.

    Raises:
        InputRefused: The job or its day cannot be used.
    """
    from kerfline.files.day_file import read_day

    job = open_job(path, wishes)
    day = read_day(job, path)
    outcome = lay_out_job(job, progress)
    plan = plan_day(job.slab, outcome.layout, outcome.rules, day, job.display, job=job.name)
    return DayOutcome(outcome=outcome, plan=plan)


def day_contents(day: DayOutcome) -> dict[str, bytes]:
    """The day's files by name: sheets, plain text and workbook with the take-off."""
    from kerfline.files.sheet_pdf import pdf_bytes
    from kerfline.files.sheet_svg import svg_bytes
    from kerfline.files.workbook import Grid, workbook
    from kerfline.sheets.day.sheet import day_sheets
    from kerfline.sheets.day.text import day_text

    outcome, plan = day.outcome, day.plan
    stem = file_stem(outcome.job.name)
    sheets = day_sheets(outcome.job, outcome.layout, plan)
    take_off = Grid(
        title="Take-off",
        headings=("group", "item", "amount", "unit", "note"),
        rows=tuple(
            (r.group, r.item, round(r.amount, r.decimals), r.unit, r.note)
            for r in plan.take_off.rows
        ),
    )
    files = {f"{stem}-day-sheet.pdf": pdf_bytes(sheets)}
    for number, sheet in enumerate(sheets, start=1):
        part = "" if number == 1 else f"-{number}"
        files[f"{stem}-day-sheet{part}.svg"] = svg_bytes(sheet)
    files[f"{stem}-day.txt"] = (day_text(plan, outcome.job.display) + "\n").encode()
    files[f"{stem}.xlsx"] = workbook(
        outcome.job, outcome.layout, outcome.findings, outcome.rules, [take_off]
    )
    return files
