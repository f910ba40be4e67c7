"""Many slabs done: each in its place in the order, equal ones once, and no failure stops another."""

from pathlib import Path

from kerfline.app.many.line import Fate
from kerfline.app.many.run import Many, do_many
from kerfline.app.many.sources import Source
from kerfline.app.many.work import Task
from kerfline.app.wishes import Wishes

JOB = """
[job]
name = "Oak"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [{wide}, 0], [{wide}, 10], [0, 10]]

[[joint]]
path = [[10, 0], [10, 10]]
"""


def source(folder, name, text):
    folder.mkdir(exist_ok=True)
    path = folder / name
    path.write_text(text)
    return Source(path=path, stem="oak")


def done(tmp_path, *found, told=None):
    like = Task(
        command="check", source=Path(), stem="", out=tmp_path / "out", wishes=Wishes(), plans=Path(), limit=60,
    )  # fmt: skip
    tell = told.append if told is not None else lambda _: None
    return do_many(Many(like=like, workers=2), found, lambda n, line: tell((n, line.source)))


def test_equal_files_are_done_once_and_one_name_is_not_written_twice(tmp_path):
    told = []
    first = source(tmp_path / "a", "oak.toml", JOB.format(wide=20))
    same = source(tmp_path / "b", "copy.toml", JOB.format(wide=20))
    other = source(tmp_path / "c", "oak.toml", JOB.format(wide=24))
    lines = done(tmp_path, first, same, other, told=told)
    assert [line.fate for line in lines] == [Fate.DONE, Fate.SAME, Fate.REFUSED]
    assert lines[1].words == f"the same as {first.path}"
    assert lines[1].panels == lines[0].panels == 2
    assert lines[2].words.startswith(f"{other.path} and {first.path} have one name")
    assert [line.source for line in lines] == [str(s.path) for s in (first, same, other)]
    assert told == [(2, str(first.path))], "the one that was done, after the one that was refused"


def test_a_copy_that_names_another_file_beside_it_is_no_equal(tmp_path):
    """The same words may name another drawing in another folder; both are refused, for neither is there."""
    text = (
        '[job]\nname = "Oak"\nunits = "ft"\n[slab]\nthickness = "4 in"\n[drawing]\nfile = "a.dxf"\n'
    )
    first = source(tmp_path / "a", "oak.toml", text)
    lines = done(tmp_path, first, source(tmp_path / "b", "oak.toml", text))
    assert [line.fate for line in lines] == [Fate.REFUSED, Fate.REFUSED]
    assert "have one name" in lines[1].words


def test_a_copy_of_what_is_refused_is_refused_as_it_is(tmp_path):
    first = source(tmp_path / "a", "oak.toml", JOB.format(wide='"x"'))
    lines = done(tmp_path, first, source(tmp_path / "b", "oak.toml", JOB.format(wide='"x"')))
    assert [line.fate for line in lines] == [Fate.REFUSED, Fate.REFUSED]
    assert lines[0].words == lines[1].words


def test_no_slab_gives_no_line(tmp_path):
    assert done(tmp_path) == ()
