"""The working state as JSON, and what the page may ask; everything that comes in is checked here.

The shapes are those of the dataclasses themselves, so that a field added to the model travels without
a second definition. Nothing unknown, not finite or endless passes.
"""

from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError

from kerfline.app.working import Working
from kerfline.errors import InputRefused, Mistake


class _State(BaseModel):
    """Carries the configuration down to the plain dataclasses below it."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False, str_max_length=2000)

    working: Working


LARGEST = 1e8
"""No coordinate of a slab is beyond a hundred kilometres (mm)."""


def state_data(working: Working) -> dict[str, Any]:
    """A working state as plain data."""
    data: dict[str, Any] = _State(working=working).model_dump(mode="json")["working"]
    return data


def read_state(data: object) -> Working:
    """A working state that came from the page.

    Raises:
        InputRefused: It is not one.
    """
    try:
        working = _State.model_validate({"working": data}).working
    except ValidationError as error:
        raise InputRefused(*_mistakes(error)) from None
    bounds = working.slab.outline.polygon.bounds
    if any(abs(v) > LARGEST for v in bounds):
        raise InputRefused(Mistake(what="the slab lies too far from the origin", where="state"))
    return working


def _mistakes(error: ValidationError) -> list[Mistake]:
    return [
        Mistake(
            what=str(each["msg"]),
            where=".".join(str(part) for part in each["loc"]),
            remedy="load the page again",
        )
        for each in error.errors(include_url=False, include_input=False)[:5]
    ]
