"""The rules that a job file chooses: a set, a file of changes shared by several jobs, and its own changes."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_locate import Key, Places
from kerfline.files.toml_file import TomlFile, read_toml
from kerfline.rules.rule_set import load
from kerfline.units import Unit

Tables = Mapping[str, object]

CHOICES = ("rules.set", "cut.method")
"""Places that ``load`` and ``cut_limit`` name by themselves."""

ANY_THICKNESS = 100.0
"""Thickness (mm) at which a method of cutting is tried: it is known at every thickness or at none."""


@dataclass(frozen=True)
class ChosenRules:
    """The changes to a rule set, the shared ones first, and every mistake in the choice."""

    overrides: Tables
    mistakes: tuple[Mistake, ...] = ()


def chosen_rules(job: TomlFile, path: Path, unit: Unit) -> ChosenRules:
    """What a job file chooses of rules.

    Args:
        job: The job file; values of a wrong kind are left to the check of kinds.
        path: Where it lies; the file of shared changes is looked for beside it.
        unit: Unit of bare numbers.
    """
    rules, cut = _table(job.tables, "rules"), _table(job.tables, "cut")
    name, own = rules.get("set", "floor"), rules.get("overrides", {})
    method, file = cut.get("method", "conventional"), rules.get("file", "")
    if not (isinstance(own, Mapping) and all(isinstance(w, str) for w in (name, method, file))):
        return ChosenRules({})
    try:
        shared = _shared(str(name), path.parent / str(file), unit) if file else {}
        merged = _merged(shared, own)
        chosen = load(str(name), merged, unit=unit, place=_places_of_overrides(job.places))
        chosen.cut_limit(ANY_THICKNESS, str(method))
    except InputRefused as refused:
        return ChosenRules({}, tuple(_placed(m, job.places) for m in refused.mistakes))
    return ChosenRules(merged)


def _shared(name: str, path: Path, unit: Unit) -> Tables:
    """The changes in a file of their own, tried by themselves so that mistakes name that file."""
    file = read_toml(path, "file of rules")
    load(name, file.tables, unit=unit, place=lambda p: file.places.of(_key(p)))
    return file.tables


def _merged(base: Tables, own: Tables) -> Tables:
    """Two sets of changes; of two that meet, the job's own holds."""
    merged = dict(base)
    for key, value in own.items():
        under = base.get(key)
        if isinstance(value, Mapping) and isinstance(under, Mapping):
            merged[key] = _merged(under, value)
        else:
            merged[key] = value
    return merged


def _places_of_overrides(places: Places) -> Callable[[str], str]:
    return lambda path: places.of(("rules", "overrides", *_key(path)))


def _key(path: str) -> Key:
    """The key of a path in a rule set, such as ``span.advised.rows[0].from``."""
    parts = path.replace("[", ".").replace("]", "").split(".")
    return tuple(int(part) if part.isdigit() else part for part in parts)


def _placed(mistake: Mistake, places: Places) -> Mistake:
    """A mistake about a plain choice, its place named in full."""
    if mistake.where not in CHOICES:
        return mistake
    return replace(mistake, where=places.of(tuple(mistake.where.split("."))))


def _table(tables: Tables, key: str) -> Tables:
    value = tables.get(key)
    return value if isinstance(value, Mapping) else {}
