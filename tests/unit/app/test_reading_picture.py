"""The picture of a reading, and of the question which outline is the slab."""

from dataclasses import replace

import pytest

from drawn_plans import two_slabs
from kerfline.app.open_job import open_job
from kerfline.app.reading_picture import pictured, reading_files
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused, Mistake

SAID = Wishes(thickness="4 in")


@pytest.fixture
def site(tmp_path):
    return two_slabs(tmp_path / "site.dxf")


def test_the_picture_of_a_question(site, tmp_path):
    with (
        pytest.raises(InputRefused, match=r"site-reading\.pdf and site-reading\.svg in"),
        pictured(tmp_path / "o"),
    ):
        open_job(site, SAID)
    svg = (tmp_path / "o" / "site-reading.svg").read_text()
    assert "Which outline is the slab?" in svg
    assert (tmp_path / "o" / "site-reading.pdf").read_bytes().startswith(b"%PDF")


def test_a_reading_is_pictured_with_the_slab_that_was_taken(site):
    heard = []
    open_job(site, replace(SAID, slab="2"), heard.append)
    files = reading_files(heard[0], "Site Plan", ["Slab: the second."])
    assert set(files) == {"site-plan-reading.pdf", "site-plan-reading.svg"}
    svg = files["site-plan-reading.svg"].decode()
    assert "How the drawing was read" in svg
    assert "Slab: the second." in svg


def test_other_refusals_pass_and_draw_nothing(tmp_path):
    with pytest.raises(InputRefused) as refused, pictured(tmp_path / "o"):
        raise InputRefused(Mistake(what="no layer is the outline"))
    assert str(refused.value) == "no layer is the outline."
    assert not (tmp_path / "o").exists()


def test_a_picture_goes_beside_the_sheets_where_no_folder_is_named(site, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputRefused, match=r"numbered, over the drawing"), pictured(None):
        open_job(site, SAID)
    assert (tmp_path / "out" / "site" / "site-reading.svg").is_file()
