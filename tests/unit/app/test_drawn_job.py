"""Which slab of a drawing is meant: by the evidence, by its number, by a place in it, or all of them."""

from dataclasses import replace

import pytest

from drawn_plans import two_slabs
from kerfline.app.drawn_job import slabs_meant
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.files.drawing import SlabOpen

SAID = Wishes(thickness="4 in")


@pytest.fixture
def site(tmp_path):
    return two_slabs(tmp_path / "site.dxf")


def square_feet(path, **said):
    return round(open_job(path, replace(SAID, **said)).slab.outline.polygon.area / 304.8**2)


def test_two_slabs_are_asked_about_with_the_words_to_type(site):
    with pytest.raises(SlabOpen) as asked:
        open_job(site, SAID)
    head, first, second = str(asked.value).splitlines()
    assert "several outlines of slabs side by side" in head
    assert "--slab 1, or --slab all" in head
    assert first.startswith("1. 40'-0\" x 24'-0\"")
    assert second.startswith("2. 30'-0\" x 20'-0\"")


def test_each_answer_gives_its_slab(site):
    assert square_feet(site, slab="1") == 960
    assert square_feet(site, slab="2") == 600
    assert square_feet(site, slab_at="60 ft, 5 ft") == 600
    assert open_job(site, replace(SAID, slab="2")).name == "site slab 2"


def test_all_of_them(site):
    assert slabs_meant(site, replace(SAID, slab="all")) == ("1", "2")
    assert slabs_meant(site, SAID) == ("",)
    with pytest.raises(InputRefused, match="only kerfline layout takes all slabs"):
        open_job(site, replace(SAID, slab="all"))


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"slab": "3"}, "no such outline.*2 that could be a slab.*a number from 1 to 2"),
        ({"slab": "left"}, "a slab is chosen by its number"),
        ({"slab_at": "50 ft, 90 ft"}, "no such outline"),
        ({"slab_at": "50 ft"}, "a place is given by its two coordinates"),
    ],
)
def test_what_is_no_answer_is_refused(site, said, words):
    with pytest.raises(InputRefused, match=words):
        open_job(site, replace(SAID, **said))


def test_centimetres_and_survey_feet_can_be_said(site):
    by_unit = {
        unit: open_job(site, replace(SAID, drawn_in=unit, slab="1")) for unit in ("cm", "survey-ft")
    }
    areas = {u: job.slab.outline.polygon.area for u, job in by_unit.items()}
    assert areas["cm"] == pytest.approx(4800 * 2880)
    # the US survey foot is 1200/3937 m (NIST SP 811, appendix B)
    assert areas["survey-ft"] == pytest.approx(480 * 288 * (1200 / 3937 * 1000) ** 2)
