"""The working state as JSON, and what the page may ask; everything that comes in is checked here.

The shapes are those of the dataclasses themselves, so that a field added to the model travels without
a second definition. Nothing unknown, not finite or endless passes.
"""

from dataclasses import replace
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from kerfline.app.working import Working
from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_tracing import tracing_mistakes
from kerfline.files.slab_sense import check_slab
from kerfline.model.slab import GivenJoint
from kerfline.web.values import LARGEST


class _State(BaseModel):
    """Carries the configuration down to the plain dataclasses below it."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False, str_max_length=2000)

    working: Working


class _Points(BaseModel):
    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)

    points: Annotated[tuple[tuple[float, float], ...], Field(max_length=2000)]


LEAST_POINTS = 2


def state_data(working: Working) -> dict[str, Any]:
    """A working state as plain data."""
    data: dict[str, Any] = _State(working=working).model_dump(mode="json")["working"]
    return data


def read_state(data: object) -> Working:
    """A working state that came from the page.

    Raises:
        InputRefused: It is not one.
    """
    if _beyond(data):
        raise InputRefused(Mistake(what="a number is beyond any slab", where="state"))
    try:
        working = _State.model_validate({"working": data}).working
    except ValidationError as error:
        raise InputRefused(*_mistakes(error)) from None
    if mistakes := _senseless(working):
        raise InputRefused(*mistakes)
    return working


def read_points(data: object) -> tuple[tuple[float, float], ...]:
    """Points that came from the page, mm.

    Raises:
        InputRefused: They are none.
    """
    try:
        points = _Points.model_validate({"points": data}).points
    except ValidationError:
        raise InputRefused(Mistake(what="these are no points", where="points")) from None
    if _beyond([list(p) for p in points]):
        raise InputRefused(Mistake(what="a number is beyond any slab", where="points"))
    return points


def _beyond(data: object) -> bool:
    """Whether any number in the data is larger than a slab's can be."""
    if isinstance(data, dict):
        return any(map(_beyond, data.values()))
    if isinstance(data, list):
        return any(map(_beyond, data))
    return isinstance(data, int | float) and abs(data) > LARGEST


def _senseless(working: Working) -> list[Mistake]:
    """What no page of ours sends: joints without length, two of one name, a slab that is none."""
    if any(len(j.path) < LEAST_POINTS for j in working.joints):
        return [Mistake(what="a joint needs two points", where="joints")]
    given = tuple(GivenJoint(id=j.id, path=j.path) for j in working.joints)
    whole = replace(working.slab, joints=(*given, *working.slab.joints))
    return [
        *check_slab(whole, display=working.units.display),
        *tracing_mistakes(working.tracing, "tracing"),
    ]


def _mistakes(error: ValidationError) -> list[Mistake]:
    return [
        Mistake(
            what=str(each["msg"]),
            where=".".join(str(part) for part in each["loc"]),
            remedy="load the page again",
        )
        for each in error.errors(include_url=False, include_input=False)[:5]
    ]
