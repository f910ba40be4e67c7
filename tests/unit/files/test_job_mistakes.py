"""Errors of the schema as mistakes in our words."""

import pytest
from pydantic import BaseModel, Field, ValidationError

from kerfline.files.job_locate import Places
from kerfline.files.job_mistakes import LONGEST, mistakes_of


class Floor(BaseModel, extra="forbid"):
    thickness: int
    name: str = ""


class File(BaseModel, extra="forbid"):
    slab: Floor
    walls: list[int] = Field(default=[], max_length=2)
    share: float = Field(default=0.5, ge=0, le=1)


def said(data):
    try:
        File.model_validate(data)
    except ValidationError as error:
        return [str(m) for m in mistakes_of(error, File, Places("job.toml", {}))]
    return []


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({}, '"slab" is missing; add a table [slab].'),
        ({"slab": {}}, '"thickness" is missing; write thickness = "4 in"'),
        (
            {"slab": {"thickness": 1, "thiknes": 2}},
            'there is no "thiknes" here; did you mean "thickness"?',
        ),
        (
            {"slab": {"thickness": 1, "zzz": 2}},
            'there is no "zzz" here; known here: thickness, name.',
        ),
        ({"slab": {"thickness": "x"}}, "found 'x'"),
        ({"slab": 3}, "a table is needed here; found 3"),
        ({"slab": {"thickness": 1, "name": 4}}, "text is needed here; found 4"),
        (
            {"slab": {"thickness": 1}, "walls": [1, 2, 3]},
            "the number of items does not fit; found [1, 2, 3]; allowed is at most 2.",
        ),
        (
            {"slab": {"thickness": 1}, "share": -0.1},
            "this number is too small; found -0.1; allowed is 0.0 or more.",
        ),
        (
            {"slab": {"thickness": 1}, "share": 2},
            "this number is too large; found 2; allowed is 1.0 or less.",
        ),
    ],
)
def test_each_error_is_one_sentence(data, words):
    (told,) = said(data)
    assert words in told
    assert told.startswith("job.toml")


def test_every_error_is_told_once():
    assert len(said({"slab": {"thickness": 1, "name": 4}, "share": 2})) == 2
    assert said({"slab": {"thickness": 1}}) == []


@pytest.mark.parametrize(("letters", "cut"), [(LONGEST - 2, False), (LONGEST - 1, True)])
def test_a_long_value_is_shortened(letters, cut):
    (told,) = said({"slab": {"thickness": "x" * letters}})
    assert told.count(" ...") == cut


def test_an_endless_number_is_not_written_out():
    (told,) = said({"slab": {"thickness": 1}, "share": 10**5000})
    assert "an endless number" in told
