"""Two runs are kept from one file or folder at the same time."""

import subprocess
import sys

import pytest

from kerfline.files.folder_lock import abandoned, locked, written_through

HOLD = """
import sys, time
from pathlib import Path
from kerfline.files.folder_lock import locked
with locked(Path(sys.argv[1])):
    print("held", flush=True)
    sys.stdin.readline()
"""


@pytest.fixture
def holder(tmp_path):
    """Another process that holds the folder until it is told to let go."""
    begun = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(tmp_path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert begun.stdout.readline() == "held\n"
    yield begun
    begun.kill()
    begun.communicate()


@pytest.mark.skipif(sys.platform == "win32", reason="Windows locks nothing here")
def test_a_folder_that_another_run_holds_is_not_abandoned_until_it_ends(holder, tmp_path):
    assert not abandoned(tmp_path)
    holder.communicate("go\n")
    assert abandoned(tmp_path)


def test_a_file_is_held_while_it_is_worked_on_and_then_let_go(tmp_path):
    file = tmp_path / "x"
    file.touch()
    with locked(file):
        assert not abandoned(file)
    assert abandoned(file)


def test_what_is_not_there_is_held_by_nobody_and_cannot_be(tmp_path):
    assert not abandoned(tmp_path / "nothing")
    with pytest.raises(FileNotFoundError), locked(tmp_path / "nothing"):
        pass
    written_through(tmp_path / "nothing")
    written_through(tmp_path)
