"""A file of the moment is whole while it is read, and gone afterwards whatever happens."""

import errno
import os

import pytest

from kerfline.errors import OutputRefused
from kerfline.files.scratch import scratch_file


def test_it_holds_the_bytes_and_is_gone_afterwards(tmp_path):
    with scratch_file(tmp_path, b"slab", ".toml") as path:
        assert path.read_bytes() == b"slab"
        assert path.parent == tmp_path
        assert path.suffix == ".toml"

    assert list(tmp_path.iterdir()) == []


def test_it_is_gone_when_the_reader_fails(tmp_path):
    with pytest.raises(ZeroDivisionError), scratch_file(tmp_path, b"", ".dxf"):
        raise ZeroDivisionError

    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_takes_nothing_is_told_in_words(tmp_path):
    with (
        pytest.raises(OutputRefused, match="no such file"),
        scratch_file(tmp_path / "no", b"", "x"),
    ):
        pytest.fail("there is nothing to read")


def test_a_disk_that_fills_while_writing_leaves_nothing(tmp_path, monkeypatch):
    def full(*_, **__):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("os.fdopen", full)
    with pytest.raises(OutputRefused, match="no space"), scratch_file(tmp_path, b"x", "x"):
        pytest.fail("there is nothing to read")

    assert list(tmp_path.iterdir()) == []
