"""Says what a drawing holds and writes a job file from it."""

from collections.abc import Callable
from pathlib import Path

from kerfline.app.open_job import Wishes, open_job
from kerfline.errors import InputRefused, Mistake


def new_job(
    drawing: Path,
    wishes: Wishes,
    target: Path | None = None,
    *,
    force: bool = False,
    tell: Callable[[str], None] = lambda _: None,
) -> Path:
    """Reads a drawing and writes the job file that it proposes.

    Args:
        drawing: The DXF file.
        wishes: What the user said beside it.
        target: The job file; beside the drawing where it is None.
        force: Whether a job file that is there already may be replaced.
        tell: Told what the drawing holds, in words, also where it gives no job.

    Returns:
        The file that was written.

    Raises:
        InputRefused: The drawing cannot be used, or the job file is there already.
        OutputRefused: The job file cannot be written.
    """
    from kerfline.files.atomic import write_all
    from kerfline.files.drawing import read_drawing, report
    from kerfline.files.job_file import job_text

    path = target or drawing.with_suffix(".toml")
    if path.exists() and not force:
        raise InputRefused(
            Mistake(
                what="there is a job file already",
                where=str(path),
                remedy="give another name with --job, or --force to write over it",
            )
        )
    read = read_drawing(drawing, wishes.units)
    tell(report(read, read.unit.display))
    job = open_job(drawing, wishes)
    write_all(path.parent, {path.name: job_text(job).encode()})
    return path
