"""The ``[tracing]`` of a job: read back as it was written, refused where it makes no sense, and on no sheet."""

from dataclasses import replace

import pytest

from kerfline.app.deliver import deliver
from kerfline.app.lay_out import lay_out_job
from kerfline.app.open_job import open_job
from kerfline.app.run_mark import run_mark
from kerfline.app.save_job import save_job
from kerfline.errors import InputRefused
from kerfline.model.tracing import Tracing
from paged import HOUSE, house

TABLE = """
[tracing]                    # the fax of the survey
file = "fax.jpg"
size = [1200, 900]
picture = [[100, 800], [1100, 800]]
plan = [[0, 0], ["30 ft", 0]]
"""

SQUARED = Tracing(
    file="plan-0a1b2c3d.pdf",
    page=3,
    size=(612.0, 792.0),
    picture=((10.5, 700.25), (600.0, 690.0), (580.0, 30.0), (33.0, 41.0)),
    plan=((0.0, 0.0), (9144.0, 0.0), (9144.0, 6096.0), (1 / 3, 6096.0)),
    fade=0.35,
    shown=False,
    locked=True,
)


def test_a_table_is_read(tmp_path):
    tracing = open_job(house(tmp_path, HOUSE + TABLE)).tracing
    assert tracing == Tracing(
        file="fax.jpg",
        size=(1200.0, 900.0),
        picture=((100.0, 800.0), (1100.0, 800.0)),
        plan=((0.0, 0.0), (9144.0, 0.0)),
    )


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("fax.jpg", "../fax.jpg", "put the picture beside the job file"),
        ("fax.jpg", "/etc/fax.jpg", "put the picture beside the job file"),
        ("fax.jpg", "c:fax.jpg", "put the picture beside the job file"),
        ("fax.jpg", ".fax.jpg", "put the picture beside the job file"),
        ("[1200, 900]", "[0, 900]", "no picture has this size"),
        ("[1200, 900]", "[1200]", "a point of a picture"),
        ("[1100, 800]", "[100, 800]", "do not say how it lies"),
        (", [1100, 800]", "", "picture"),
        ('["30 ft", 0]', '["30 ft", 0], [0, 5]', "do not say how it lies"),
        ("size =", "sise =", "size"),
        ("size =", "fade = 1.5\nsize =", "0 to 1"),
    ],
)
def test_what_makes_no_sense_is_refused(tmp_path, old, new, words):
    assert old in TABLE
    with pytest.raises(InputRefused) as refused:
        open_job(house(tmp_path, HOUSE + TABLE.replace(old, new)))
    assert words in str(refused.value)


@pytest.mark.parametrize("before", ["", TABLE])
def test_it_is_saved_and_comes_back(tmp_path, before):
    path = house(tmp_path, HOUSE + before)
    save_job(path, replace(open_job(path), tracing=SQUARED))
    assert open_job(path).tracing == SQUARED
    assert "# between boats and kitchen" in path.read_text()


def test_it_goes_when_it_is_removed(tmp_path):
    path = house(tmp_path, HOUSE + TABLE)
    save_job(path, replace(open_job(path), tracing=None))
    assert path.read_text().rstrip() == HOUSE.rstrip()


def test_a_change_of_the_picture_keeps_what_people_wrote(tmp_path):
    path = house(tmp_path, HOUSE + TABLE)
    job = open_job(path)
    save_job(path, replace(job, tracing=replace(job.tracing, fade=0.3)))
    assert path.read_text() == (HOUSE + TABLE).rstrip("\n") + "\nfade = 0.3\n"


def test_no_sheet_nor_table_knows_of_it(tmp_path):
    plain = lay_out_job(open_job(house(tmp_path)))
    traced = replace(plain, job=replace(plain.job, tracing=SQUARED))
    assert run_mark(plain.job, plain.layout) == run_mark(traced.job, traced.layout)
    for name, outcome in (("plain", plain), ("traced", traced)):
        deliver(outcome, tmp_path / name)
    files = {p.name for p in (tmp_path / "plain").iterdir()}
    assert len(files) > 8
    assert files == {p.name for p in (tmp_path / "traced").iterdir()}
    for each in files:
        assert (tmp_path / "plain" / each).read_bytes() == (tmp_path / "traced" / each).read_bytes()
