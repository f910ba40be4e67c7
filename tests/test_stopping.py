"""A run that is stopped or killed at any moment: the old set or the new one, whole; one line, no trace."""

import random
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

JOB = Path(__file__).parents[1] / "fixtures" / "boathouse" / "boathouse.toml"
MINE = {"notes.txt": b"ours", "boathouse-joint-plan-9.svg": b"drawn by hand"}
"""Files of the user's own, which no run touches."""

OLD = ("--to-maximum", "--alternatives", "2")
"""What the set before was made with; it has files that the new one has not."""


def command(folder: Path, *more: str) -> list[str]:
    return [sys.executable, "-m", "kerfline", "layout", str(JOB), "--out", str(folder), *more]


def seen(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.glob("[!.]*") if path.name not in MINE}


def said(told: str) -> str:
    """What was said beside the words on the progress, which a slow machine is told."""
    return "".join(line for line in told.splitlines(keepends=True) if not line.endswith(" ...\n"))


class Sets:
    """The set that lies there, and the one that takes its place."""

    def __init__(self, root: Path) -> None:
        self.folder = root / "out"
        start = time.monotonic()
        self.old = self._run(root / "old", *OLD)
        self.new = self._run(root / "new")
        self.seconds = (time.monotonic() - start) / 2
        assert self.old != self.new
        assert set(self.old) != set(self.new), "one set has a sheet that the other has not"
        self._run(self.folder, *OLD)
        self.clean = root / "clean"
        shutil.copytree(self.folder, self.clean)
        for name, data in MINE.items():
            (self.clean / name).write_bytes(data)

    def _run(self, folder: Path, *more: str) -> dict[str, bytes]:
        subprocess.run(command(folder, *more), check=False, capture_output=True, timeout=120)
        return seen(folder)

    def stopped(self, number: int, stop: signal.Signals) -> tuple[int, str]:
        """Runs and sends a signal somewhere between the first line and some time after the last."""
        shutil.rmtree(self.folder)
        shutil.copytree(self.clean, self.folder)
        run = subprocess.Popen(
            command(self.folder), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
        )
        time.sleep(0.08 + 1.1 * self.seconds * random.Random(number).random())
        run.send_signal(stop)
        _, told = run.communicate(timeout=120)
        return run.returncode, said(told)

    def hold(self) -> None:
        """Nothing is mixed or lost now, and the next run leaves the new set alone."""
        now = seen(self.folder)
        old = all(self.old.get(name) == data for name, data in now.items())
        new = all(self.new.get(name) == data for name, data in now.items())
        assert old or new, "an old file lies among new ones"
        assert now in (self.old, self.new) or (self.folder / ".kerfline-ready").is_dir()
        assert self._run(self.folder) == self.new
        hidden = [path.name for path in self.folder.iterdir() if path.name.startswith(".")]
        assert hidden == [".boathouse-files.json"]
        assert {name: (self.folder / name).read_bytes() for name in MINE} == MINE


@pytest.fixture(scope="module")
def sets(tmp_path_factory: pytest.TempPathFactory) -> Sets:
    return Sets(tmp_path_factory.mktemp("sets"))


STOPS = (signal.SIGKILL, signal.SIGTERM, signal.SIGINT)


def hold_one(sets: Sets, number: int) -> None:
    stop = STOPS[number % 3]
    status, told = sets.stopped(number, stop)
    if stop == signal.SIGINT:
        assert status in (130, 0, -signal.SIGINT)  # done already, or while Python itself is ending
        assert told in ("", "stopped; no file is left half written\n")
        assert status != 130 or told
    sets.hold()


@pytest.mark.parametrize("number", range(3))
def test_a_run_is_stopped_anywhere(sets: Sets, number: int) -> None:
    hold_one(sets, number)


@pytest.mark.long
@pytest.mark.parametrize("hundred", range(5))
def test_five_hundred_runs_are_stopped_anywhere(sets: Sets, hundred: int) -> None:
    for number in range(3 + 100 * hundred, 103 + 100 * hundred):
        hold_one(sets, number)


def test_a_reader_that_has_read_enough_changes_nothing(tmp_path: Path) -> None:
    run = subprocess.Popen(
        command(tmp_path / "out"), stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert run.stdout is not None
    assert run.stderr is not None
    run.stdout.close()
    told = run.stderr.read()
    run.stderr.close()
    assert (run.wait(timeout=120), said(told)) == (0, "")
    assert (tmp_path / "out" / "boathouse-layout.json").is_file()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a device that is full")
def test_an_output_that_is_full_is_told_in_one_line(tmp_path: Path) -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            command(tmp_path / "out"), stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert done.returncode == 2
    (line,) = said(done.stderr).splitlines()
    assert "cannot be written (no space left on device)" in line
    assert (tmp_path / "out" / "boathouse-layout.json").is_file()
