"""What the published shapes of our JSON files have in common."""

import json
from pathlib import Path
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Spot = Annotated[list[float], Field(min_length=2, max_length=2, description="x, y in mm")]
Count = Annotated[int, Field(ge=0)]
FromZero = Annotated[float, Field(ge=0)]


class Part(BaseModel):
    """Takes only the keys it knows; numbers are finite."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


def schema_text(shape: type[Part], name: str) -> str:
    """The JSON Schema of a file as it is published.

    Args:
        shape: The class of the whole file.
        name: The schema's name and number: ``kerfline-layout/1``.
    """
    schema = shape.model_json_schema(by_alias=True)
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": name}
    return json.dumps({**head, **schema}, indent=2, sort_keys=False) + "\n"


def publish(shape: type[Part], name: str, file: Path) -> None:
    """Writes the schema anew beside its module, after its classes changed."""
    file.write_text(schema_text(shape, name), encoding="utf-8")
