"""Lays a job out and plans its placement day."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from kerfline.app.day import plan_day
from kerfline.app.file_names import file_stem
from kerfline.app.live import outcome_of
from kerfline.app.open_job import Wishes, open_job
from kerfline.app.outcome import Outcome
from kerfline.app.sheet_files import sheet_files
from kerfline.sheets.day.day_plan import DayPlan
from kerfline.sheets.day.text import clock, day_of


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
    """The day's files by name: sheets, plain text and workbook with the take-off."""
    from kerfline.files.workbook import Grid, workbook
    from kerfline.sheets.cut.sheet import cut_sheet
    from kerfline.sheets.day.sheet import day_sheets
    from kerfline.sheets.day.text import day_text

    outcome, plan = day.outcome, day.plan
    job, layout = outcome.job, outcome.layout
    stem = file_stem(job.name)
    sheets = day_sheets(job, layout, plan)
    take_off = Grid(
        title="Take-off",
        headings=("group", "item", "amount", "unit", "note"),
        rows=tuple(
            (r.group, r.item, round(r.amount, r.decimals), r.unit, r.note)
            for r in plan.take_off.rows
        ),
    )
    order, windows = cutting_order(plan)
    cutting = cut_sheet(job, layout, outcome.rules, order=order, windows=windows)
    return {
        **sheet_files(f"{stem}-day-sheet", sheets),
        **sheet_files(f"{stem}-cut-sheet", cutting),
        f"{stem}-day.txt": (day_text(plan, job.display) + "\n").encode(),
        f"{stem}.xlsx": workbook(job, layout, outcome.findings, outcome.rules, [take_off]),
    }


def cutting_order(plan: DayPlan) -> tuple[tuple[str, ...], dict[str, str]]:
    """Ids of the joints, first cut first, and when each may be cut, as the crew reads it."""
    cuts = plan.placement.cutting.cuts
    order = tuple(dict.fromkeys(cut.window.sawn.joint for cut in cuts))
    windows = {
        cut.window.sawn.joint: f"{clock(cut.window.ready, day_of(cut, plan))} to "
        f"{clock(cut.window.deadline, day_of(cut, plan))}"
        for cut in cuts
    }
    return order, windows
