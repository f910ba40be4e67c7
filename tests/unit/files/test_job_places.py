"""Where in a job file each thing on the slab stands."""

from dataclasses import replace

import pytest

from kerfline.files.job_file import read_job
from kerfline.files.job_places import place_of_subject
from kerfline.files.job_schema import JobFile
from kerfline.files.toml_file import read_toml
from kerfline.geometry.ring import Ring
from kerfline.units import Unit

JOB = """\
[job]
name = "Bay"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [30, 0], [30, 20], [0, 20]]
openings = [[[1, 1], [2, 1], [2, 2], [1, 2]]]

[[wall]]
id = "W7"
path = [[0, 10], [30, 10]]

[[edge]]
ring = 0
segment = 2
kind = "isolated"
"""


@pytest.fixture
def where(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB)
    toml = read_toml(path, "job file")
    slab = replace(
        read_job(path).slab,
        openings=(Ring(((0, 0), (1, 0), (1, 1))), *read_job(path).slab.openings),
    )
    return place_of_subject(
        JobFile.model_validate(toml.tables, context={"unit": Unit.FT}), slab, toml.places
    )


@pytest.mark.parametrize(
    ("subject", "line"),
    [("thickness", 6), ("outline", 7), ("opening 2", 8), ("W7", 10), ("edge 0/2", 14)],
)
def test_a_subject_is_told_at_its_line(where, subject, line):
    assert where(subject).startswith(f"bay.toml line {line}")


def test_what_the_drawing_gives_is_told_as_the_drawings(where):
    """The first of two openings is none of the file's."""
    assert where("opening 1") == "bay.toml, opening 1 of the drawing"
    assert where("W1") == "bay.toml, W1 of the drawing"
