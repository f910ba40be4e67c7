"""The checker's record for programs and spreadsheets: ``NAME-check.json`` and ``NAME-check.csv``.

Schema ``kerfline-check/1`` (see ``check_schema``): lengths in mm, areas in mm2, angles in degrees,
coordinates in the drawing's own origin.
"""

import csv
import io
import json
from collections.abc import Sequence
from typing import Any

from kerfline.checks.verdict import SetVerdict, Verdict
from kerfline.files.check_schema import SCHEMA
from kerfline.files.tables import safe
from kerfline.model.finding import Finding
from kerfline.model.job import Job

PLACES = 4
HEADER = (
    "number",
    "rule",
    "severity",
    "subject",
    "x_mm",
    "y_mm",
    "measured",
    "limit",
    "message",
    "source",
    "remedy",
    "run",
)


def check_json(job: Job, sets: Sequence[SetVerdict]) -> bytes:
    """Verdicts and findings under every rule set that was asked for."""
    record = {
        "schema": SCHEMA,
        "job": job.name,
        "run": job.sheet.run,
        "thickness": _rounded(job.slab.thickness),
        "reading": list(job.reading),
        "notes": list(job.notes),
        "sets": [
            {
                "rule_set": each.rule_set,
                "complies": each.complies,
                "verdicts": [_verdict(v) for v in each.verdicts],
                "findings": [_finding(n, f) for n, f in enumerate(each.findings, 1)],
            }
            for each in sets
        ],
    }
    return (json.dumps(record, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def check_csv(job: Job, findings: Sequence[Finding]) -> bytes:
    """The findings, one a row; cells that a spreadsheet would take for a formula are quoted."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(HEADER)
    for number, finding in enumerate(findings, 1):
        row = _finding(number, finding)
        x, y = row.pop("at")
        cells = {**row, "x_mm": x, "y_mm": y, "run": job.sheet.run}
        writer.writerow(["" if cells[name] is None else safe(cells[name]) for name in HEADER])
    return text.getvalue().encode()


def _verdict(verdict: Verdict) -> dict[str, Any]:
    return {
        "rule": verdict.rule.value,
        "ruling": verdict.ruling.value,
        "reason": verdict.reason,
        "source": str(verdict.source),
        "advised": _rounded(verdict.advised),
        "limit": _rounded(verdict.limit),
        "worst": _rounded(verdict.worst),
        "errors": verdict.errors,
        "warnings": verdict.warnings,
        "advice": verdict.advice,
    }


def _finding(number: int, finding: Finding) -> dict[str, Any]:
    return {
        "number": number,
        "rule": finding.rule.value,
        "severity": finding.severity.value,
        "at": [_rounded(finding.at[0]), _rounded(finding.at[1])],
        "subject": finding.subject,
        "measured": _rounded(finding.measured),
        "limit": _rounded(finding.limit),
        "message": finding.message,
        "source": finding.source,
        "remedy": finding.remedy,
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, PLACES) + 0.0
