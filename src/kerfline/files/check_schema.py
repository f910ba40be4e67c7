"""The shape of ``NAME-check.json``, schema ``kerfline-check/1``.

The JSON Schema that is published beside this module is made from these classes (``published_schema``); a test
keeps it in step.
"""

from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from kerfline.checks.verdict import Ruling
from kerfline.files.published_schema import Count, Part, Spot, publish
from kerfline.model.finding import Rule, Severity

SCHEMA = "kerfline-check/1"
SCHEMA_FILE = "kerfline-check-1.schema.json"

Measure = Annotated[
    float | None,
    Field(description="mm, mm2, degrees or a ratio, by rule; null where there is none"),
]


class VerdictPart(Part):
    """One rule held against the whole layout."""

    rule: Rule
    ruling: Ruling
    reason: Annotated[str, Field(description="why it does not apply or was not checked")]
    source: Annotated[str, Field(description="publication, edition, section")]
    advised: Measure
    limit: Measure
    worst: Measure
    errors: Count
    warnings: Count
    advice: Count


class FindingPart(Part):
    """One rule held against one place; the number stands on the sheet and in the list."""

    number: Annotated[int, Field(ge=1)]
    rule: Rule
    severity: Severity
    at: Spot
    subject: str
    measured: Measure
    limit: Measure
    message: str
    source: str
    remedy: str


class SetPart(Part):
    """One rule set held against the layout."""

    rule_set: str
    complies: bool
    verdicts: list[VerdictPart]
    findings: list[FindingPart]


class CheckFile(Part):
    """A check: how the drawing was read, what was assumed, and the verdicts under each rule set."""

    schema_: Annotated[Literal["kerfline-check/1"], Field(alias="schema")]
    job: str
    run: Annotated[
        str,
        Field(
            description="the mark that all files of a run carry, and the date where one is given"
        ),
    ] = ""
    thickness: Annotated[float, Field(gt=0, description="mm, outside zones")]
    reading: Annotated[list[str], Field(description="what was taken from the drawing and why")]
    notes: Annotated[list[str], Field(description="repairs and assumptions")]
    sets: Annotated[list[SetPart], Field(min_length=1)]


if __name__ == "__main__":
    publish(CheckFile, SCHEMA, Path(__file__).with_name(SCHEMA_FILE))
