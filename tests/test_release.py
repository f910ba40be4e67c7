"""A release is told alike wherever it is told."""

import re
import tomllib
from datetime import date
from pathlib import Path

ROOT = Path(__file__).parents[1]


def entries() -> list[str]:
    """The headings of the change list, newest first."""
    changes = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("\n## Changes\n")[1]
    return re.findall(r"^### (.+)$", changes, re.MULTILINE)


def number(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split("."))


def test_the_newest_entry_is_of_the_version_that_is_built():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert entries()[0].split()[0] == project["version"]


def test_entries_go_back_in_time_and_versions_down():
    heads = [entry.partition(" ") for entry in entries()]
    versions = [number(version) for version, _, _ in heads]
    dates = [date.fromisoformat(told.strip("()")) for _, _, told in heads if told]
    assert versions == sorted(set(versions), reverse=True)
    assert dates == sorted(dates, reverse=True)
