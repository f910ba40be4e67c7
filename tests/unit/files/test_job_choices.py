"""Choices in a job file whose words other parts define."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.job_file import read_job

JOB = '[job]\nname = "Bay"\nunits = "ft"\n[slab]\nthickness = "4 in"\noutline = [[0, 0], [30, 0], [30, 20], [0, 20]]\n'


def refused(tmp_path, text):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + text)
    with pytest.raises(InputRefused) as error:
        read_job(path)
    return [str(m) for m in error.value.mistakes]


def test_a_weight_that_there_is_not_and_a_sheet_of_no_size_are_told_at_their_lines(tmp_path):
    told = refused(tmp_path, '[engine.weights]\nbeauty = 2\n[sheet]\nsize = "foolscap"\n')
    assert len(told) == 2
    assert told[0].startswith("bay.toml line 8")
    assert "beauty" in told[0]
    assert told[1].startswith("bay.toml line 10")
    assert "foolscap" in told[1]


def test_known_ones_pass(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + '[engine.weights]\ntee = 2\n[sheet]\nsize = "a3"\n')
    job = read_job(path)
    assert (dict(job.weights), job.sheet.size) == ({"tee": 2.0}, "a3")
