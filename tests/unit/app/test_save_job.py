"""A saved job file says exactly what was on the page, or nothing is written."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.app.demo import demo_job
from kerfline.app.open_job import open_job
from kerfline.app.save_job import same_slab, save_job
from kerfline.errors import OutputRefused
from kerfline.files.job_file import read_job
from kerfline.model.job import Job
from kerfline.model.slab import GivenJoint, Wall
from kerfline.units import Unit
from paged import FT, HOUSE, house
from strategies import slabs

DEMO = Path(__file__).parents[3] / "src" / "kerfline" / "app" / "demo_data"


@settings(max_examples=25)
@given(slab=slabs(), unit=st.sampled_from(Unit))
def test_a_new_file_reads_back_to_the_same_slab(tmp_path_factory, slab, unit):
    path = tmp_path_factory.mktemp("job") / "job.toml"

    save_job(path, Job(name="Made up", units=unit, slab=slab))

    assert same_slab(read_job(path).slab, slab)


def test_any_change_is_carried_into_a_hand_written_file(tmp_path):
    path = house(tmp_path)
    job = open_job(path)
    wall = Wall(id="W2", path=((FT, FT), (FT, 5 * FT)), thickness=150.0, bearing=True)
    slab = replace(
        job.slab,
        thickness=131.7,
        walls=(replace(job.slab.walls[0], path=((9 * FT, 0.0), (9 * FT, 20 * FT))), wall),
        penetrations=(),
        joints=(*job.slab.joints[1:], GivenJoint(id="G7", path=((0.0, 1.0), (2.0, 3.123456789)))),
    )
    changed = replace(job, slab=slab)

    save_job(path, changed)

    assert same_slab(read_job(path).slab, slab)
    assert "# of bare numbers" in path.read_text()


def demo_in(folder):
    """The demo's job file and drawing in a folder of their own."""
    for part in DEMO.iterdir():
        if part.suffix in (".toml", ".dxf"):
            (folder / part.name).write_bytes(part.read_bytes())
    return folder / "community-workshop.toml"


def test_what_the_drawing_gives_stays_in_the_drawing(tmp_path):
    path = demo_in(tmp_path)
    job = open_job(path)
    moved = replace(
        job.slab.columns[0], at=(job.slab.columns[0].at[0] + 25.4, job.slab.columns[0].at[1])
    )
    changed = replace(job, slab=replace(job.slab, columns=(moved, *job.slab.columns[1:])))

    save_job(path, changed)

    text = path.read_text()
    assert "[drawing]" in text
    assert text.count("[[column]]") == 1
    assert same_slab(open_job(path).slab, changed.slab)


def test_what_the_drawing_contradicts_is_written_out_whole(tmp_path):
    path = demo_in(tmp_path)
    job = open_job(path)
    changed = replace(job, slab=replace(job.slab, walls=job.slab.walls[1:]))

    save_job(path, changed)

    text = path.read_text()
    assert "[drawing]" not in text
    assert text.count("[[wall]]") == len(changed.slab.walls)
    assert "# A community workshop" in text
    assert same_slab(open_job(path).slab, changed.slab)


def test_a_file_that_would_say_something_else_is_not_written(tmp_path, monkeypatch):
    """Whatever goes wrong in the writing: here the text stays as it was."""
    for writer in ("revise", "without_drawing"):
        monkeypatch.setattr(f"kerfline.files.job_revise.{writer}", lambda text, *_: text)
    path = house(tmp_path)
    job = replace(open_job(path), name="Another name")

    with pytest.raises(OutputRefused, match="would not say"):
        save_job(path, job)

    assert path.read_text() == HOUSE


def test_slabs_are_compared_to_a_hundredth_of_a_millimetre():
    slab = demo_job().slab
    near = replace(slab, thickness=slab.thickness + 0.005, walls=slab.walls[::-1])

    assert same_slab(slab, near)
    assert not same_slab(slab, replace(slab, thickness=slab.thickness + 0.1))
    assert not same_slab(slab, replace(slab, walls=slab.walls[1:]))
