"""The panel table, the joint table and the list of findings as blocks of a sheet."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from kerfline.model.finding import Finding, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_runs import JointRun, joint_runs
from kerfline.sheets.plan_labels import CODES
from kerfline.sheets.prose import Prose
from kerfline.sheets.rows import JointRow, PanelRow, joint_rows, panel_rows
from kerfline.sheets.running import between, dimension_text
from kerfline.sheets.table import Column, Table
from kerfline.units import Display, counted, format_area, format_depth, format_run, step

REVISION_WIDTH = 34.0
REVISION_ROW = 6.0
"""Width of what was changed and height of a row of the revision list, mm."""

NAMES_WIDTH = 44.0
"""Greatest width in mm of the column of the names of alike panels."""

MOST_RUNS = 10
"""Runs of names that a row lists; the workbook has all."""

NOTE_WIDTH = 66.0
"""Greatest width in mm of the column of reasons."""

PAIR = 2

SEVERITIES = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "advice"}


def panel_table(
    job: Job, layout: Layout, findings: Sequence[Finding] | None, rules: SlabRules, text: float
) -> Table:
    """Numbers, sides, area, aspect and the share of the allowed span that is used, alike panels in one row.

    Args:
        job: The slab.
        layout: Its panels.
        findings: What was found, for a last column; None for sheets that are issued, which have none.
        rules: The rules that the layout was made by.
        text: Capital height in mm.
    """
    alike: dict[tuple[str, ...], list[str]] = {}
    for row in panel_rows(job, layout, findings or (), rules):
        alike.setdefault(_panel_cells(row, job.display), []).append(row.id)
    unit = "" if job.display is Display.FEET_INCHES else ", mm"
    several = len(alike) < len(layout.panels)
    last = -1 if findings is None else None
    return Table(
        heading="Panels",
        columns=(
            Column("No.", widest=NAMES_WIDTH),
            *([Column("count", right=True)] if several else []),
            Column(f"length x width{unit}", right=True),
            Column("area", right=True),
            Column("length /|width", right=True),
            Column("share of|span", right=True),
            *([] if findings is None else [Column("found")]),
        ),
        rows=tuple(
            (run_of_names(names), *([f"{len(names)}"] if several else []), *cells[:last])
            for cells, names in alike.items()
        ),
        text=text,
    )


def _panel_cells(row: PanelRow, display: Display) -> tuple[str, ...]:
    return (
        f"{dimension_text(row.length, display)} x {dimension_text(row.width, display)}",
        format_area(row.area, display),
        f"{row.aspect:.2f}",
        f"{row.span_used:.0%}",
        row.status.value,
    )


def run_of_names(names: Sequence[str]) -> str:
    """Names with their numbers, those that follow on one another as a run: ``P1 to P4, P9, P12``."""
    runs: list[list[str]] = []
    for name in names:
        if runs and _number(name) == _number(runs[-1][-1]) + 1:
            runs[-1].append(name)
        else:
            runs.append([name])
    told = [
        ", ".join(run) if len(run) <= PAIR else f"{run[0]} to {run[-1]}" for run in runs[:MOST_RUNS]
    ]
    return ", ".join([*told, *(["... (see the workbook)"] if len(runs) > MOST_RUNS else [])])


def _number(name: str) -> int:
    """The number that a name ends in; minus one where it has none, so that it follows on nothing."""
    digits = "".join(c for c in name if c.isdigit())
    return int(digits) if digits else -PAIR


def added_table(job: Job, layout: Layout, text: float) -> Table:
    """The joints that a mend added, as in the joint table: what is still to be cut."""
    added = layout.added or ()
    only = replace(layout, joints=tuple(j for j in layout.joints if j.id in added))
    return replace(joint_table(job, only, text), heading="Added joints")


def joint_table(job: Job, layout: Layout, text: float) -> Table:
    """Number, type, both ends as offsets from the baselines, length, depth and reason; alike joints in one row."""
    unit = "" if job.display is Display.FEET_INCHES else ", mm"
    runs = joint_runs(joint_rows(job, layout), job.display)
    several = any(len(run.rows) > 1 for run in runs)
    return Table(
        heading="Joints",
        columns=(
            Column("No.", widest=NAMES_WIDTH),
            *(
                [Column("count", right=True), Column(f"one every{unit}", right=True)]
                if several
                else []
            ),
            Column("type"),
            Column(f"from{unit}|right, up", right=True),
            Column(f"to{unit}|right, up", right=True),
            Column("length", right=True),
            Column("depth", right=True),
            Column("reason", widest=NOTE_WIDTH),
        ),
        rows=tuple(_run_cells(run, job.display, several=several) for run in runs),
        text=text,
    )


def _run_cells(run: JointRun, display: Display, *, several: bool) -> tuple[str, ...]:
    """A row of the joint table; of a run the place of its first joint."""
    name, *cells = _joint_cells(run.rows[0], display)
    if not several:
        return (name, *cells)
    if len(run.rows) == 1:
        return (name, "", "", *cells)
    way = " up" if abs(run.pitch[1]) > abs(run.pitch[0]) else " right"
    pitch = f"{dimension_text(max(run.pitch, key=abs), display)}{way}"
    return (run_of_names([r.id for r in run.rows]), f"{len(run.rows)}", pitch, *cells)


def _joint_cells(row: JointRow, display: Display) -> tuple[str, ...]:
    return (
        row.id,
        CODES[row.kind],
        _offsets(row.start, display),
        _offsets(row.end, display),
        dimension_text(_length(row, display), display),
        depth_text(row.kind, row.depth, display),
        row.note,
    )


def _length(row: JointRow, display: Display) -> float:
    """Length of a joint; of a square one the difference of its ends as they are written."""
    for i in (0, 1):
        written = between(row.start[i], row.end[i], display)
        if abs(written - row.length) <= step(display):
            return written
    return row.length


def depth_text(kind: JointKind, depth: float, display: Display) -> str:
    """The depth of a joint's cut, or that it goes through."""
    if depth:
        return format_depth(depth, display)
    return "" if kind is JointKind.CONTROL else "full"


