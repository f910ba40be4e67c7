"""The manual is true: every command, option, key and public name in it is one that there is."""

import re
import typing
from pathlib import Path

import pytest
from click.testing import CliRunner
from pydantic import BaseModel

import kerfline
from kerfline.cli.commands import guide
from kerfline.cli.commands.guide import TOPICS, WIDTH
from kerfline.cli.program import kerfline as command
from kerfline.files.day_schema import DayFile
from kerfline.files.job_schema import JobFile

FOLDER = Path(guide.__file__).parents[1] / "guide"
ALL = {topic: (FOLDER / f"{topic}.md").read_text(encoding="utf-8") for topic in TOPICS}
VERBS = ("lists", "did")
"""Words after the program's name that are no commands."""


def tables():
    """The tables of a job file with their keys, as the schema has them."""
    for name, field in JobFile.model_fields.items():
        parts = [field.annotation, *typing.get_args(field.annotation)]
        models = [p for p in parts if isinstance(p, type) and issubclass(p, BaseModel)]
        if models:
            yield name, set(models[0].model_fields)


def test_every_table_and_every_key_of_a_job_file_is_told():
    told = set(re.findall(r"`[\[]*(\w+)[\]]*`", ALL["jobs"]))
    known = dict(tables())
    assert len(known) > 12
    for name, keys in known.items():
        assert name in told
        assert keys - told <= UNTOLD, name


UNTOLD = {"strip_slope", "reason", "note", "point"}
"""Keys that the program writes itself, or that another row tells."""


def day_tables(model=None, name="day"):
    """The tables of a placement day with their keys, as the schema has them."""
    model = model or DayFile.model_fields["day"].annotation
    inner = {
        key: part
        for key, field in model.model_fields.items()
        for part in [field.annotation, *typing.get_args(field.annotation)]
        if isinstance(part, type) and issubclass(part, BaseModel)
    }
    yield name, set(model.model_fields) - (set(inner) if name == "day" else set())
    for key, part in inner.items():
        yield from day_tables(part, f"{name}.{key}")


def test_every_key_of_a_placement_day_is_told_at_its_table_and_no_other():
    rows = re.findall(
        r"^`\[([\w.]+)\]`\n    keys: ((?:.|\n    )*?)(?=\n    [a-z])", ALL["day"], re.MULTILINE
    )
    told = {name: set(re.findall(r"`(\w+)`", keys)) for name, keys in rows}
    assert told == dict(day_tables())


def test_no_key_is_told_that_there_is_not():
    keys = set().union(
        *(keys for _, keys in tables()), DayFile.model_fields["day"].annotation.model_fields
    )
    names = {name for name, _ in tables()} | {"day"}
    inner = {
        "name",
        "plan",
        "easting",
        "northing",
        "height",
        "outline",
    }  # of areas and control points
    for row in re.findall(r"^    keys: (.*)$", ALL["jobs"], re.MULTILINE):
        told = set(re.findall(r"`(\w+)`", re.sub(r"\(.*?\)", "", row)))
        assert told <= keys | inner, told - keys
    for topic in ("rules", "sheets"):
        told = set(re.findall(r"`\[*(\w+)\]*`", ALL[topic]))
        assert told <= keys | names, topic


@pytest.mark.parametrize("topic", TOPICS)
def test_every_command_and_option_is_one_that_there_is(topic):
    text = ALL[topic]
    for name in re.findall(r"\bkerfline ([a-z]+)\b", text):
        if name not in VERBS:
            assert name in command.commands, name
    options = {o for c in command.commands.values() for p in c.params for o in p.opts}
    assert set(re.findall(r"--[a-z][a-z-]+", text)) <= options
    for name in re.findall(r"\bkerfline\.(\w+)", text):
        assert name in kerfline.__all__ or name == "__all__"


def test_the_command_prints_a_topic_and_lists_all():
    listed = CliRunner().invoke(command, ["guide"])
    assert listed.exit_code == 0
    assert [line.split(":")[0] for line in listed.output.splitlines()[: len(TOPICS)]] == list(
        TOPICS
    )
    for topic in TOPICS:
        printed = CliRunner().invoke(command, ["guide", topic])
        assert printed.output.startswith(f"# {topic}: ")
        assert max(map(len, printed.output.splitlines())) <= WIDTH + 16
    assert CliRunner().invoke(command, ["guide", "weather"]).exit_code == 2


def test_the_example_of_the_library_runs():
    code = "\n".join(line[4:] for line in ALL["library"].splitlines() if line.startswith("    "))
    said: dict[str, object] = {}
    exec(code.replace('result.write("out/boathouse")', ""), said)
    assert said["result"].clean
