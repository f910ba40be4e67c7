"""What a program names, opened: a file, a size or a slab."""

from pathlib import Path

import pytest

from boathouses import BOATHOUSE, boathouse, boathouse_file
from drawn_plans import two_slabs
from kerfline.errors import InputRefused
from kerfline.library.opening import named, opened, pictured, slabs_of
from kerfline.library.options import Options
from kerfline.library.slab import Slab


def test_a_slab_has_no_file_and_a_file_has(tmp_path):
    path = boathouse_file(tmp_path, BOATHOUSE)
    from_file = opened(str(path), Options())
    given = opened(boathouse(), Options(thickness="4 in"))
    assert (from_file.path, given.path) == (path, None)
    assert given.job.slab == from_file.job.slab


def test_what_is_said_beside_a_slab_is_said_beside_a_file_alike(tmp_path):
    path = boathouse_file(tmp_path, BOATHOUSE)
    said = Options(thickness="5 in", rules="parking", to_maximum=True, effort=3.0, review=True)
    for job in (opened(path, said).job, opened(boathouse(), said).job):
        assert job.slab.thickness == pytest.approx(127)
        assert (job.rules.name, job.rules.to_maximum, job.effort) == ("parking", True, 3.0)
        assert job.sheet.review


def test_a_source_is_called_what_the_user_called_it():
    assert named(Slab([], name="Shed")) == "Shed"
    assert named(Path("a/b.toml")) == "a/b.toml"
    assert named("40 ft x 28 ft") == "40 ft x 28 ft"


def test_all_slabs_of_a_drawing_are_asked_for_one_by_one(tmp_path):
    site = two_slabs(tmp_path / "site.dxf")
    said = Options(thickness="4 in", slab="all")
    assert [options.slab for options in slabs_of(site, said)] == ["1", "2"]
    assert {options.thickness for options in slabs_of(site, said)} == {"4 in"}
    assert slabs_of(site, Options(slab="2")) == (Options(slab="2"),)


def test_a_question_is_answered_with_a_picture(tmp_path):
    site = two_slabs(tmp_path / "site.dxf")
    with pytest.raises(InputRefused, match="site-reading"), pictured(tmp_path / "o"):
        opened(site, Options(thickness="4 in"))
    assert (tmp_path / "o" / "site-reading.svg").is_file()