def _offsets(point: tuple[float, float], display: Display) -> str:
    return f"{dimension_text(point[0], display)}, {dimension_text(point[1], display)}"


def totals_block(job: Job, layout: Layout, text: float, width: float) -> Prose:
    """What a builder asks first: panels, feet of joint by kind, how much lies under walls."""
    parts = []
    for kind in JointKind:
        length = sum(j.length for j in layout.joints if j.kind is kind)
        if length:
            parts.append(f"{kind.value} {format_run(length, job.display)}")
    joints = f"{counted(len(layout.joints), 'joint')}: {', '.join(parts)}" if parts else "no joints"
    lines = [f"{counted(len(layout.panels), 'panel')}, {joints}."]
    if layout.hidden_length:
        lines.append(f"Under walls: {format_run(layout.hidden_length, job.display)}.")
    return Prose("Totals", tuple(lines), text, width, first=0)


def findings_block(findings: Sequence[Finding], text: float, width: float) -> Prose:
    """The findings in words, numbered as on the plan; what alike ones share is said once, after the last."""
    runs = groupby(enumerate(findings, 1), key=lambda n: _shared(n[1]))
    lines = [line for shared, run in runs for line in _run_lines(shared, list(run))]
    return Prose("Findings in words", tuple(lines), text, width, first=0)


def revision_table(job: Job, text: float) -> Table:
    """The revision list, to be written in; its first row holds what the job says."""
    fields = job.sheet.fields
    first = (fields.get("revision", ""), fields.get("date", ""), "", fields.get("drawn", ""))
    return Table(
        heading="Revisions",
        columns=(
            Column("rev.", least=6.0),
            Column("date", least=18.0),
            Column("what was changed", least=REVISION_WIDTH),
            Column("by", least=12.0),
        ),
        rows=(first, ("",) * 4, ("",) * 4),
        text=text,
        tall=REVISION_ROW,
    )


def severity_counts(findings: Sequence[Finding], text: float, width: float) -> Prose:
    """How many findings there are of each severity."""
    if not findings:
        return Prose("Findings", ("None: every rule is kept.",), text, width, first=0)
    counts = [
        _counted(sum(1 for f in findings if f.severity is severity), word)
        for severity, word in SEVERITIES.items()
    ]
    words = f"{', '.join(counts)}. Numbers on the plan: see the list."
    return Prose("Findings", (words,), text, width, first=0)


def _counted(count: int, word: str) -> str:
    """A count with its word, such as ``2 warnings``; advice has no plural."""
    return f"{count} {word}" if count == 1 or word == "advice" else f"{count} {word}s"


def _shared(finding: Finding) -> tuple[str, str]:
    """What a finding may have in common with the next: its severity, and its remedy with the source."""
    source = f"({finding.source})" if finding.source else ""
    return SEVERITIES[finding.severity], " ".join(w for w in (finding.remedy, source) if w)


def _run_lines(shared: tuple[str, str], run: Sequence[tuple[int, Finding]]) -> tuple[str, ...]:
    """A paragraph a finding; one that stands alone has its remedy in it, a run has it in a last one."""
    severity, remedy = shared
    lines = tuple(f"F{number} {severity}: {f.message}" for number, f in run)
    if not remedy:
        return lines
    if len(run) == 1:
        return (f"{lines[0]} {remedy}",)
    between = "to" if len(run) > PAIR else "and"
    return (*lines, f"F{run[0][0]} {between} F{run[-1][0]}: {remedy}")
