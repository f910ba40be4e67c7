"""Opens what the user named: a job file, a drawing and a few words about it, or a written size."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.wishes import Wishes, thickness_of
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.slab import Slab

if TYPE_CHECKING:
    from kerfline.files.drawing import Reading

TOLD = "a job file says it itself"
MODELLED = "a building model says itself what each thing is"
BARE = "a written size has no layers and no joints"


def open_job(
    path: Path,
    wishes: Wishes | None = None,
    heard: "Callable[[Reading], None]" = lambda _: None,
) -> Job:
    """Reads a job from a job file, a drawing, a building model, or a size that stands where a file's name could.

    Args:
        path: The file, or the size.
        wishes: What the user says beside it.
        heard: Given the reading, where it is a drawing.

    Raises:
        InputRefused: The file cannot be used; every mistake in it is listed.
    """
    wishes = wishes or Wishes()
    return as_wished(_opened(path, wishes, heard), wishes)


def as_wished(job: Job, wishes: Wishes) -> Job:
    """A job with the rule set, the span to work to and the effort that the user said beside it."""
    rules = replace(
        job.rules,
        name=wishes.rules or job.rules.name,
        to_maximum=wishes.to_maximum or job.rules.to_maximum,
    )
    return replace(job, rules=rules, effort=wishes.effort or job.effort)


def _opened(path: Path, wishes: Wishes, heard: "Callable[[Reading], None]") -> Job:
    from kerfline.files.kinds import Kind, cannot_start, kind_of

    if size := size_named(path):
        return _from_size(size, wishes)
    kind = kind_of(path)
    if kind is Kind.JOB:
        return _from_file(path, wishes)
    if kind in (Kind.DXF, Kind.DWG):
        return _from_drawing(path, wishes, heard)
    if kind is Kind.PDF:
        return _from_pdf(path, wishes, heard)
    if kind is Kind.IFC:
        return _from_building(path, wishes)
    raise InputRefused(cannot_start(kind, path))


def size_named(path: Path) -> str:
    """The size that was written where a file could be named; empty where it is a file's name."""
    from kerfline.files.written_size import is_size

    return str(path) if is_size(str(path)) and not _is_there(path) else ""


def _is_there(path: Path) -> bool:
    """Whether there is a file of this name; the way round a slab of many corners is longer than a name may be."""
    try:
        return path.exists()
    except OSError:
        return False


def _from_size(text: str, wishes: Wishes) -> Job:
    """The job of a bare slab of that size."""
    from kerfline.files.slab_sense import check_slab
    from kerfline.files.written_size import WHERE, read_size

    _refuse(_meant_for_drawings(replace(wishes, units=None), BARE))
    size = read_size(text, wishes.units)
    slab = Slab(outline=size.outline, thickness=thickness_of(wishes, size.units))
    _refuse(check_slab(slab, WHERE, size.units.display))
    return Job(name=size.name, units=size.units, slab=slab)


def _from_building(path: Path, wishes: Wishes) -> Job:
    """The job that a building model gives."""
    from kerfline.files.building.floors import FloorChoice
    from kerfline.files.building.read_apart import read_building_apart
    from kerfline.files.slab_parts import slab_of
    from kerfline.files.slab_sense import check_slab

    _refuse(_meant_for_drawings(wishes, MODELLED))
    read = read_building_apart(path, FloorChoice(storey=wishes.storey, slab=wishes.slab))
    told = wishes.thickness is not None or read.thickness is None
    thickness = thickness_of(wishes, read.unit) if told else read.thickness
    slab = slab_of(read.parts, read.parts.outline or Ring(()), thickness or 0.0)
    _refuse(check_slab(slab, path.name, read.unit.display))
    return Job(
        name=path.stem,
        units=read.unit,
        slab=slab,
        sheet=SheetChoice(north=read.north),
        site=read.site,
        notes=read.parts.notes,
        reading=read.reading,
    )


def _refuse(mistakes: Sequence[Mistake]) -> None:
    """Raises what is wrong, where anything is."""
    if mistakes:
        raise InputRefused(*mistakes)


def _from_file(path: Path, wishes: Wishes) -> Job:
    from kerfline.files.job_file import read_job

    _refuse(_meant_for_drawings(wishes))
    job = read_job(path)
    if wishes.thickness is None:
        return job
    return replace(job, slab=replace(job.slab, thickness=thickness_of(wishes, job.units)))


def _meant_for_drawings(wishes: Wishes, what: str = TOLD) -> list[Mistake]:
    """What was said beside a job file or a size that has a meaning beside a drawing only."""
    drawn = [f"--{kind.replace('_', '-')}" for kind, _ in wishes.layers]
    said = dict.fromkeys(drawn, "the layers under [drawing]")
    pages = _meant_for_pages(wishes)
    if wishes.units is not None or wishes.drawn_in:
        said["--units"] = "units under [job], or under [drawing] for those of the drawing"
    if wishes.repair is not None:
        said["--repair"] = 'how far joints are repaired under [drawing], as repair = "2 in"'
    if wishes.slab_at:
        said["--slab-at"] = "the outline itself"
    return pages + [
        Mistake(
            what=f"this is said beside a drawing; {what}",
            where=option,
            remedy=f"write {where}" if what == TOLD else "leave it out",
        )
        for option, where in said.items()
    ]


def _from_drawing(path: Path, wishes: Wishes, heard: "Callable[[Reading], None]") -> Job:
    """The job that a drawing proposes, with the layers that the user named in place of the proposed."""
    from kerfline.app.drawn_job import job_of_drawing, look_at_drawing, taken_by
    from kerfline.files.drawing import gather

    _refuse(_meant_for_pages(wishes))
    read = taken_by(look_at_drawing(gather(path), wishes), wishes)
    heard(read)
    return job_of_drawing(read, wishes)


def _from_pdf(path: Path, wishes: Wishes, heard: "Callable[[Reading], None]") -> Job:
    """The job that a page of a PDF proposes, by the same reading as a drawing's."""
    from kerfline.app.drawn_job import job_of_drawing, look_at_drawing
    from kerfline.app.page_job import page_of, taken_from_page

    drawing, on_paper = page_of(path, wishes)
    read = taken_from_page(look_at_drawing(drawing, on_paper), on_paper)
    heard(read)
    return job_of_drawing(read, on_paper)


def _meant_for_pages(wishes: Wishes) -> list[Mistake]:
    """What was said beside another file that has a meaning beside a PDF only."""
    said = [name for name, value in (("--page", wishes.page), ("--scale", wishes.scale)) if value]
    return [
        Mistake(what="this is said beside a PDF", where=option, remedy="leave it out")
        for option in said
    ]
