"""Reads a job file: TOML in, a job out, or every mistake in it."""

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import ValidationError

from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_build import build_job
from kerfline.files.job_locate import Key, Places, lines_of
from kerfline.files.job_mistakes import mistakes_of
from kerfline.files.job_schema import DrawingTable, JobFile
from kerfline.files.job_text import job_text
from kerfline.files.slab_sense import Named, check_slab
from kerfline.model.job import Job
from kerfline.rules.rule_set import load
from kerfline.units import Unit

if TYPE_CHECKING:
    from kerfline.files.drawing.parts import SlabParts

__all__ = ["job_text", "read_job"]

CHOICES = ("rules.set", "cut.method")
DRAWN = ("outline", "openings", "walls", "columns", "penetrations", "joints", "keep_outs")
KINDS = ("wall", "column", "penetration", "zone", "keep_out", "joint", "pattern")


def read_job(path: Path) -> Job:
    """Reads a job.

    Args:
        path: The job file; a drawing that it names is looked for beside it.

    Raises:
        InputRefused: The file cannot be read, is no TOML, or describes no sensible job; every mistake
            is listed with its place.
    """
    text = _text_of(path)
    tables = _tables_of(text, path)
    places = Places(path.name, lines_of(text))
    file, mistakes = _checked(tables, places)
    if file is None:
        raise InputRefused(*mistakes)
    job = build_job(file, _drawn(file.drawing, path, mistakes))
    mistakes.extend(check_slab(job.slab, _Where(file, job, places), job.display))
    if mistakes:
        raise InputRefused(*mistakes)
    return job


def _text_of(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        what, remedy = f"this is not UTF-8 text (byte {error.start})", "save it as UTF-8"
    except OSError as error:
        what, remedy = f"the job file cannot be read ({error.strerror})", "check the path"
    raise InputRefused(Mistake(what=what, where=str(path), remedy=remedy))


def _tables_of(text: str, path: Path) -> Mapping[str, object]:
    try:
        return tomllib.loads(text)
    except (
        ValueError,
        RecursionError,
    ) as error:  # endless numbers and nests are no TOMLDecodeError
        reason = str(error)
    raise InputRefused(
        Mistake(
            what=f"this is not valid TOML: {reason[:1].lower()}{reason[1:]}",
            where=path.name,
            remedy="mend that line; text stands in double quotes, lists in square brackets",
        )
    )


def _checked(tables: Mapping[str, object], places: Places) -> tuple[JobFile | None, list[Mistake]]:
    """The file's tables, None where a value is of the wrong kind, and every mistake in them."""
    # Without a unit, bare numbers are read as mm so that only the missing unit is reported.
    unit = _unit_of(tables) or Unit.MM
    file: JobFile | None = None
    mistakes: list[Mistake] = []
    try:
        file = JobFile.model_validate(tables, context={"unit": unit})
    except ValidationError as error:
        mistakes = mistakes_of(error, JobFile, places)
    mistakes.extend(_rule_mistakes(tables.get("rules"), tables.get("cut"), unit, places))
    return file, mistakes


def _unit_of(tables: Mapping[str, object]) -> Unit | None:
    job = tables.get("job")
    word = job.get("units") if isinstance(job, Mapping) else None
    return Unit(word) if isinstance(word, str) and word in tuple(Unit) else None


def _rule_mistakes(rules: object, cut: object, unit: Unit, places: Places) -> tuple[Mistake, ...]:
    """What is wrong with the rule set, the changes to it and the method of cutting."""
    chosen = rules if isinstance(rules, Mapping) else {}
    name, overrides = chosen.get("set", "floor"), chosen.get("overrides", {})
    method = cut.get("method", "conventional") if isinstance(cut, Mapping) else "conventional"
    if not (isinstance(name, str) and isinstance(overrides, Mapping) and isinstance(method, str)):
        return ()
    try:
        rule_set = load(name, overrides, unit=unit, place=lambda p: places.of(_override_key(p)))
        rule_set.cut_limit(1.0, method)
    except InputRefused as refused:
        return tuple(_placed(mistake, places) for mistake in refused.mistakes)
    return ()


def _placed(mistake: Mistake, places: Places) -> Mistake:
    """A mistake about a plain choice, its place named in full."""
    if mistake.where not in CHOICES:
        return mistake
    return replace(mistake, where=places.of(tuple(mistake.where.split("."))))


def _override_key(path: str) -> Key:
    """The key in the job file of a path in the rule set, such as ``span.advised.rows[0].from``."""
    key = ("rules", "overrides")
    parts = path.replace("[", ".").replace("]", "").split(".")
    return (*key, *(int(part) if part.isdigit() else part for part in parts))


def _drawn(table: DrawingTable | None, path: Path, mistakes: list[Mistake]) -> "SlabParts":
    """What the drawing holds; where it is refused, its mistakes are told with those so far."""
    from kerfline.files.drawing.layers import Layers
    from kerfline.files.drawing.parts import SlabParts, read_slab_parts

    if table is None:
        return SlabParts()
    layers = Layers(**{kind: tuple(getattr(table, kind)) for kind in DRAWN})
    try:
        return read_slab_parts(path.parent / table.file, layers, table.units)
    except InputRefused as refused:
        raise InputRefused(*mistakes, *refused.mistakes) from None


class _Where:
    """Names the place of a subject of the slab: ``outline``, ``opening 2``, ``W3``."""

    def __init__(self, file: JobFile, job: Job, places: Places) -> None:
        self.places = places
        self.keys = _keys_of(file, job)

    def __call__(self, subject: str) -> str:
        key = self.keys.get(subject)
        if key is not None:
            return self.places.of(key)
        return f"{self.places.name}, {subject} of the drawing"


def _keys_of(file: JobFile, job: Job) -> Mapping[str, Key]:
    """The key of each subject that the file itself gives."""
    slab = job.slab
    keys: dict[str, Key] = {"slab": ("slab",), "thickness": ("slab", "thickness")}
    if file.slab.outline or file.drawing is None:
        keys["outline"] = ("slab", "outline")
    drawn = len(slab.openings) - len(file.slab.openings)
    for i in range(len(file.slab.openings)):
        keys[f"opening {drawn + i + 1}"] = ("slab", "openings", i)
    lists: tuple[Sequence[Named], ...] = (
        slab.walls, slab.columns, slab.penetrations, slab.zones, slab.keep_outs, slab.joints,
        slab.patterns,
    )  # fmt: skip
    for kind, things in zip(KINDS, lists, strict=True):
        own = len(getattr(file, kind))
        for i, thing in enumerate(things[len(things) - own :]):
            keys.setdefault(thing.id, (kind, i))
    for i, table in enumerate(file.edge):
        keys[f"edge {table.ring}/{table.segment or 0}"] = ("edge", i)
    return keys
