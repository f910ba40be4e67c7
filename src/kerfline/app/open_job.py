"""Opens what the user named: a job file, a drawing and a few words about it, or a written size."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, RuleChoice, SheetChoice
from kerfline.model.slab import Slab
from kerfline.units import Unit, parse_length

DRAWING = ".dxf"

TOLD = "a job file says it itself"
MODELLED = "a building model says itself what each thing is"
BARE = "a written size has no layers and no joints"

LONGEST_REPAIR = 304.8
"""A joint that ends farther than this (mm, 1 ft) from what it should meet is a finding, no slip of the pen."""


@dataclass(frozen=True, kw_only=True)
class Wishes:
    """What the command line or the page may say beside the file; None leaves it to the file.

    Attributes:
        thickness: Text such as ``4 in``.
        units: Unit of the drawing, and of bare numbers.
        rules: Name of a rule set.
        to_maximum: Work to the greatest span instead of the advised one.
        effort: Seconds that the engine may search.
        layers: Layer patterns by what they hold (``outline``, ``walls``, ...), for drawings.
        repair: How far a joint that stops short or runs over is mended, as text, for drawings.
        storey: Storey that holds the slab, for building models.
        slab: Number of the slab that is meant where there are several, or ``all``.
        asks: Whether a question that only the user can answer stops the reading.
    """

    thickness: str | None = None
    units: Unit | None = None
    rules: str | None = None
    to_maximum: bool = False
    effort: float | None = None
    layers: tuple[tuple[str, tuple[str, ...]], ...] = ()
    repair: str | None = None
    storey: str = ""
    slab: str = ""
    asks: bool = False


def open_job(path: Path, wishes: Wishes | None = None) -> Job:
    """Reads a job from a TOML file, a DXF drawing, or a size that stands where a file's name could.

    Raises:
        InputRefused: The file cannot be used; every mistake in it is listed.
    """
    wishes = wishes or Wishes()
    job = _opened(path, wishes)
    rules = replace(
        job.rules,
        name=wishes.rules or job.rules.name,
        to_maximum=wishes.to_maximum or job.rules.to_maximum,
    )
    return replace(job, rules=rules, effort=wishes.effort or job.effort)


def _opened(path: Path, wishes: Wishes) -> Job:
    from kerfline.files.kinds import Kind, cannot_start, kind_of

    if size := size_named(path):
        return _from_size(size, wishes)
    kind = kind_of(path)
    if kind is Kind.JOB:
        return _from_file(path, wishes)
    if kind is Kind.DXF:
        return _from_drawing(path, wishes)
    if kind is Kind.IFC:
        return _from_building(path, wishes)
    raise InputRefused(cannot_start(kind, path))


def size_named(path: Path) -> str:
    """The size that was written where a file could be named; empty where it is a file's name."""
    from kerfline.files.written_size import is_size

    return str(path) if is_size(str(path)) and not path.exists() else ""


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
    from kerfline.files.building import FloorChoice, read_building
    from kerfline.files.slab_parts import slab_of
    from kerfline.files.slab_sense import check_slab

    _refuse(_meant_for_drawings(wishes, MODELLED))
    read = read_building(path, FloorChoice(storey=wishes.storey, slab=wishes.slab))
    told = wishes.thickness is not None or read.thickness is None
    thickness = thickness_of(wishes, read.unit) if told else read.thickness
    slab = slab_of(read.parts, read.parts.outline or Ring(()), thickness or 0.0)
    _refuse(check_slab(slab, path.name, read.unit.display))
    return Job(
        name=path.stem,
        units=read.unit,
        slab=slab,
        sheet=SheetChoice(north=read.north),
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
    if wishes.units is not None:
        said["--units"] = "units under [job], or under [drawing] for those of the drawing"
    if wishes.repair is not None:
        said["--repair"] = 'how far joints are repaired under [drawing], as repair = "2 in"'
    return [
        Mistake(
            what=f"this is said beside a drawing; {what}",
            where=option,
            remedy=f"write {where}" if what == TOLD else "leave it out",
        )
        for option, where in said.items()
    ]


def _from_drawing(path: Path, wishes: Wishes) -> Job:
    """The job that a drawing proposes, with the layers that the user named in place of the proposed."""
    from kerfline.app.drawing_words import ask, reading_of
    from kerfline.files.drawing import propose, read_drawing, slab_parts
    from kerfline.files.slab_parts import slab_of
    from kerfline.files.slab_sense import check_slab

    drawing = read_drawing(path, wishes.units)
    units = wishes.units or drawing.unit
    proposal, told = propose(drawing), dict(wishes.layers)
    if wishes.asks:
        ask(proposal, told)
    layers = replace(proposal.layers, **told)
    parts = slab_parts(drawing, layers, reach=_reach(wishes, units))
    if parts.outline is None:
        raise InputRefused(_no_outline(path))
    slab = slab_of(parts, parts.outline, thickness_of(wishes, units))
    if mistakes := check_slab(slab, path.name, units.display):
        raise InputRefused(*mistakes)
    return Job(
        name=path.stem,
        units=units,
        slab=slab,
        rules=RuleChoice(),
        notes=parts.notes,
        reading=reading_of(drawing, proposal, told, parts.outline),
    )


def _reach(wishes: Wishes, units: Unit) -> float:
    """How far joints are repaired (mm), as the user says, or as the reader has it."""
    from kerfline.files.drawing.joints import REACH

    if wishes.repair is None:
        return REACH
    reach = parse_length(wishes.repair, units, where="--repair")
    if not 0 <= reach <= LONGEST_REPAIR:
        raise InputRefused(
            Mistake(
                what="no joint is repaired by so much",
                where="--repair",
                found=wishes.repair,
                allowed="0 to 12 in (305 mm)",
                remedy="draw the joint anew, or leave it to be found as it is",
            )
        )
    return reach


def _no_outline(path: Path) -> Mistake:
    return Mistake(
        what="no closed outline of a slab was found",
        where=path.name,
        remedy="name its layer with --outline; kerfline new shows what the drawing holds",
    )


def thickness_of(wishes: Wishes, units: Unit) -> float:
    """The thickness that the user gave beside a drawing.

    Raises:
        InputRefused: None was given, or it is not a thickness.
    """
    if wishes.thickness is None:
        raise InputRefused(
            Mistake(
                what="nothing says how thick the slab is",
                remedy='give --thickness, such as --thickness "4 in" or --thickness "100 mm"',
            )
        )
    thickness = parse_length(wishes.thickness, units, where="--thickness")
    if thickness <= 0:
        raise InputRefused(
            Mistake(
                what="the thickness must be more than nothing",
                where="--thickness",
                found=wishes.thickness,
                remedy='write it as "4 in" or "100 mm"',
            )
        )
    return thickness
