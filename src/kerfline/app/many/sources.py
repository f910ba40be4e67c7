"""Which slabs are meant by files, folders and patterns."""

import glob
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from kerfline.app.file_names import file_stem
from kerfline.errors import InputRefused, Mistake

JOB = ".toml"
STARTS = (JOB, ".dxf", ".dwg", ".ifc")
"""Endings of what a folder is searched for."""

SIGNS = "*?["
"""Letters that make a pattern of a name."""

MOST = 10_000
"""More slabs than a firm has: a pattern that finds more is a slip of the pen."""


@dataclass(frozen=True, kw_only=True)
class Source:
    """One slab of many.

    Attributes:
        path: Its job file or drawing.
        stem: Its name as it stands in file names.
    """

    path: Path
    stem: str


def are_many(named: Sequence[Path]) -> bool:
    """Whether more than one file is meant: several names, a folder, or a pattern."""
    return len(named) > 1 or any(path.is_dir() or _is_pattern(path) for path in named)


def sources(named: Sequence[Path]) -> tuple[Source, ...]:
    """The slabs meant, each once, in the order named; those of a folder or pattern by name.

    Of a folder, a drawing that a job file beside it stands for is left out, and so is a TOML file that
    describes no slab.

    Raises:
        InputRefused: A folder or pattern holds none, or there are too many.
    """
    found: dict[Path, Path] = {}
    for path in named:
        for each in _meant(path):
            found.setdefault(each.resolve(), each)
    if len(found) > MOST:
        raise InputRefused(
            Mistake(
                what="there are too many slabs",
                found=f"{len(found):,}",
                allowed=f"{MOST:,} at once",
                remedy="name fewer folders or a narrower pattern",
            )
        )
    return tuple(Source(path=path, stem=file_stem(_name(path))) for path in found.values())


def _meant(path: Path) -> list[Path]:
    if path.is_dir():
        held = _in_folder(path)
    elif _is_pattern(path):
        held = [Path(p) for p in sorted(glob.glob(str(path), recursive=True))]  # noqa: PTH207 - absolute too
        held = [p for p in held if p.is_file()]
    else:
        return [path]
    if not held:
        raise InputRefused(
            Mistake(
                what="there is no job file and no drawing in it",
                where=str(path),
                remedy='name a folder that holds some, or a pattern such as "plans/*.toml"',
            )
        )
    return held


def _is_pattern(path: Path) -> bool:
    return not path.exists() and any(sign in str(path) for sign in SIGNS)


def _in_folder(folder: Path) -> list[Path]:
    files = sorted(p for p in folder.iterdir() if p.suffix.lower() in STARTS and p.is_file())
    jobs = {p: _tables(p) for p in files if p.suffix.lower() == JOB}
    jobs = {p: tables for p, tables in jobs.items() if tables is None or "job" in tables}
    drawn = {p.with_suffix("") for p in jobs} | {p.with_suffix("") for p in _drawings(jobs)}
    shown = [p for p in files if not p.name.startswith(".")]
    return [
        p
        for p in shown
        if p in jobs or (p.suffix.lower() != JOB and p.with_suffix("") not in drawn)
    ]


def _drawings(jobs: dict[Path, dict[str, object] | None]) -> list[Path]:
    """The drawings that job files name."""
    tables = ((path, (tables or {}).get("drawing")) for path, tables in jobs.items())
    return [
        path.parent / str(t["file"]) for path, t in tables if isinstance(t, dict) and "file" in t
    ]


def _name(path: Path) -> str:
    """A slab's name: what its job file says, else that of the file."""
    tables = (_tables(path) or {}) if path.suffix.lower() == JOB else {}
    job = tables.get("job")
    name = job.get("name") if isinstance(job, dict) else None
    return name if isinstance(name, str) and name.strip() else path.stem


def _tables(path: Path) -> dict[str, object] | None:
    """What a TOML file holds; None where it cannot be read, which whoever opens it tells in full."""
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, ValueError, RecursionError):
        return None
