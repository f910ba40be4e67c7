"""The rule sets in the package: their names, and one of them with the user's changes."""

import difflib
import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from importlib import resources

from kerfline.errors import InputRefused, Mistake
from kerfline.rules.merge import inherit, override
from kerfline.rules.rule_set_model import RuleSet
from kerfline.rules.set_reader import read_set
from kerfline.rules.table_reader import TableReader
from kerfline.units import Unit

__all__ = ["DEFAULT", "RuleSet", "load", "names"]

DEFAULT = "floor"
NOT_FOR_JOBS = ("title", "use", "like")
"""What a rule set says of itself; a job's changes are about its figures."""


@cache
def names() -> tuple[str, ...]:
    """Names of the rule sets in the package, the default first, the others by alphabet."""
    found = sorted(f.name.removesuffix(".toml") for f in _folder().iterdir() if _is_set(f.name))
    return (DEFAULT, *(name for name in found if name != DEFAULT))


def load(
    name: str,
    overrides: Mapping[str, object] | None = None,
    *,
    unit: Unit | None = None,
    place: Callable[[str], str] = str,
) -> RuleSet:
    """A rule set with the user's changes.

    Args:
        name: One of ``names()``.
        overrides: The tables of the user's own TOML, same keys as a rule set's.
        unit: Unit of bare lengths in the overrides; without it each length must carry its own.
        place: Turns a path such as ``aspect.maximum`` into the place that the user is told.

    Raises:
        InputRefused: There is no such set, or the overrides name no figure or give no sensible value;
            every mistake is listed.
    """
    if name not in names():
        raise InputRefused(_no_such_set(name))
    changes = dict(overrides or {})
    reader = TableReader(override(_tables(name), changes), place=place, unit=unit)
    for key in (k for k in NOT_FOR_JOBS if k in changes):
        reader.refuse(key, "a job cannot change this", remedy="leave it out")
    rule_set = read_set(name, reader)
    if reader.mistakes or rule_set is None:
        raise InputRefused(*reader.mistakes)
    return rule_set


@cache
def _tables(name: str) -> Mapping[str, object]:
    """The tables of a set, those of the set that it is like filled in.

    A set that gives one span only gives the greatest one, and nothing is advised below it.
    """
    own = tomllib.loads((_folder() / f"{name}.toml").read_text(encoding="utf-8"))
    if "span" in own:
        own["span"].setdefault("maximum", own["span"]["advised"])
    like = own.pop("like", None)
    return inherit(_tables(like), own) if isinstance(like, str) else own


def _folder() -> resources.abc.Traversable:
    return resources.files("kerfline.rules") / "sets"


def _is_set(file_name: str) -> bool:
    return file_name.endswith(".toml")


def _no_such_set(name: str) -> Mistake:
    meant = difflib.get_close_matches(name, names(), n=1)
    return Mistake(
        what="there is no such rule set",
        where="rules.set",
        found=repr(name),
        allowed=", ".join(names()),
        remedy=f'did you mean "{meant[0]}"?' if meant else "choose one of these",
    )
