"""The shape of ``NAME-day.json``, schema ``kerfline-day/1``.

The JSON Schema that is published beside this module is made from these classes (``published_schema``); a test
keeps it in step. Volumes in mm3, lengths in mm, temperatures in degrees Celsius, times in clock hours after
the midnight that begins the first day of placing; a time that never comes is null.
"""

from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from kerfline.files.published_schema import FromZero, Part, publish
from kerfline.model.day import SawMethod

SCHEMA = "kerfline-day/1"
SCHEMA_FILE = "kerfline-day-1.schema.json"

Clock = Annotated[float | None, Field(description="clock hours; null where it never comes")]
Number = Annotated[int, Field(ge=1)]


class TruckPart(Part):
    """One load."""

    number: Number
    day: Number
    placements: list[str]
    volume: FromZero
    discharge: Clock
    done: Clock
    batched_after: Clock


class OrderPart(Part):
    """One day's order."""

    day: Number
    placements: list[str]
    net: FromZero
    allowance: FromZero
    ordered: FromZero
    trucks: list[TruckPart]


class PlacementPart(Part):
    """One placement."""

    id: str
    day: Number
    panels: list[str]
    area: FromZero
    volume: FromZero
    placed: Annotated[list[Clock], Field(min_length=2, max_length=2)]
    floated: Annotated[
        list[Clock],
        Field(min_length=2, max_length=2, description="first and last concrete has bled"),
    ]
    finished: Annotated[list[Clock], Field(min_length=2, max_length=2)]
    evaporation: Annotated[
        float | None, Field(description="highest rate, kg/m2/h; null where it is not known")
    ]


class RangePart(Part):
    """A clock time at the warmest, the likely and the coolest temperature."""

    early: Clock
    likely: Clock
    late: Clock


class CutPart(Part):
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


class SawsPart(Part):
    """How many saws the day takes; null where no number gets every line in time."""

    planned: Number
    warm: int | None
    likely: int | None
    cool: int | None


class AssumptionPart(Part):
    """What was not given and stands in the result all the same."""

    text: str
    value: str
    source: str


class TakeOffPart(Part):
    """One row of the take-off."""

    group: str
    item: str
    amount: float
    unit: str
    note: str


class DayFile(Part):
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


if __name__ == "__main__":
    publish(DayFile, SCHEMA, Path(__file__).with_name(SCHEMA_FILE))
