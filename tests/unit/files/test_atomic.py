"""All files are written, or none."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from kerfline.errors import OutputRefused
from kerfline.files.atomic import finish, write_all

TWO = {"a.txt": b"first", "b.txt": b"second"}


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def test_files_are_written_in_a_folder_that_is_made_for_them(tmp_path):
    target = tmp_path / "out" / "boathouse"
    assert write_all(target, TWO) == (target / "a.txt", target / "b.txt")
    assert (target / "a.txt").read_bytes() == b"first"
    assert names(target) == ["a.txt", "b.txt"]


def test_files_that_stand_there_are_replaced_and_others_left_alone(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"old")
    (tmp_path / "other.txt").write_bytes(b"mine")
    write_all(tmp_path, TWO)
    assert (tmp_path / "a.txt").read_bytes() == b"first"
    assert (tmp_path / "other.txt").read_bytes() == b"mine"


def test_new_files_have_the_permissions_of_any_new_file(tmp_path):
    (tmp_path / "plain").touch()
    write_all(tmp_path, TWO)
    assert (tmp_path / "a.txt").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_file_where_a_folder_is_needed_is_refused(tmp_path):
    (tmp_path / "out").write_bytes(b"a file")
    with pytest.raises(OutputRefused, match="a file stands where a folder is needed"):
        write_all(tmp_path / "out", TWO)
    with pytest.raises(OutputRefused, match="a file stands where a folder is needed"):
        write_all(tmp_path / "out" / "deeper", TWO)
    assert (tmp_path / "out").read_bytes() == b"a file"


def test_a_folder_with_the_name_of_a_file_is_refused_before_anything_changes(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"old")
    (tmp_path / "b.txt").mkdir()
    with pytest.raises(OutputRefused, match="a folder has the name of the file"):
        write_all(tmp_path, TWO)
    assert names(tmp_path) == ["a.txt", "b.txt"]
    assert (tmp_path / "a.txt").read_bytes() == b"old"


@pytest.mark.parametrize("code", [errno.EACCES, errno.EROFS])
def test_a_folder_that_may_not_be_written_is_refused(tmp_path, monkeypatch, code):
    """The file system's answer is staged, for a superuser may write anywhere."""

    def denied(**kwargs):
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr("tempfile.mkdtemp", denied)
    with pytest.raises(OutputRefused, match="that you may write to"):
        write_all(tmp_path / "out", TWO)
    assert names(tmp_path) == []


def fail_on(monkeypatch, method, number, code):
    """Makes the nth call of a method fail as the file system would."""
    real, calls = getattr(os, method), []

    def failing(*args, **kwargs):
        calls.append(args)
        if len(calls) == number:
            raise OSError(code, os.strerror(code))
        return real(*args, **kwargs)

    monkeypatch.setattr(os, method, failing)


@pytest.mark.parametrize("number", [1, 2])
def test_a_full_disk_leaves_nothing_behind(tmp_path, monkeypatch, number):
    fail_on(monkeypatch, "fsync", number, errno.ENOSPC)
    target = tmp_path / "out" / "deep"
    with pytest.raises(OutputRefused, match=r"no space left on device.*make room"):
        write_all(target, TWO)
    assert names(tmp_path) == []


def test_a_full_disk_leaves_the_files_that_stood_there(tmp_path, monkeypatch):
    (tmp_path / "a.txt").write_bytes(b"old")
    fail_on(monkeypatch, "fsync", 2, errno.ENOSPC)
    with pytest.raises(OutputRefused):
        write_all(tmp_path, TWO)
    assert names(tmp_path) == ["a.txt"]
    assert (tmp_path / "a.txt").read_bytes() == b"old"


@pytest.mark.parametrize("number", range(1, 7))
def test_a_rename_that_fails_puts_every_file_back(tmp_path, monkeypatch, number):
    """One rename declares the set whole, two take old files away, then two put the new ones in place."""
    for name in TWO:
        (tmp_path / name).write_bytes(b"old")
    real, calls = os.rename, []

    def failing(*args, **kwargs):
        calls.append(args)
        if len(calls) == number:
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        return real(*args, **kwargs)

    monkeypatch.setattr(os, "rename", failing)
    monkeypatch.setattr(os, "replace", failing)
    if number < 6:
        with pytest.raises(OutputRefused, match="name another folder with --out"):
            write_all(tmp_path, TWO)
        assert contents(tmp_path) == {"a.txt": b"old", "b.txt": b"old"}
    monkeypatch.undo()
    write_all(tmp_path, TWO)
    assert contents(tmp_path) == TWO


