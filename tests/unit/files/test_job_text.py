"""A job file that is written reads back to the same job."""

import pytest
from hypothesis import given

from kerfline.files.job_file import job_text, read_job
from strategies import jobs


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("jobs")


@given(job=jobs())
def test_a_job_reads_back_to_itself(folder, job):
    path = folder / "job.toml"
    path.write_text(job_text(job), encoding="utf-8")
    assert read_job(path) == job
