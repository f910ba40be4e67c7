"""What the README shows is true: its job file is read, its tables name the keys that there are."""

import re
import typing
from pathlib import Path

import pytest
from click.testing import CliRunner
from pydantic import BaseModel

from kerfline.app.open_job import open_job
from kerfline.cli.program import kerfline
from kerfline.files.job_schema import JobFile
from kerfline.model.slab import Boxout

README = Path(__file__).parents[1].joinpath("README.md").read_text(encoding="utf-8")
ROW = re.compile(r"^\| (`\[.*?) \| (.*?) \| .* \|$", re.MULTILINE)


def keys_of(table: str) -> set[str]:
    """The keys that a table of the job file takes."""
    annotation = JobFile.model_fields[table].annotation
    parts = [annotation, *typing.get_args(annotation)]
    model = next(p for p in parts if isinstance(p, type) and issubclass(p, BaseModel))
    return set(model.model_fields)


@pytest.mark.parametrize(("tables", "keys"), ROW.findall(README))
def test_a_row_of_the_job_files_tables_names_keys_that_there_are(tables: str, keys: str) -> None:
    """Words in brackets after a key are its values."""
    names = re.findall(r"\w+", tables)
    for name, group in zip(names, keys.split(";"), strict=True):
        told = set(re.findall(r"`(\w+)`", re.sub(r"\(.*?\)", "", group)))
        assert told
        assert told <= keys_of(name)


def test_the_job_file_is_read(tmp_path: Path) -> None:
    """Both its parts together, with the weather of the demo's form left out."""
    blocks = re.findall(r"```toml\n(.*?)```", README, re.DOTALL)
    path = tmp_path / "job.toml"
    path.write_text("\n".join(blocks), encoding="utf-8")
    job = open_job(path)
    assert job.name == "Boathouse"
    assert job.slab.columns[0].boxout is Boxout.DIAMOND
    assert job.day["start"] == "06:30"


def test_every_command_line_is_one_that_there_is() -> None:
    """Each command is known, and so is each option that is shown with it."""
    lines = re.findall(r"^kerfline (\w+)(.*?)(?:#.*)?$", README, re.MULTILINE)
    assert len(lines) >= 8
    for command, rest in lines:
        shown = CliRunner().invoke(kerfline, [command, "--help"])
        assert shown.exit_code == 0
        for option in re.findall(r"--[\w-]+", rest):
            assert option in shown.output
