"""The shape of ``NAME-day.json``, schema ``kerfline-day/1``.

The JSON Schema that is published beside this module is made from these classes (``schema_text``); a test
keeps it in step. Volumes in mm3, lengths in mm, temperatures in degrees Celsius, times in clock hours after
the midnight that begins the first day of placing; a time that never comes is null.
"""

import json
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from kerfline.model.day import SawMethod

SCHEMA = "kerfline-day/1"
SCHEMA_FILE = "kerfline-day-1.schema.json"

FromZero = Annotated[float, Field(ge=0)]
Clock = Annotated[float | None, Field(description="clock hours; null where it never comes")]
Number = Annotated[int, Field(ge=1)]


class _Part(BaseModel):
    """Takes only the keys it knows; numbers are finite."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class TruckPart(_Part):
    """One load."""

    number: Number
    day: Number
    placements: list[str]
    volume: FromZero
    discharge: Clock
    done: Clock
    batched_after: Clock


class OrderPart(_Part):
    """One day's order."""

    day: Number
    placements: list[str]
    net: FromZero
    allowance: FromZero
    ordered: FromZero
    trucks: list[TruckPart]


class PlacementPart(_Part):
    """One placement."""

    id: str
    day: Number
    panels: list[str]
    area: FromZero
    volume: FromZero
    placed: Annotated[list[Clock], Field(min_length=2, max_length=2)]
    finished: Annotated[list[Clock], Field(min_length=2, max_length=2)]
    evaporation: Annotated[
        float | None, Field(description="highest rate, kg/m2/h; null where it is not known")
    ]


class RangePart(_Part):
    """A clock time at the warmest, the likely and the coolest temperature."""

    early: Clock
    likely: Clock
    late: Clock


class CutPart(_Part):
    """One line, or a stretch of one, in the order of cutting."""

    number: Number
    joint: str
    placements: list[str]
    path: list[list[float]]
    length: FromZero
    depth: FromZero
    opens: RangePart
    closes: RangePart
    saw: Annotated[int, Field(ge=0, description="0 where the concrete is never ready")]
    start: Clock
    end: Clock
    late_length: FromZero
    late_by: Annotated[float, Field(ge=0, description="hours")]
    relief: bool


class SawsPart(_Part):
    """How many saws the day takes; null where no number gets every line in time."""

    planned: Number
    warm: int | None
    likely: int | None
    cool: int | None


class AssumptionPart(_Part):
    """What was not given and stands in the result all the same."""

    text: str
    value: str
    source: str


class TakeOffPart(_Part):
    """One row of the take-off."""

    group: str
    item: str
    amount: float
    unit: str
    note: str


class DayFile(_Part):
    """A placement day, worked out."""

    schema_: Annotated[Literal["kerfline-day/1"], Field(alias="schema")]
    job: str
    run: str = ""
    date: str
    method: SawMethod
    orders: list[OrderPart]
    placements: list[PlacementPart]
    saws: SawsPart
    cuts: list[CutPart]
    take_off: list[TakeOffPart]
    cautions: list[str]
    assumptions: list[AssumptionPart]
    questions: list[str]


def schema_text() -> str:
    """The JSON Schema as it is published."""
    schema = DayFile.model_json_schema(by_alias=True)
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": SCHEMA}
    return json.dumps({**head, **schema}, indent=2, sort_keys=False) + "\n"


if __name__ == "__main__":
    Path(__file__).with_name(SCHEMA_FILE).write_text(schema_text(), encoding="utf-8")
