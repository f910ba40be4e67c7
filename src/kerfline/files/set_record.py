"""The list of what kerfline wrote into a folder for a job, so that a run replaces its whole set.

It lies beside the sheets as ``.NAME-files.json``, schema ``kerfline-files/1``: for each file the command
that wrote it, the run mark that it carries, and its digest. Files that are not listed, or that were
changed since, are somebody else's: they are never taken away.
"""

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from kerfline.files.atomic import Folder, opened

SCHEMA = "kerfline-files/1"

KIND = re.compile(r"(?P<kind>.+?)(-placement-\w+|-area-\w+)?(-\d+)?\.[a-z]+")
"""A file's name: what it shows, then the placement or area, then the page."""


@dataclass(frozen=True, kw_only=True)
class Listed:
    """A file in the list.

    Attributes:
        command: The command that wrote it.
        mark: The run mark that it carries.
        sha256: Digest of its bytes.
    """

    command: str
    mark: str
    sha256: str


@dataclass(frozen=True, kw_only=True)
class Written:
    """What became of a set.

    Attributes:
        files: The files that were written, in the order given.
        removed: Names of the files of an earlier run that were taken away.
        edited: Names of files that an earlier run wrote and somebody changed since; they were left.
        older: Names of files of other commands that carry another mark, so belong to another layout.
    """

    files: tuple[Path, ...]
    removed: tuple[str, ...] = ()
    edited: tuple[str, ...] = ()
    older: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Run:
    """What a command was given and what it said in short, kept so that it need not be done again.

    Attributes:
        source: Digest of all that it was given.
        line: What it said, as plain data.
    """

    source: str
    line: Mapping[str, Any]


def write_set(
    directory: Path,
    stem: str,
    command: str,
    mark: str,
    contents: Mapping[str, bytes],
    run: Run | None = None,
) -> Written:
    """Writes the files of a run in place of those of the run before.

    What the same command wrote before, or another one of the same kind, is taken away where this run
    does not write it.

    Args:
        directory: Where to; made where it is missing.
        stem: The job's name as it stands in file names.
        command: The command that writes.
        mark: The run mark that the files carry.
        contents: Bytes by file name.
        run: What it was made from; None where nobody will ask whether that has changed.

    Raises:
        OutputRefused: A file cannot be written; every file is as it was.
    """
    with opened(directory) as folder:
        listed = read_list(directory, stem)
        old = {
            name for name in _replaced(listed, command, contents) if (directory / name).is_file()
        }
        goes = sorted(name for name in old if _unchanged(directory / name, listed[name]))
        kept = {n: entry for n, entry in listed.items() if n not in old and n not in contents}
        new = {name: _entry(command, mark, data) for name, data in contents.items()}
        runs = {n: r for n, r in _runs(directory, stem).items() if n != command}
        runs |= {command: asdict(run)} if run else {}
        files = _write(folder, stem, contents, goes, _List({**kept, **new}, runs))
    return Written(
        files=files,
        removed=tuple(goes),
        edited=tuple(sorted(old - set(goes))),
        older=tuple(
            sorted(n for n, entry in kept.items() if _is_older(directory / n, entry, mark))
        ),
    )


@dataclass(frozen=True)
class _List:
    """What the list says: the files, and the run of each command."""

    entries: Mapping[str, Listed]
    runs: Mapping[str, Any]


def _write(
    folder: Folder, stem: str, contents: Mapping[str, bytes], goes: Iterable[str], listed: _List
) -> tuple[Path, ...]:
    """Writes the files and the list of them as one."""
    there = {
        name: entry
        for name, entry in sorted(listed.entries.items())
        if name in contents or (folder.directory / name).is_file()
    }
    text = _list_bytes(_List(there, listed.runs))
    *files, _ = folder.write({**contents, list_name(stem): text}, tuple(goes))
    return tuple(files)


def run_before(directory: Path, stem: str, command: str) -> Run | None:
    """The last run of a command, where all its files are still there as it wrote them; else None."""
    try:
        run = Run(**_runs(directory, stem)[command])
    except (KeyError, TypeError):
        return None
    own = {n: e for n, e in read_list(directory, stem).items() if e.command == command}
    whole = all((directory / n).is_file() and _unchanged(directory / n, e) for n, e in own.items())
    return run if own and whole else None


def list_name(stem: str) -> str:
    """Name of the file that holds the list."""
    return f".{stem}-files.json"


def read_list(directory: Path, stem: str) -> dict[str, Listed]:
    """What was written before, by file name; nothing where there is no list that can be read."""
    try:
        files = _read(directory, stem).get("files", {})
        found = {str(name): Listed(**entry) for name, entry in files.items()}
    except (TypeError, AttributeError):
        return {}
    # A name that leads out of the folder was not written by us.
    return {name: entry for name, entry in found.items() if Path(name).name == name}


def _read(directory: Path, stem: str) -> dict[str, Any]:
    """The list's file as plain data; empty where it cannot be read."""
    try:
        data = json.loads((directory / list_name(stem)).read_bytes())
    except (OSError, ValueError, RecursionError):
        return {}
    return data if isinstance(data, dict) and data.get("schema") == SCHEMA else {}


def _runs(directory: Path, stem: str) -> dict[str, Any]:
    runs = _read(directory, stem).get("runs")
    return runs if isinstance(runs, dict) else {}


def _list_bytes(listed: _List) -> bytes:
    data = {
        "schema": SCHEMA,
        "about": "What kerfline wrote here, so that the next run takes away what it no longer makes.",
        "files": {name: asdict(entry) for name, entry in listed.entries.items()},
        "runs": listed.runs,
    }
    return (json.dumps(data, indent=1, ensure_ascii=False) + "\n").encode()


def _replaced(
    listed: Mapping[str, Listed], command: str, contents: Mapping[str, bytes]
) -> Iterable[str]:
    """Names of what the new set stands for and no longer holds."""
    kinds = {_kind(name) for name in contents}
    for name, entry in listed.items():
        if name not in contents and (entry.command == command or _kind(name) in kinds):
            yield name


def _kind(name: str) -> str:
    found = KIND.fullmatch(name)
    return found["kind"] if found else name


def _entry(command: str, mark: str, data: bytes) -> Listed:
    return Listed(command=command, mark=mark, sha256=hashlib.sha256(data).hexdigest())


def _unchanged(path: Path, entry: Listed) -> bool:
    return hashlib.sha256(path.read_bytes()).hexdigest() == entry.sha256


def _is_older(path: Path, entry: Listed, mark: str) -> bool:
    return entry.mark != mark and path.is_file()
