"""Opens what a program or the command line names: a file, a size, or a slab."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.library.options import Options, wishes_of
from kerfline.library.slab import Slab, job_of

if TYPE_CHECKING:
    from kerfline.files.drawing import Reading
    from kerfline.model.job import Job

Source = str | Path | Slab
"""A job file, a drawing, a size as text (``"40 ft x 28 ft"``), or a slab."""


@dataclass(frozen=True, kw_only=True)
class Opened:
    """A job and where it comes from.

    Attributes:
        job: The slab and the choices.
        path: The file; None of a slab that a program gave.
        readings: How the drawing was read, where it is one.
    """

    job: "Job"
    path: Path | None = None
    readings: "tuple[Reading, ...]" = ()


def opened(source: Source, options: Options, *, asks: bool = False) -> Opened:
    """Reads a source.

    Args:
        source: What was named.
        options: What was said beside it.
        asks: Whether a question about joint layers stops the reading.

    Raises:
        InputRefused: It cannot be used; every mistake is listed.
    """
    from kerfline.app.open_job import open_job

    if isinstance(source, Slab):
        return Opened(job=_reviewed(_given(source, options), options))
    path, readings = Path(source), list["Reading"]()
    job = open_job(path, wishes_of(options, asks=asks), readings.append)
    return Opened(job=_reviewed(job, options), path=path, readings=tuple(readings))


def slabs_of(source: str | Path, options: Options) -> tuple[Options, ...]:
    """What to say for each slab that is meant, which is more than one where ``options.slab`` is ``all``.

    Raises:
        InputRefused: The drawing cannot be used.
    """
    from kerfline.app.drawn_job import slabs_meant

    meant = slabs_meant(Path(source), wishes_of(options))
    return tuple(replace(options, slab=slab) for slab in meant)


@contextmanager
def pictured(folder: Path | None) -> Iterator[None]:
    """Draws a picture where a drawing leaves open which outline is the slab's, and says where it is.

    Args:
        folder: Where to; ``out/NAME`` where it is None.

    Raises:
        InputRefused: The question, with the names of the picture's files.
    """
    from kerfline.app.reading_picture import pictured as drawn

    with drawn(folder):
        yield


def named(source: Source) -> str:
    """What a source is called in a message."""
    return source.name if isinstance(source, Slab) else str(source)


def _given(slab: Slab, options: Options) -> "Job":
    from kerfline.app.open_job import as_wished

    return as_wished(job_of(slab, options.thickness), wishes_of(options))


def _reviewed(job: "Job", options: Options) -> "Job":
    return job.for_review() if options.review else job
