"""A run that is stopped or killed at any moment: the old set or the new one, whole; one line, no trace."""

import json
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from kerfline.cli.program import kerfline

BOATHOUSE = Path(__file__).parents[1] / "fixtures" / "boathouse" / "boathouse.toml"
PAD = """\
[job]
name = "Pad"
units = "ft"
[slab]
thickness = "4 in"
outline = [[0, 0], [20, 0], [20, 12], [0, 12]]
"""
MINE = {"notes.txt": b"ours", "pad-joint-plan-9.svg": b"drawn by hand"}
"""Files of the user's own, which no run touches."""

AT_A_CHANGE = """
import json, os, signal, sys

import ezdxf, highspy, kerfline.cli.program, reportlab.pdfgen.canvas, svgwrite, xlsxwriter
import kerfline.app.deliver
from kerfline.cli.start import main

CHANGES = ("mkdir", "rename", "replace", "unlink", "rmdir", "chmod", "fsync")

def counted(act, number, stop, made):
    def watched(*args, **kwargs):
        made.append(args)
        if len(made) == number:
            os.kill(os.getpid(), stop)
        return act(*args, **kwargs)
    return watched

def run(number, stop, words, said):
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    os.dup2(said, 2)
    made, status = [], 1
    for name in CHANGES:
        setattr(os, name, counted(getattr(os, name), number, stop, made))
    sys.argv[:] = ["kerfline", *words]
    try:
        main()
    except SystemExit as left:
        status = left.code or 0
    sys.stderr.flush()
    os.write(2, f"changes {len(made)}\\n".encode())
    os._exit(status)

for line in sys.stdin:
    number, stop, words = json.loads(line)
    read, write = os.pipe()
    child = os.fork()
    if not child:
        run(number, stop, words, write)
    os.close(write)
    with os.fdopen(read) as told:
        told = told.read()
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    print(json.dumps([status, told]), flush=True)
"""
"""Starts the command again and again, and sends it a signal before the nth change that it makes in its folder.

Its libraries are loaded once, which is most of the time; a stop while they are loaded is tried apart.
"""

OLD = ("--to-maximum", "--alternatives", "2")
"""What the set before was made with; it has files that the new one has not."""


def command(folder: Path, *more: str, job: Path = BOATHOUSE) -> list[str]:
    return [sys.executable, "-m", "kerfline", "layout", str(job), "--out", str(folder), *more]


def seen(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.glob("[!.]*") if path.name not in MINE}


def said(told: str) -> str:
    """What was said beside the words on the progress, which a slow machine is told."""
    return "".join(line for line in told.splitlines(keepends=True) if not line.endswith(" ...\n"))


class Sets:
    """The set that lies there, and the one that takes its place."""

    def __init__(self, root: Path) -> None:
        self.folder, self.job = root / "out", root / "pad.toml"
        self.job.write_text(PAD)
        self.server: subprocess.Popen[str] | None = None
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

    def _command(self, folder: Path, *more: str) -> list[str]:
        return command(folder, *more, job=self.job)

    def _run(self, folder: Path, *more: str) -> dict[str, bytes]:
        subprocess.run(self._command(folder, *more), check=False, capture_output=True, timeout=120)
        return seen(folder)

    def stopped(self, number: int, stop: signal.Signals) -> tuple[int, str]:
        """Runs and sends a signal somewhere between the first line and some time after the last."""
        self._lay_old()
        run = subprocess.Popen(
            self._command(self.folder), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
        )
        time.sleep(0.08 + 1.1 * self.seconds * random.Random(number).random())
        run.send_signal(stop)
        _, told = run.communicate(timeout=120)
        return run.returncode, said(told)

    def changes(self) -> int:
        """How many changes a run makes in the folder, each file written and each renamed."""
        _, told = self.stopped_at(0, signal.SIGKILL)
        return int(told.split("changes ")[1])

    def stopped_at(self, number: int, stop: signal.Signals) -> tuple[int, str]:
        """Runs and sends a signal just before the nth change in the folder."""
        self._lay_old()
        if self.server is None:
            self.server = subprocess.Popen(
                [sys.executable, "-c", AT_A_CHANGE],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                text=True,
            )
        assert self.server.stdin is not None
        assert self.server.stdout is not None
        print(
            json.dumps([number, stop, self._command(self.folder)[3:]]),
            file=self.server.stdin,
            flush=True,
        )
        status, told = json.loads(self.server.stdout.readline())
        return status, said(told)

    def close(self) -> None:
        if self.server is not None:
            self.server.kill()
            self.server.communicate()

    def _lay_old(self) -> None:
        shutil.rmtree(self.folder)
        shutil.copytree(self.clean, self.folder)

    def hold(self) -> None:
        """Nothing is mixed or lost now, and the next run leaves the new set alone."""
        now = seen(self.folder)
        old = all(self.old.get(name) == data for name, data in now.items())
        new = all(self.new.get(name) == data for name, data in now.items())
        assert old or new, "an old file lies among new ones"
        assert now in (self.old, self.new) or (self.folder / ".kerfline-ready").is_dir()
        CliRunner().invoke(kerfline, self._command(self.folder)[3:])  # the next run
        assert seen(self.folder) == self.new
        hidden = [path.name for path in self.folder.iterdir() if path.name.startswith(".")]
        assert hidden == [".pad-files.json"]
        assert {name: (self.folder / name).read_bytes() for name in MINE} == MINE


@pytest.fixture(scope="module")
def sets(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Sets]:
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    """A run that is started in the background of a script ignores Ctrl+C, and so would what it starts."""
    made = Sets(tmp_path_factory.mktemp("sets"))
    yield made
    made.close()
    signal.signal(signal.SIGINT, before)


STOPS = (signal.SIGKILL, signal.SIGTERM, signal.SIGINT)


def hold_one(sets: Sets, number: int) -> None:
    stop = STOPS[number % 3]
    status, told = sets.stopped(number, stop)
    if stop == signal.SIGINT:
        assert status in (130, 0, -signal.SIGINT)  # done already, or while Python itself is ending
        begun = "kerfline" in told.replace("-m kerfline", "")
        if begun or status != -signal.SIGINT:  # else Python itself had not begun with the command
            assert told in ("", "stopped; no file is left half written\n")
        assert status != 130 or told
    sets.hold()


def hold_change(sets: Sets, number: int, stop: signal.Signals) -> None:
    status, told = sets.stopped_at(number, stop)
    told = "".join(x for x in told.splitlines(keepends=True) if not x.startswith("changes "))
    if stop == signal.SIGINT:
        assert status == 130
        assert told == "stopped; no file is left half written\n"
    else:
        assert status == -stop
    sets.hold()


@pytest.mark.long
@pytest.mark.parametrize("stop", STOPS)
def test_a_run_is_stopped_at_every_change_of_its_folder(sets: Sets, stop: signal.Signals) -> None:
    changes = sets.changes()
    assert changes > 50
    for number in range(1, changes + 1):
        hold_change(sets, number, stop)


@pytest.mark.parametrize("number", range(3))
def test_a_run_is_stopped_anywhere(sets: Sets, number: int) -> None:
    hold_one(sets, number)


@pytest.mark.long
@pytest.mark.parametrize("fifty", range(5))
def test_many_runs_are_stopped_anywhere(sets: Sets, fifty: int) -> None:
    for number in range(3 + 50 * fifty, 53 + 50 * fifty):
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
