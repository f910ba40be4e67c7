"""``[site]`` in a job file: what it gives and what is refused."""

import math

import pytest

from kerfline.errors import InputRefused
from kerfline.files.job_file import job_text, read_job
from kerfline.units import SiteUnit

JOB = """
[job]
name = "Yard"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
"""

POINTS = """
[[site.point]]
name = "CP1"
plan = [-10, -10]
easting = 2000.5
northing = 1000.25
height = 99.5

[[site.point]]
name = "CP2"
plan = [90, -10]
easting = 2000.5
northing = 1100.25
"""


def read(tmp_path, site: str):
    path = tmp_path / "yard.toml"
    path.write_text(JOB + site)
    return read_job(path)


def refusal(tmp_path, site: str) -> str:
    with pytest.raises(InputRefused) as refused:
        read(tmp_path, site)
    return str(refused.value)


def test_a_site_turned_by_a_quarter(tmp_path):
    site = read(tmp_path, "[site]\nlevel = 101.25\n" + POINTS).site
    assert site is not None
    assert (site.unit, site.scale, site.easting_first) == (SiteUnit.FT, 1.0, False)
    assert site.level == pytest.approx(101.25 * 304.8)
    e, n = site.similarity.to_site((0.0, 0.0))
    # The plan's x axis points north: 10 ft along it and 10 ft to its left from CP1.
    assert (e / 304.8, n / 304.8) == pytest.approx((1990.5, 1010.25))
    assert site.north == pytest.approx(-90)
    assert site.control[0].height == pytest.approx(99.5 * 304.8)


def test_written_and_read_again(tmp_path):
    head = '[site]\nunits = "us-ft"\nscale = "fit"\nlimit = "2 in"\nfirst = "easting"\n'
    job = read(tmp_path, head + POINTS.replace("1100.25", "1100.3"))
    again = tmp_path / "again.toml"
    again.write_text(job_text(job))
    assert read_job(again).site == job.site
    assert job.site.scale is None
    assert job.site.similarity.scale == pytest.approx(100.05 / 100 * (1200 / 3937 / 0.3048))


def test_points_that_do_not_agree_with_the_plan(tmp_path):
    said = refusal(tmp_path, "[site]" + POINTS.replace("1100.25", "1100.45"))
    assert "do not agree with the plan" in said
    # 0.2 ft = 2.4 in, half of it at either end.
    assert 'CP1 by 1 3/16", CP2 by 1 3/16"' in said
    assert 'up to 3/8"' in said
    assert read(tmp_path, '[site]\nlimit = "1.25 in"\n' + POINTS.replace("1100.25", "1100.45")).site


@pytest.mark.parametrize(
    ("site", "words"),
    [
        ("[site]\n" + POINTS.replace("CP2", "cp1"), "two control points are called"),
        ("[site]\n" + POINTS.replace("[90, -10]", "[-10, -10]"), "tell no direction"),
        ('[site]\nscale = "fit"\n' + POINTS.replace("1100.25", "1030.73"), "a scale that no grid"),
        ("[site]\n" + POINTS.split('[[site.point]]\nname = "CP2"', maxsplit=1)[0], "site.point"),
        ("[site]\n" + POINTS.replace('"CP2"', '"SLAB3"'), "a point of the layout may have"),
        ("[site]\n" + POINTS.replace('"CP2"', '"a,b"'), "a control point's name"),
        ('[site]\nunits = "yd"\n' + POINTS, "units"),
        ("[site]\nscale = 0\n" + POINTS, "scale"),
        ("[site]\nlimitt = 3\n" + POINTS, "limitt"),
    ],
)
def test_refused(tmp_path, site, words):
    assert words in refusal(tmp_path, site)


def test_without_a_site(tmp_path):
    job = read(tmp_path, "")
    assert job.site is None
    assert "[site]" not in job_text(job)
    assert math.isclose(job.slab.thickness, 101.6)


def test_a_top_of_slab_that_is_told_twice_must_be_one(tmp_path):
    path = tmp_path / "yard.toml"
    told = JOB.replace('thickness = "4 in"', 'thickness = "4 in"\nlevel = 101.25')
    path.write_text(told + "[site]\nlevel = 101.25\n" + POINTS)
    assert read_job(path).level == pytest.approx(101.25 * 304.8)
    path.write_text(told + "[site]\nlevel = 101.5\n" + POINTS)
    with pytest.raises(InputRefused, match="the top of slab has two levels"):
        read_job(path)
