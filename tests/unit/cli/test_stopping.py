"""Ctrl+C ends a command with one line."""

import contextlib
import signal
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from commands import boathouse, run
from kerfline.cli.stopping import StoppableGroup


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return boathouse(tmp_path)


@pytest.fixture
def keyboard():
    """Ctrl+C as in a terminal: a run in the background is started with it turned off."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("keyboard")
def test_a_command_that_is_stopped_says_so_and_leaves_nothing(job, tmp_path, monkeypatch):
    """Ctrl+C while a file is written: status 128 + 2 as of a POSIX shell, no folder, no temporary."""

    def stopped(*_):
        signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr("kerfline.files.atomic._written", stopped)
    result = run("layout", str(job), "--out", str(tmp_path / "out"))
    assert result.exit_code == 130
    assert result.output.endswith("stopped; no file is left half written\n")
    assert not (tmp_path / "out").exists()
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


@pytest.mark.usefixtures("keyboard")
def test_a_stop_during_the_last_step_waits_for_it(job, tmp_path, monkeypatch):
    """Either all files are new or none is: the renames are carried through."""
    rename = Path.replace

    def stopped(self, target):
        signal.raise_signal(signal.SIGINT)
        return rename(self, target)

    monkeypatch.setattr(Path, "replace", stopped)
    result = run("layout", str(job), "--out", str(tmp_path / "out"))
    assert result.exit_code == 130
    written = sorted(p.name for p in (tmp_path / "out").iterdir())
    assert len(written) == 15
    assert [name for name in written if name.startswith(".")] == [".boathouse-files.json"]
    assert not [name for name in written if name.endswith(".part")]


def test_a_failure_that_is_no_stop_goes_on_to_whoever_minds_it():
    group = StoppableGroup("kerfline", commands={"fail": click.Command("fail", callback=fail)})
    result = CliRunner().invoke(group, ["fail"])
    assert isinstance(result.exception, RuntimeError)
    assert "stopped" not in result.output


def fail():
    raise RuntimeError("broken")


@pytest.mark.usefixtures("keyboard")
def test_a_library_that_fails_because_it_was_stopped_is_a_stop():
    """What is stopped while it is loaded may fail with an error of its own."""

    def load():
        with contextlib.suppress(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)
        raise ImportError("half loaded")

    group = StoppableGroup("kerfline", commands={"load": click.Command("load", callback=load)})
    result = CliRunner().invoke(group, ["load"])
    assert result.exit_code == 130
    assert result.output == "stopped; no file is left half written\n"


def test_a_signal_that_somebody_else_handles_is_left_alone():
    before = signal.signal(signal.SIGINT, lambda *_: None)
    try:
        mine = signal.getsignal(signal.SIGINT)
        seen = []

        def look():
            seen.append(signal.getsignal(signal.SIGINT))

        group = StoppableGroup("kerfline", commands={"look": click.Command("look", callback=look)})
        CliRunner().invoke(group, ["look"])
        assert seen == [mine]
        assert signal.getsignal(signal.SIGINT) is mine
    finally:
        signal.signal(signal.SIGINT, before)
