"""Lays a job out and plans its placement day."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from kerfline.app.cut_files import cut_files
from kerfline.app.day import plan_day
from kerfline.app.file_names import file_stem
from kerfline.app.live import outcome_of
from kerfline.app.open_job import open_job
from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import marked
from kerfline.app.sheet_files import sheet_files
from kerfline.app.wishes import Wishes
from kerfline.model.day import DayInput
from kerfline.model.job import Job
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
    outcome = outcome_of(job, progress)
    plan = plan_day(job.slab, outcome.layout, outcome.rules, day, job.display, job=job.name)
    return DayOutcome(outcome=outcome, plan=plan)


def day_contents(day: DayOutcome) -> dict[str, bytes]:
    """The day's files by name: sheets, text, record for programs, cuts, loads, workbook with the take-off."""
    from kerfline.files.day_grids import day_grids
    from kerfline.files.day_record import cuts_csv, day_json, loads_csv
    from kerfline.files.workbook import workbook
    from kerfline.sheets.day.sheet import day_sheets
    from kerfline.sheets.day.text import day_text

    outcome, plan = marked(day.outcome), day.plan
    job, layout = outcome.job, outcome.layout
    stem = file_stem(job.name)
    sheets = day_sheets(job, layout, plan)
    return {
        **sheet_files(f"{stem}-day-sheet", sheets),
        **cut_files(outcome, plan),
        f"{stem}-day.txt": (
            day_text(plan, job.display) + f"\n\nrun mark {job.sheet.run}\n"
        ).encode(),
        f"{stem}-day.json": day_json(job, plan),
        f"{stem}-cuts.csv": cuts_csv(job, plan),
        f"{stem}-loads.csv": loads_csv(job, plan),
        f"{stem}.xlsx": workbook(
            job, layout, outcome.findings, outcome.rules, day_grids(plan, job)
        ),
    }


def day_beside(job: Job, path: Path) -> DayInput | None:
    """What a job tells of its placement day; None where it tells nothing.

    Raises:
        InputRefused: The day cannot be used.
    """
    from kerfline.files.day_file import read_day

    return read_day(job, path) if job.day else None


def plan_beside(outcome: Outcome, path: Path) -> DayPlan | None:
    """The placement day of a layout whose job tells of one; None where it does not.

    Args:
        outcome: The layout.
        path: The job file.

    Raises:
        InputRefused: The day cannot be used.
    """
    job, day = outcome.job, day_beside(outcome.job, path)
    if day is None:
        return None
    return plan_day(job.slab, outcome.layout, outcome.rules, day, job.display, job=job.name)
