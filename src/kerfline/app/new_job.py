"""Says what a drawing or a written size holds and writes a job file from it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.drawing_words import gathered, unsaid
from kerfline.app.file_names import file_stem
from kerfline.app.open_job import open_job, size_named
from kerfline.app.rounded import rounded
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job

if TYPE_CHECKING:
    from kerfline.files.drawing import Reading


def new_job(
    source: Path,
    wishes: Wishes,
    target: Path | None = None,
    *,
    force: bool = False,
    tell: Callable[[str], None] = lambda _: None,
) -> Path:
    """Reads a drawing or a size and writes the job file that it proposes.

    Args:
        source: The DXF file, or a size such as ``40 ft x 28 ft``.
        wishes: What the user said beside it.
        target: The job file; beside the drawing, or here for a size, where it is None.
        force: Whether a job file that is there already may be replaced.
        tell: Told what the drawing holds, in words, also where it gives no job.

    Returns:
        The file that was written.

    Raises:
        InputRefused: The drawing cannot be used, or the job file is there already.
        OutputRefused: The job file cannot be written.
    """
    from kerfline.files.atomic import write_all
    from kerfline.files.job_file import job_text

    path = target or _usual(source, wishes)
    if path.exists() and not force:
        raise InputRefused(
            Mistake(
                what="there is a job file already",
                where=str(path),
                remedy="give another name with --job, or --force to write over it",
            )
        )
    job, keys = _job(source, wishes, path.parent, tell)
    write_all(path.parent, {path.name: job_text(job, keys).encode()})
    return path


def _usual(source: Path, wishes: Wishes) -> Path:
    """Where the job file goes: beside a drawing; here, under the size's own name, for a size."""
    from kerfline.files.written_size import read_size

    if size := size_named(source):
        return Path(f"{file_stem(read_size(size, wishes.units).name)}.toml")
    return source.with_suffix(".toml")


def _job(
    source: Path, wishes: Wishes, folder: Path, tell: Callable[[str], None]
) -> tuple[Job, dict[str, object] | None]:
    """The job and the keys of its ``[drawing]``, None where it names none; what it was read from is told."""
    from kerfline.files.kinds import Kind, kind_of

    if size_named(source):
        tell("A bare slab of that size: no walls, openings or columns. Add them to the job file.")
        return open_job(source, wishes), None
    kind = kind_of(source)
    if kind is Kind.JOB:
        raise InputRefused(
            Mistake(
                what="this is a job file already",
                where=str(source),
                remedy=f"edit it, then run: kerfline layout {source}",
            )
        )
    if kind in (Kind.DXF, Kind.DWG, Kind.PDF):
        return _from_drawing(source, wishes, folder, tell)
    job = open_job(source, wishes)
    tell("\n".join((*job.reading, *job.notes)))
    return job, None


def _from_drawing(
    source: Path, wishes: Wishes, folder: Path, tell: Callable[[str], None]
) -> tuple[Job, dict[str, object] | None]:
    """The job of a drawing; what the drawing holds is told also where it gives none."""
    from kerfline.app.drawn_job import job_of_drawing, look_at_drawing, taken_by
    from kerfline.app.page_job import page_of, taken_from_page
    from kerfline.files.drawing import gather, report
    from kerfline.files.kinds import Kind, kind_of

    said, paper = wishes, kind_of(source) is Kind.PDF
    drawing, wishes = page_of(source, wishes) if paper else (gather(source), wishes)
    look = look_at_drawing(drawing, wishes)
    try:
        read = (taken_from_page if paper else taken_by)(look, wishes)
    except InputRefused as refused:
        tell(report(look, refused))
        raise
    tell(report(look, read.parts))
    job = job_of_drawing(read, wishes)
    job = replace(job, notes=(*job.reading, *unsaid(job.reading, gathered(job.notes))))
    keys = _keys(read, source, folder, said)
    return (job, keys) if keys else (replace(job, slab=rounded(job.slab, job.units)), None)


def _keys(read: "Reading", source: Path, folder: Path, wishes: Wishes) -> dict[str, object] | None:
    """The keys of ``[drawing]`` that read the drawing so again; None where no keys can."""
    from kerfline.app.drawn_job import reach_of
    from kerfline.files.drawing_keys import Said, drawing_keys

    if wishes.drawn_in:
        return None
    said = Said(
        units=wishes.units,
        page=wishes.page,
        scale=wishes.scale,
        repair=wishes.repair or "",
        reach=reach_of(wishes, wishes.units or read.drawing.unit),
    )
    return drawing_keys(read, source, folder, said)
