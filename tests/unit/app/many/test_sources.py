"""Which slabs are meant by what was named."""

from pathlib import Path

import pytest

from kerfline.app.many.sources import are_many, sources
from kerfline.errors import InputRefused

JOB = '[job]\nname = "{name}"\nunits = "ft"\n'


@pytest.fixture
def plans(tmp_path):
    """Two jobs, one of them from a drawing; a drawing alone; rules and notes that are no slabs."""
    (tmp_path / "b.toml").write_text(JOB.format(name="Barn"))
    (tmp_path / "a.toml").write_text(JOB.format(name="Ark") + '[drawing]\nfile = "shape.dxf"\n')
    for name in ("shape.dxf", "b.dxf", "alone.DXF", "notes.txt", ".hidden.toml"):
        (tmp_path / name).write_text("x")
    (tmp_path / "rules.toml").write_text("[aspect]\nmaximum = 1.4\n")
    (tmp_path / "broken.toml").write_text("[job")
    return tmp_path


def names(found):
    return [(source.path.name, source.stem) for source in found]


def test_a_folder_gives_its_jobs_and_the_drawings_that_no_job_stands_for(plans):
    assert names(sources([plans])) == [
        ("a.toml", "ark"), ("alone.DXF", "alone"), ("b.toml", "barn"), ("broken.toml", "broken"),
    ]  # fmt: skip


def test_each_is_meant_once_in_the_order_named(plans):
    found = sources([plans / "b.toml", plans, plans / "*.toml"])
    assert [name for name, _ in names(found)] == [
        "b.toml", "a.toml", "alone.DXF", "broken.toml", "rules.toml",
    ]  # fmt: skip


def test_one_file_is_not_many(plans):
    assert not are_many([plans / "b.toml"])
    assert not are_many([plans / "missing.toml"])
    assert not are_many([Path("40 ft x 28 ft")])
    assert are_many([plans])
    assert are_many([plans / "*.toml"])
    assert are_many([plans / "a.toml", plans / "b.toml"])
    odd = plans / "plan [1].toml"
    odd.write_text("x")
    assert not are_many([odd])


@pytest.mark.parametrize("name", ["empty", "*.ifc"])
def test_nothing_found_is_refused_in_words(tmp_path, name):
    (tmp_path / "empty").mkdir()
    with pytest.raises(InputRefused, match="no job file and no drawing in it"):
        sources([tmp_path / name])
