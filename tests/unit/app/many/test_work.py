"""One slab of many, as a worker does it."""

import time
from dataclasses import replace

import pytest

from houses import HOUSE, house
from kerfline.app.many import work
from kerfline.app.many.line import Fate
from kerfline.app.many.work import Task, do
from kerfline.app.wishes import Wishes


def test_an_endless_slab_is_given_up(tmp_path, monkeypatch):
    """Its time is over; the others are done."""

    def endless(*_):
        while True:
            time.sleep(0.01)

    monkeypatch.setattr(work, "outcome_of", endless)
    path = house(tmp_path, "oak", 40)
    task = work.Task(
        command="layout", source=path, stem="oak", out=tmp_path, wishes=Wishes(), plans=tmp_path, limit=0.3,
    )  # fmt: skip
    line = work.do(task)
    assert line.fate is Fate.FAILED
    assert line.words.startswith("not done after 0.3 seconds")


def task(tmp_path, source, **more):
    return Task(
        command="check", source=source, stem="oak", out=tmp_path, wishes=Wishes(), plans=tmp_path, limit=60, **more,
    )  # fmt: skip


@pytest.fixture
def jointed(tmp_path):
    path = house(tmp_path, "oak", 40)
    path.write_text(path.read_text() + "\n[[joint]]\npath = [[10, 0], [10, 20]]\n")
    return path


def test_a_slab_is_written_into_a_folder_of_its_name_and_told_in_a_line(tmp_path, jointed):
    line = do(task(tmp_path, jointed))
    assert (line.fate, line.panels, line.folder) == (Fate.DONE, 2, str(tmp_path / "oak"))
    written = [p for p in (tmp_path / "oak").iterdir() if not p.name.startswith(".")]
    assert len(written) == line.files > 0


@pytest.mark.parametrize(
    "asked", [{"again": True}, {"rules": ("floor", "parking")}, {"depth": "1 in"}]
)
def test_what_has_not_changed_is_left_until_something_else_is_asked(tmp_path, jointed, asked):
    first = do(task(tmp_path, jointed))
    assert do(task(tmp_path, jointed)).fate is Fate.UNCHANGED
    assert do(task(tmp_path, jointed, **asked)).fate is Fate.DONE
    assert do(task(tmp_path, jointed)).fate is (Fate.UNCHANGED if "again" in asked else Fate.DONE)
    assert first.fate is Fate.DONE


def test_a_slab_that_is_refused_is_told_in_one_sentence_and_writes_nothing(tmp_path):
    path = house(
        tmp_path, "bad", 40, HOUSE.replace("thickness", "thikness").replace("start", "begin")
    )
    line = do(task(tmp_path, path))
    assert line.fate is Fate.REFUSED
    assert line.name == "bad"
    assert "line 6" in line.words
    assert line.words.endswith(" more)")
    assert not (tmp_path / "oak").exists()


def test_memory_that_is_short_is_told(tmp_path, jointed, monkeypatch):
    def short(*_):
        raise MemoryError

    monkeypatch.setattr(work, "check_job", short)
    line = do(task(tmp_path, jointed))
    assert (line.fate, line.words) == (Fate.FAILED, "there is not enough memory for it")


def test_equal_plans_of_other_names_share_their_layout(tmp_path):
    """The layout of the first lies where the second looks for it."""
    first = replace(task(tmp_path, house(tmp_path, "elm", 30)), command="layout")
    second = replace(task(tmp_path, house(tmp_path, "yew", 30)), command="layout", stem="yew")
    assert do(first).fate is Fate.DONE
    (kept,) = tmp_path.glob("*.layout")
    before = kept.stat().st_mtime_ns
    assert do(second).name == "Yew"
    assert [p.stat().st_mtime_ns for p in tmp_path.glob("*.layout")] == [before]
