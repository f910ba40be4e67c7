"""The command and its exit status."""

from pathlib import Path

import pytest

from commands import BOATHOUSE, boathouse, run
from kerfline.cli import main as cli_main
from kerfline.cli import program
from kerfline.cli.program import MOST_TOLD, WHOLE_TRACE
from kerfline.errors import InputRefused, Mistake


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return boathouse(tmp_path)


def test_main_turns_a_refusal_into_status_2(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr("sys.argv", ["kerfline", "layout", str(tmp_path / "nowhere.toml")])
    with pytest.raises(SystemExit) as stop:
        cli_main()
    assert stop.value.code == 2
    assert "nowhere.toml" in capsys.readouterr().err


def test_a_screen_holds_the_mistakes_of_a_file_that_is_wrong_throughout(
    job: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    job.write_text(BOATHOUSE + "[[column]]\nat = [99, 99]\n" * 50)
    monkeypatch.setattr("sys.argv", ["kerfline", "layout", str(job)])
    with pytest.raises(SystemExit) as stop:
        cli_main()
    told = capsys.readouterr().err.splitlines()
    assert stop.value.code == 2
    assert len(told) == 31
    assert told[-1] == "... and 20 more"


def failed_with(error, monkeypatch, capsys):
    """How the program ends, and what it says, where a command fails so."""

    def fail():
        raise error

    monkeypatch.setattr(program, "kerfline", fail)
    with pytest.raises(SystemExit) as stop:
        program.run()
    return stop.value.code, capsys.readouterr().err


@pytest.mark.parametrize(
    ("mistakes", "lines"), [(MOST_TOLD, MOST_TOLD), (MOST_TOLD + 1, MOST_TOLD + 1)]
)
def test_a_screen_full_of_mistakes_is_told_and_the_others_counted(
    monkeypatch, capsys, mistakes, lines
):
    error = InputRefused(*(Mistake(what=f"mistake {n}") for n in range(mistakes)))
    status, told = failed_with(error, monkeypatch, capsys)
    assert status == 2
    assert len(told.splitlines()) == lines
    assert ("... and 1 more" in told) is (mistakes > MOST_TOLD)


def test_a_mistake_of_the_programs_own_is_told_in_one_line_with_its_place(monkeypatch, capsys):
    status, told = failed_with(ZeroDivisionError("by\nzero"), monkeypatch, capsys)
    assert status == 70
    (line,) = told.splitlines()
    assert "(ZeroDivisionError: by zero; test_program.py:" in line
    assert "Please report it" in line


def test_its_trace_is_shown_where_it_is_asked_for(monkeypatch, capsys):
    monkeypatch.setenv(WHOLE_TRACE, "1")
    status, told = failed_with(KeyError("x"), monkeypatch, capsys)
    assert status == 70
    assert told.startswith("Traceback")


def test_memory_that_is_short_is_no_mistake_of_the_users(monkeypatch, capsys):
    status, told = failed_with(MemoryError(), monkeypatch, capsys)
    assert (status, told) == (
        70,
        "There is not enough memory for this; no file is left half written.\n",
    )


def test_every_command_is_listed_with_a_line_of_help():
    listed = run("--help").output
    for command in program.COMMANDS:
        assert f"\n  {command.name} " in listed
        assert command.get_short_help_str()
