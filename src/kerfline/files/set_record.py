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


def write_set(
    directory: Path, stem: str, command: str, mark: str, contents: Mapping[str, bytes]
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
        files = _write(folder, stem, contents, goes, {**kept, **new})
    return Written(
        files=files,
        removed=tuple(goes),
        edited=tuple(sorted(old - set(goes))),
        older=tuple(
            sorted(n for n, entry in kept.items() if _is_older(directory / n, entry, mark))
        ),
    )


def _write(
    folder: Folder,
    stem: str,
    contents: Mapping[str, bytes],
    goes: Iterable[str],
    entries: Mapping[str, Listed],
) -> tuple[Path, ...]:
    """Writes the files and the list of them as one."""
    there = {
        name: entry
        for name, entry in sorted(entries.items())
        if name in contents or (folder.directory / name).is_file()
    }
    *files, _ = folder.write({**contents, list_name(stem): _list_bytes(there)}, tuple(goes))
    return tuple(files)


def list_name(stem: str) -> str:
    """Name of the file that holds the list."""
    return f".{stem}-files.json"


def read_list(directory: Path, stem: str) -> dict[str, Listed]:
    """What was written before, by file name; nothing where there is no list that can be read."""
    try:
        data = json.loads((directory / list_name(stem)).read_bytes())
        if data["schema"] != SCHEMA:
            return {}
        found = {str(name): Listed(**entry) for name, entry in data["files"].items()}
    except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return {}
    # A name that leads out of the folder was not written by us.
    return {name: entry for name, entry in found.items() if Path(name).name == name}


def _list_bytes(entries: Mapping[str, Listed]) -> bytes:
    data = {
        "schema": SCHEMA,
        "about": "What kerfline wrote here, so that the next run takes away what it no longer makes.",
        "files": {name: asdict(entry) for name, entry in entries.items()},
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
