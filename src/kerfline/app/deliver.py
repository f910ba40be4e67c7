"""Writes everything that a layout promises, all of it or nothing."""

from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.cut_files import cut_set_files, cut_sets
from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import marked
from kerfline.app.sheet_files import sheet_files
from kerfline.app.site_files import site_files
from kerfline.app.write_files import write_files

if TYPE_CHECKING:
    from kerfline.sheets.day.day_plan import DayPlan


def deliver(outcome: Outcome, directory: Path, plan: "DayPlan | None" = None) -> tuple[Path, ...]:
    """Writes sheets and tables of a layout.

    Args:
        outcome: The layout and its findings.
        directory: Where to; made where it is missing.
        plan: Its placement day, which says how the slab is parted; None where it is not known.

    Returns:
        The files, in the order in which a user opens them.

    Raises:
        OutputRefused: A file cannot be written; none of them is changed then.
    """
    return write_files(outcome, directory, "sheets", contents(outcome, plan)).files


def contents(outcome: Outcome, plan: "DayPlan | None" = None) -> dict[str, bytes]:
    """Every file of a layout by name, as bytes; the cut sheets are those of its placement day."""
    from kerfline.files.day_grids import day_grids
    from kerfline.files.layout_json import layout_json
    from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
    from kerfline.files.tables import joints_csv, panels_csv
    from kerfline.files.workbook import workbook
    from kerfline.sheets.joint_plan import joint_plan
    from kerfline.sheets.panel_sheet import panel_sheet

    outcome = marked(outcome)
    job, layout, findings, rules = outcome.job, outcome.layout, outcome.findings, outcome.rules
    stem = file_stem(job.name)
    drawn = joint_plan(job, layout, findings, rules)
    cuts, panels = cut_sets(outcome, plan), panel_sheet(job, layout, findings, rules)
    more = [*(sheet for sheets in cuts.values() for sheet in sheets), *panels]
    return {
        **sheet_files(f"{stem}-joint-plan", drawn),
        **cut_set_files(outcome, cuts),
        **sheet_files(f"{stem}-panel-sheet", panels),
        **site_files(job, layout),
        f"{stem}-joint-plan.dxf": dxf_bytes(job, layout, drawn, more),
        f"{stem}-joint-plan-flat.dxf": flat_dxf_bytes(job, layout, drawn),
        f"{stem}.xlsx": workbook(
            job, layout, findings, rules, day_grids(plan, job) if plan else ()
        ),
        f"{stem}-panels.csv": panels_csv(job, layout, findings, rules),
        f"{stem}-joints.csv": joints_csv(job, layout),
        f"{stem}-layout.json": layout_json(job, layout, findings),
    }
