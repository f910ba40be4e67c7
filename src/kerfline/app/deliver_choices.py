"""Writes several layouts of one job, each with its own sheet, and the table that compares them."""

from collections.abc import Sequence

from kerfline.app.alternatives import Choice
from kerfline.app.file_names import file_stem
from kerfline.app.run_mark import marked
from kerfline.app.sheet_files import sheet_files
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.model.finding import Severity
from kerfline.units import counted, format_length, format_run

HEAD = (
    "layout",
    "panels",
    "longest",
    "joint",
    "under walls",
    "lines",
    "tees",
    "errors",
    "warnings",
)


def choices_contents(choices: Sequence[Choice]) -> dict[str, bytes]:
    """The files of the layouts beside the first, which ``kerfline layout`` writes in full."""
    from kerfline.files.layout_json import layout_json
    from kerfline.sheets.joint_plan import joint_plan

    files: dict[str, bytes] = {}
    for choice in choices[1:]:
        outcome = marked(choice.outcome)
        job, layout, findings = outcome.job, outcome.layout, outcome.findings
        stem = f"{file_stem(job.name)}-{file_stem(choice.name)}"
        files |= sheet_files(stem, joint_plan(job, layout, findings, outcome.rules))
        files[f"{stem}-layout.json"] = layout_json(job, layout, findings)
    return files


def choices_table(choices: Sequence[Choice], count: int) -> str:
    """The layouts side by side: what each favours and what that costs; and whether fewer than ``count``."""
    rows = [HEAD, *(_row(choice) for choice in choices)]
    widths = [max(len(row[i]) for row in rows) for i in range(len(HEAD))]
    table = [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]
    if len(choices) < count:
        table.append(
            f"No trade-off leads to more than {counted(len(choices), 'layout')} here: the others that were "
            "tried came out alike, or are no better than another at anything."
        )
    return "\n".join(table)


def _row(choice: Choice) -> tuple[str, ...]:
    outcome = choice.outcome
    layout, display = outcome.layout, outcome.job.display
    lines = [j.line for j in layout.joints]
    ends = joint_ends(outcome.job.slab.concrete, lines)
    return (
        choice.name,
        str(len(layout.panels)),
        format_length(max(p.length for p in layout.panels), display),
        format_run(layout.joint_length, display),
        format_run(layout.hidden_length, display),
        str(chalk_lines(lines)),
        str(sum(end.kind is EndKind.TEE for end in ends)),
        str(outcome.count(Severity.ERROR)),
        str(outcome.count(Severity.WARNING)),
    )
