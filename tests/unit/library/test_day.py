"""A layout and its placement day."""

import json

import pytest
from click.testing import CliRunner

import kerfline
from boathouses import boathouse_file, same_files
from kerfline.cli.program import kerfline as command


@pytest.fixture(scope="module")
def with_day(tmp_path_factory):
    return boathouse_file(tmp_path_factory.mktemp("day"))


def test_the_day_is_that_of_the_command(with_day, tmp_path):
    CliRunner().invoke(command, ["day", str(with_day), "--out", str(tmp_path / "command")])
    day = kerfline.plan_day(with_day)
    same_files(day.write(tmp_path / "library"), tmp_path / "command")
    assert day.to_dict() == json.loads((tmp_path / "command" / "boathouse-day.json").read_text())
    assert day.text() in (tmp_path / "command" / "boathouse-day.txt").read_text()


def test_the_demonstration_is_a_day_with_the_sheets_of_its_layout():
    demo = kerfline.demo()
    assert demo.command == "demo"
    assert demo.plan is not None
    names = set(demo.files())
    assert {"community-workshop-joint-plan.pdf", "community-workshop-day-sheet.pdf"} <= names