def contents(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_the_sentence_names_the_folder(tmp_path):
    (tmp_path / "out").write_bytes(b"")
    with pytest.raises(OutputRefused) as refused:
        write_all(tmp_path / "out", TWO)
    assert refused.value.mistake.where == str(tmp_path / "out")


OLD = {"a.txt": b"old a", "b.txt": b"old b", "c.txt": b"old c"}
NEW = {"a.txt": b"new a", "b.txt": b"new b", "d.txt": b"new d"}

KILLED = """
import os, signal, sys
from pathlib import Path
from kerfline.files.atomic import opened

real, calls = (os.rename, os.replace, os.unlink, os.rmdir), []

def counted(act):
    def killed(*args, **kwargs):
        calls.append(args)
        if len(calls) == int(sys.argv[2]):
            os.kill(os.getpid(), getattr(signal, sys.argv[3]))
        return act(*args, **kwargs)
    return killed

os.rename, os.replace, os.unlink, os.rmdir = map(counted, real)
with opened(Path(sys.argv[1])) as folder:
    folder.write({"a.txt": b"new a", "b.txt": b"new b", "d.txt": b"new d"}, ["c.txt"])
print("done")
"""
"""Writes a set and is sent a signal before the nth change of a name."""


def run_killed(folder, number, stop):
    return subprocess.run(
        [sys.executable, "-c", KILLED, str(folder), str(number), stop],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )


@pytest.mark.parametrize("stop", ["SIGKILL", "SIGTERM", "SIGINT"])
@pytest.mark.parametrize("number", [1, 2, 3, 5, 6, 7, 8])
def test_a_run_stopped_at_a_rename_leaves_the_old_set_or_the_new_one(tmp_path, number, stop):
    for name, data in {**OLD, "mine.txt": b"mine"}.items():
        (tmp_path / name).write_bytes(data)
    done = run_killed(tmp_path, number, stop)
    assert done.returncode != 0
    seen = {n: d for n, d in visible(tmp_path).items() if n != "mine.txt"}
    assert {d.split()[0] for d in seen.values()} in ({b"old"}, {b"new"}, set()), (
        "never some of each"
    )
    if stop != "SIGKILL":
        assert seen in (OLD, NEW)
    finish(tmp_path)
    assert visible(tmp_path) in ({**OLD, "mine.txt": b"mine"}, {**NEW, "mine.txt": b"mine"})
    write_all(tmp_path, NEW)
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []
    assert (tmp_path / "mine.txt").read_bytes() == b"mine"


def visible(folder):
    return {path.name: path.read_bytes() for path in folder.glob("[!.]*")}


def test_a_set_that_was_whole_when_its_run_was_killed_is_carried_through(tmp_path):
    """From the second rename on the new set counts, whatever was moved by then."""
    for number in range(2, 9):
        folder = tmp_path / str(number)
        write_all(folder, OLD)
        run_killed(folder, number, "SIGKILL")
        finish(folder)
        assert visible(folder) == NEW, number


def test_a_single_file_is_replaced_in_one_step(tmp_path, monkeypatch):
    """The file is there at every moment; what a killed run left of one is swept away."""
    write_all(tmp_path, {"job.toml": b"old"})
    (tmp_path / ".kerfline-abc.part").write_bytes(b"half")
    there = []
    real = Path.replace

    def watched(self, target):
        there.append(Path(target).read_bytes())
        return real(self, target)

    monkeypatch.setattr(Path, "replace", watched)
    write_all(tmp_path, {"job.toml": b"new"})
    assert there == [b"old"]
    assert contents(tmp_path) == {"job.toml": b"new"}


def test_two_runs_in_one_folder_wait_for_each_other(tmp_path):
    """Ten sets written at once from five processes: one of them lies there, whole."""
    write = "import sys; from pathlib import Path; from kerfline.files.atomic import write_all\n"
    write += "for i in range(2): write_all(Path(sys.argv[1]), {f'{n}.txt': sys.argv[2].encode() for n in range(20)})"
    runs = [
        subprocess.Popen([sys.executable, "-c", write, str(tmp_path), str(number)])
        for number in range(5)
    ]
    assert [run.wait(timeout=60) for run in runs] == [0] * 5
    seen = contents(tmp_path)
    assert len(seen) == 20
    assert len(set(seen.values())) == 1
