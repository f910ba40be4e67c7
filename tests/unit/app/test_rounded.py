"""What is written of a drawing is what a person would write, and nothing moves by more than half a step."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.app.rounded import rounded
from kerfline.files.job_file import job_text, read_job
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Slab, Wall
from kerfline.units import Unit

STEPS = {Unit.FT: 25.4 / 16, Unit.IN: 25.4 / 16, Unit.M: 1.0, Unit.MM: 1.0}


def slab(x, y, wide, deep):
    ring = Ring(((x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)))
    middle = y + deep / 2
    wall = Wall(id="W1", path=((x, middle), (x + wide, middle)), thickness=101.57)
    return Slab(outline=ring, thickness=101.6, walls=(wall,))


places = st.floats(-5e4, 5e4)


@given(st.sampled_from(list(Unit)), places, places, st.floats(5e3, 3e4), st.floats(5e3, 3e4))
def test_nothing_moves_by_more_than_half_a_step(unit, x, y, wide, deep):
    before = slab(x, y, wide, deep)
    after = rounded(before, unit)
    for old, new in zip(before.outline.points, after.outline.points, strict=True):
        for a, b in zip(old, new, strict=True):
            assert abs(a - b) <= STEPS[unit] / 2 + 1e-6
            assert abs(b / STEPS[unit] - round(b / STEPS[unit])) < 1e-6


@pytest.mark.parametrize("unit", list(Unit))
def test_it_reads_back_as_it_was_written(unit, tmp_path):
    job = Job(
        name="It", units=unit, slab=rounded(slab(-18441.850999999988, 3.3, 12345.678, 7e3), unit)
    )
    text = job_text(job)
    assert "99999" not in text
    assert all(len(word) < 16 for word in text.split("[slab]")[1].split())
    (tmp_path / "it.toml").write_text(text)
    assert read_job(tmp_path / "it.toml").slab.outline == job.slab.outline


def test_points_closer_than_a_step_stay():
    ring = Ring(((0.0, 0.0), (9000.2, 0.0), (9000.4, 0.1), (9000.0, 6000.0), (0.0, 6000.0)))
    before = Slab(outline=ring, thickness=100.0)
    assert rounded(before, Unit.MM).outline == ring
