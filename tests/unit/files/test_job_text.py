"""A job file that is written reads back to the same job."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.files.job_file import job_text, read_job
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Slab
from kerfline.units import Unit
from strategies import jobs


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("jobs")


@settings(max_examples=60)
@given(job=jobs())
def test_a_job_reads_back_to_itself(folder, job):
    path = folder / "job.toml"
    path.write_text(job_text(job), encoding="utf-8")
    assert read_job(path) == job


def outline_of(job):
    return next(line for line in job_text(job).splitlines() if line.startswith("outline"))


@pytest.mark.parametrize(
    ("units", "corner", "written"),
    [
        ("ft", 12.5 * 304.8, "12.5"),
        ("ft", 40 * 304.8, "40"),
        ("ft", 123.4567 * 25.4, '"123.4567 in"'),
        ("in", 150.5 * 25.4, "150.5"),
        ("m", 3810.0, "3.81"),
        ("mm", 3810.25, "3810.25"),
        ("ft", 1e-05, '"1e-05 mm"'),
    ],
)
def test_a_length_is_written_in_the_shortest_way_that_is_exact(units, corner, written):
    slab = Slab(outline=Ring(((0, 0), (corner, 0), (9000, 9000))), thickness=101.6)
    job = Job(name="x", units=Unit(units), slab=slab)
    assert outline_of(job).startswith(f"outline = [[0, 0], [{written}, 0]")


def test_a_thickness_carries_its_unit():
    slab = Slab(outline=Ring(((0, 0), (9000, 0), (9000, 9000))), thickness=101.6)
    assert 'thickness = "4 in"' in job_text(Job(name="x", units=Unit.FT, slab=slab))
    assert 'thickness = "101.6 mm"' in job_text(Job(name="x", units=Unit.M, slab=slab))


@pytest.mark.parametrize("name", ['"', "\\", "a\nb", "\x7f\x01", "é′½", "# no comment", "'''"])
def test_any_name_reads_back(folder, name):
    slab = Slab(outline=Ring(((0, 0), (9000, 0), (9000, 9000))), thickness=101.6)
    path = folder / "name.toml"
    path.write_text(job_text(Job(name=name, units=Unit.FT, slab=slab)), encoding="utf-8")
    assert read_job(path).name == name


@settings(max_examples=30)
@given(job=jobs(), units=st.sampled_from(list(Unit)))
def test_a_job_in_another_unit_describes_the_same_slab(folder, job, units):
    path = folder / "other.toml"
    path.write_text(job_text(replace(job, units=units)), encoding="utf-8")
    assert read_job(path).slab == job.slab
