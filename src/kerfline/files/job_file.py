"""Reads a job file: TOML in, a job out, or every mistake in it."""

from collections.abc import Mapping
from pathlib import Path

from pydantic import ValidationError

from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_areas import area_mistakes
from kerfline.files.job_build import build_job
from kerfline.files.job_choices import choice_mistakes
from kerfline.files.job_mistakes import mistakes_of
from kerfline.files.job_places import place_of_subject
from kerfline.files.job_rules import chosen_rules
from kerfline.files.job_schema import DrawingTable, JobFile
from kerfline.files.job_site import site_mistakes
from kerfline.files.job_text import job_text
from kerfline.files.job_tracing import tracing_mistakes
from kerfline.files.slab_parts import SlabParts
from kerfline.files.slab_sense import check_slab
from kerfline.files.toml_file import TomlFile, read_toml
from kerfline.model.job import Job
from kerfline.units import Unit

__all__ = ["job_text", "read_job"]


def read_job(path: Path) -> Job:
    """Reads a job.

    Args:
        path: The job file; a drawing or a file of rules that it names is looked for beside it.

    Raises:
        InputRefused: The file cannot be read, is no TOML, or describes no sensible job; every mistake
            is listed with its place.
    """
    return job_of_toml(read_toml(path, "job file"), path)


def job_of_toml(toml: TomlFile, path: Path) -> Job:
    """The job that a TOML text describes.

    Args:
        toml: The text's tables.
        path: Its file; a drawing or a file of rules that it names is looked for beside it.

    Raises:
        InputRefused: It describes no sensible job; every mistake is listed with its place.
    """
    # Without a unit, bare numbers are read as mm so that only the missing unit is reported.
    unit = _unit_of(toml.tables) or Unit.MM
    file, mistakes = _checked(toml, unit)
    rules = chosen_rules(toml, path, unit)
    mistakes.extend(rules.mistakes)
    if file is None:
        raise InputRefused(*mistakes)
    mistakes.extend(choice_mistakes(file, toml.places))
    job = build_job(file, _drawn(file.drawing, path, mistakes), rules.overrides)
    where = place_of_subject(file, job.slab, toml.places)
    mistakes.extend(check_slab(job.slab, where, job.display))
    mistakes.extend(site_mistakes(job, toml.places))
    mistakes.extend(tracing_mistakes(job.tracing, toml.places.of(("tracing",))))
    mistakes = mistakes or area_mistakes(job.sheet.areas, job.slab, toml.places)
    if mistakes:
        raise InputRefused(*mistakes)
    return job


def _checked(toml: TomlFile, unit: Unit) -> tuple[JobFile | None, list[Mistake]]:
    """The file's tables, None where a value is of the wrong kind, and what is wrong with them."""
    try:
        return JobFile.model_validate(toml.tables, context={"unit": unit}), []
    except ValidationError as error:
        return None, mistakes_of(error, JobFile, toml.places)


def _unit_of(tables: Mapping[str, object]) -> Unit | None:
    job = tables.get("job")
    word = job.get("units") if isinstance(job, Mapping) else None
    return Unit(word) if isinstance(word, str) and word in tuple(Unit) else None


def _drawn(table: DrawingTable | None, path: Path, mistakes: list[Mistake]) -> SlabParts:
    """What the drawing holds; where it is refused, its mistakes are told with those so far."""
    if table is None:
        return SlabParts()
    from kerfline.files.drawn_parts import drawn_parts

    try:
        return drawn_parts(path.parent / table.file, table)
    except InputRefused as refused:
        raise InputRefused(*mistakes, *refused.mistakes) from None
