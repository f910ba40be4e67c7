"""Writes a changed job back to its file, or a new file for a job that came from a drawing."""

from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import Any

from kerfline.errors import InputRefused, Mistake, OutputRefused
from kerfline.geometry.tolerance import SAME
from kerfline.model.job import Job
from kerfline.model.slab import Slab
from kerfline.model.tracing import Tracing


def save_job(path: Path, job: Job, like: Path | None = None) -> None:
    """Writes a job into its file and makes sure that the file says what the job says.

    Comments and order of a file that is there already stay.

    Args:
        path: The job file; made where it is not there.
        job: What it shall say.
        like: A file of the same job under another name, whose comments and order a new file takes over.

    Raises:
        OutputRefused: It cannot be written, or would not read back to the same slab and joints; the
            file is as it was.
    """
    from kerfline.files.atomic import write_all

    for text in _texts(like or path, job):
        if _reads_back(text, path.parent, job):
            write_all(path.parent, {path.name: text.encode()})
            return
    raise OutputRefused(
        Mistake(
            what="the job file would not say what is on the page",
            where=path.name,
            remedy="nothing was written; export the sheets, and save under another name",
        )
    )


def _texts(path: Path, job: Job) -> Iterable[str]:
    """What could be written, the gentlest change first."""
    from kerfline.files.job_file import read_job
    from kerfline.files.job_revise import revise, without_drawing
    from kerfline.files.job_text import job_text

    if path.exists():
        text = path.read_text(encoding="utf-8-sig")
        before = read_job(path)
        yield revise(text, before, job)
        yield without_drawing(text, before, job)
    else:
        yield job_text(job)


def _reads_back(text: str, folder: Path, job: Job) -> bool:
    """Whether a text, read as a job file in that folder, gives the same slab, joints and rules."""
    from kerfline.files.job_file import read_job
    from kerfline.files.scratch import scratch_file

    with scratch_file(folder, text.encode(), ".toml") as probe:
        try:
            read = read_job(probe)
        except InputRefused:
            return False
    said = (read.name, read.units, read.rules) == (job.name, job.units, job.rules)
    return said and same_slab(read.slab, job.slab) and _same_tracing(read.tracing, job.tracing)


def _same_tracing(first: Tracing | None, second: Tracing | None) -> bool:
    if first is None or second is None:
        return first is second
    return _same(asdict(first), asdict(second))


def same_slab(first: Slab, second: Slab) -> bool:
    """Whether two slabs are the same to a hundredth of a mm, whatever the order of their parts."""
    return _same(_by_name(asdict(first)), _by_name(asdict(second)))


def _by_name(slab: dict[str, Any]) -> dict[str, Any]:
    """The parts that have a name, sorted by it."""
    named = (
        "walls",
        "columns",
        "penetrations",
        "zones",
        "keep_outs",
        "joints",
        "patterns",
        "falls",
    )
    return slab | {key: sorted(slab[key], key=lambda part: str(part["id"])) for key in named}


def _same(first: object, second: object) -> bool:
    if isinstance(first, float | int) and isinstance(second, float | int):
        return abs(first - second) <= SAME
    if isinstance(first, dict) and isinstance(second, dict):
        return first.keys() == second.keys() and all(_same(first[k], second[k]) for k in first)
    if isinstance(first, list | tuple) and isinstance(second, list | tuple):
        return len(first) == len(second) and all(map(_same, first, second))
    return first == second
