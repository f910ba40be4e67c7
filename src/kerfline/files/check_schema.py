"""The shape of ``NAME-check.json``, schema ``kerfline-check/1``.

The JSON Schema that is published beside this module is made from these classes (``schema_text``); a test
keeps it in step.
"""

import json
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from kerfline.checks.verdict import Ruling
from kerfline.model.finding import Rule, Severity

SCHEMA = "kerfline-check/1"
SCHEMA_FILE = "kerfline-check-1.schema.json"

Spot = Annotated[list[float], Field(min_length=2, max_length=2, description="x, y in mm")]
Count = Annotated[int, Field(ge=0)]
Measure = Annotated[
    float | None,
    Field(description="mm, mm2, degrees or a ratio, by rule; null where there is none"),
]


class _Part(BaseModel):
    """Takes only the keys it knows; numbers are finite."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class VerdictPart(_Part):
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


class FindingPart(_Part):
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


class SetPart(_Part):
    """One rule set held against the layout."""

    rule_set: str
    complies: bool
    verdicts: list[VerdictPart]
    findings: list[FindingPart]


class CheckFile(_Part):
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


def schema_text() -> str:
    """The JSON Schema as it is published."""
    schema = CheckFile.model_json_schema(by_alias=True)
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": SCHEMA}
    return json.dumps({**head, **schema}, indent=2, sort_keys=False) + "\n"


if __name__ == "__main__":
    Path(__file__).with_name(SCHEMA_FILE).write_text(schema_text(), encoding="utf-8")
