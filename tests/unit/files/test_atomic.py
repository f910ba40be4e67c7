"""All files are written, or none."""

import errno
import os
from pathlib import Path

import pytest

from kerfline.errors import OutputRefused
from kerfline.files.atomic import write_all

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

    monkeypatch.setattr("tempfile.mkstemp", denied)
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


def test_no_temporary_is_left_when_a_rename_fails(tmp_path, monkeypatch):
    real = Path.replace

    def failing(self, target):
        if Path(target).name == "b.txt":
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        return real(self, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises(OutputRefused, match="name another folder with --out"):
        write_all(tmp_path, TWO)
    assert names(tmp_path) == ["a.txt"]


def test_the_sentence_names_the_folder(tmp_path):
    (tmp_path / "out").write_bytes(b"")
    with pytest.raises(OutputRefused) as refused:
        write_all(tmp_path / "out", TWO)
    assert refused.value.mistake.where == str(tmp_path / "out")
