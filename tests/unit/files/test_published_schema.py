"""What the published shapes of our JSON files have in common."""

import json
import math

import pytest
from pydantic import ValidationError

from kerfline.files.published_schema import Count, FromZero, Part, Spot, publish, schema_text


class Shape(Part):
    """A thing."""

    at: Spot
    count: Count
    size: FromZero


GOOD = {"at": [1.0, 2.0], "count": 0, "size": 0.0}


def test_a_shape_takes_what_it_knows():
    assert Shape.model_validate(GOOD).at == [1.0, 2.0]


@pytest.mark.parametrize(
    "change",
    [
        {"at": [1.0]},
        {"at": [1.0, 2.0, 3.0]},
        {"count": -1},
        {"size": -0.1},
        {"size": math.inf},
        {"more": 1},
    ],
)
def test_anything_else_is_refused(change):
    with pytest.raises(ValidationError):
        Shape.model_validate({**GOOD, **change})


def test_the_schema_names_its_draft_and_itself_and_is_written_beside_its_module(tmp_path):
    publish(Shape, "kerfline-shape/1", tmp_path / "s.json")
    text = (tmp_path / "s.json").read_text()
    assert text == schema_text(Shape, "kerfline-shape/1")
    schema = json.loads(text)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["$id"] == "kerfline-shape/1"
    assert schema["additionalProperties"] is False
    assert set(schema["required"]) == {"at", "count", "size"}
