"""Puts what a command made into its folder, in place of what an earlier run of the same job left there."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import run_mark
from kerfline.units import listed

if TYPE_CHECKING:
    from kerfline.files.set_record import Run, Written

MOST_NAMED = 4
"""Files that a note names one by one."""


def usual_folder(outcome: Outcome) -> Path:
    """The folder that a job's files go to where the user names none."""
    return Path("out") / file_stem(outcome.job.name)


def write_files(
    outcome: Outcome,
    directory: Path,
    command: str,
    contents: Mapping[str, bytes],
    run: "Run | None" = None,
) -> "Written":
    """Writes the files of one run, all of them or none.

    Args:
        outcome: The layout that they show.
        directory: Where to; made where it is missing.
        command: The command that made them; what it wrote there before goes.
        contents: Bytes by file name.
        run: What it was made from, where a later run may ask whether that has changed.

    Raises:
        OutputRefused: A file cannot be written; every file is as it was.
    """
    from kerfline.files.set_record import write_set

    job = outcome.job
    mark = run_mark(job, outcome.layout)
    return write_set(directory, file_stem(job.name), command, mark, contents, run)


def written_notes(written: "Written") -> Iterator[str]:
    """What the user should know of the files that lay there before, a sentence each."""
    if written.removed:
        yield f"taken away, as this run no longer makes them: {listed(written.removed, MOST_NAMED)}"
    if written.edited:
        yield (
            f"left as they are, for somebody changed them since they were written: {listed(written.edited, MOST_NAMED)}; "
            "they belong to an earlier run"
        )
    if written.older:
        yield (
            f"of an earlier run, with another run mark: {listed(written.older, MOST_NAMED)}; draw them anew or "
            "take them away"
        )
