"""Writes everything that a layout promises, all of it or nothing."""

import re
from pathlib import Path

from kerfline.app.outcome import Outcome


def file_stem(name: str) -> str:
    """A job's name as it stands in file names: small letters, digits and dashes."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "job"


def deliver(outcome: Outcome, directory: Path) -> tuple[Path, ...]:
    """Writes sheets and tables of a layout.

    Args:
        outcome: The layout and its findings.
        directory: Where to; made where it is missing.

    Returns:
        The files, in the order in which a user opens them.

    Raises:
        OutputRefused: A file cannot be written; none of them is changed then.
    """
    from kerfline.files.atomic import write_all

    return write_all(directory, contents(outcome))


def contents(outcome: Outcome) -> dict[str, bytes]:
    """Every file of a layout by name, as bytes."""
    from kerfline.files.layout_json import layout_json
    from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
    from kerfline.files.sheet_pdf import pdf_bytes
    from kerfline.files.sheet_svg import svg_bytes
    from kerfline.files.tables import joints_csv, panels_csv
    from kerfline.files.workbook import workbook
    from kerfline.sheets.joint_plan import joint_plan

    job, layout, findings, rules = outcome.job, outcome.layout, outcome.findings, outcome.rules
    stem = file_stem(job.name)
    sheets = joint_plan(job, layout, findings, rules)
    files = {f"{stem}-joint-plan.pdf": pdf_bytes(sheets)}
    for number, sheet in enumerate(sheets, start=1):
        part = "" if number == 1 else f"-{number}"
        files[f"{stem}-joint-plan{part}.svg"] = svg_bytes(sheet)
    files[f"{stem}-joint-plan.dxf"] = dxf_bytes(job, layout, sheets)
    files[f"{stem}-joint-plan-flat.dxf"] = flat_dxf_bytes(job, layout, sheets)
    files[f"{stem}.xlsx"] = workbook(job, layout, findings, rules)
    files[f"{stem}-panels.csv"] = panels_csv(job, layout, findings, rules)
    files[f"{stem}-joints.csv"] = joints_csv(job, layout)
    files[f"{stem}-layout.json"] = layout_json(job, layout, findings)
    return files
