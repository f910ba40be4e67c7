"""Reports a check: verdicts, the words for the terminal, the files."""

import textwrap
from collections.abc import Sequence
from dataclasses import replace

from kerfline.app.drawing_words import told_in_lines
from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome
from kerfline.app.rules_of import rules_of
from kerfline.app.run_mark import marked
from kerfline.app.sheet_files import sheet_files
from kerfline.checks.disagreements import disagreements
from kerfline.checks.verdict import SetVerdict, compare, verdicts
from kerfline.model.job import Job
from kerfline.sheets.check_text import WIDTH, check_text, side_by_side


def verdicts_of(outcome: Outcome, sets: Sequence[str] = ()) -> tuple[SetVerdict, ...]:
    """What becomes of each rule under the job's own rule set, and under each of those named after it.

    Args:
        outcome: A layout that was checked under the job's rule set.
        sets: Names of rule sets; the first is the job's own.

    Raises:
        InputRefused: There is no such rule set.
    """
    job, layout = outcome.job, outcome.layout
    own = SetVerdict(
        rule_set=job.rules.name,
        findings=outcome.findings,
        verdicts=verdicts(outcome.findings, job.slab, layout, outcome.rules),
    )
    rules = [rules_of(replace(job, rules=replace(job.rules, name=name))) for name in sets[1:]]
    return (own, *compare(job.slab, layout, rules, job.display, outcome.beside))


def report(outcome: Outcome, sets: Sequence[SetVerdict]) -> str:
    """The checker's report: rule sets side by side where there are several, then the first in full."""
    job = outcome.job
    parted = disagreements(job.slab, outcome.layout, outcome.rules, job.display)
    full = check_text(sets[0], parted, job.display, f"{file_stem(job.name)}-check.csv")
    if len(sets) == 1:
        return full
    return f"{side_by_side(sets, job.display)}\n\n{full}"


def reading_text(job: Job) -> str:
    """How the drawing was read and what was repaired, a line or more each; empty where nothing is said."""
    record = f"{file_stem(job.name)}-check.json"
    lines = told_in_lines(job.reading, job.notes, f"{record} has them all")
    return "\n".join(_note(words) for words in lines)


def _note(words: str) -> str:
    return textwrap.fill(
        words,
        WIDTH,
        initial_indent="read      ",
        subsequent_indent=" " * 10,
        break_on_hyphens=False,
    )


def check_contents(outcome: Outcome, sets: Sequence[SetVerdict]) -> dict[str, bytes]:
    """The files of a check by name: marked-up sheets, record and list of findings."""
    from kerfline.files.check_record import check_csv, check_json
    from kerfline.files.sheet_dxf import dxf_bytes
    from kerfline.sheets.check_sheet import check_sheet

    outcome = marked(outcome)
    job, layout, findings = outcome.job, outcome.layout, outcome.findings
    stem = file_stem(job.name)
    sheets = check_sheet(job, layout, findings, outcome.rules)
    files = sheet_files(f"{stem}-check", sheets)
    files[f"{stem}-check.dxf"] = dxf_bytes(job, layout, sheets)
    files[f"{stem}-check.json"] = check_json(job, sets)
    files[f"{stem}-check.csv"] = check_csv(job, findings)
    return files
