"""Reads values out of nested tables and gathers every mistake, each with its place."""

import difflib
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from kerfline.errors import InputRefused, Mistake
from kerfline.units import EXAMPLES, Unit, parse_length

LEAST_MATCH = 0.6
"""Share of letters that must agree before a key is offered as the one that was meant."""


@dataclass(frozen=True)
class TableReader:
    """One table, its place, and the list that mistakes go into.

    Attributes:
        values: The table.
        path: Keys that lead to it, joined by dots.
        place: Turns such a path into the place that the user is told.
        unit: Unit of bare numbers; None where each length must carry its own.
        mistakes: Shared by every table of one reading.
    """

    values: Mapping[str, object]
    path: str = ""
    place: Callable[[str], str] = str
    unit: Unit | None = None
    mistakes: list[Mistake] = field(default_factory=list)

    def refuse(self, key: str, what: str, *, found: object = "", remedy: str = "") -> None:
        """Notes a mistake about one key; an empty key means the table itself."""
        self.mistakes.append(
            Mistake(
                what=what,
                where=self.place(self._at(key)),
                found="" if found == "" else repr(found),
                remedy=remedy,
            )
        )

    def only(self, keys: Iterable[str]) -> None:
        """Refuses every key that is not in a list, with the one that was probably meant."""
        known = tuple(keys)
        for key in self.values:
            if key in known:
                continue
            meant = difflib.get_close_matches(key, known, n=1, cutoff=LEAST_MATCH)
            remedy = f'did you mean "{meant[0]}"?' if meant else f"known here: {', '.join(known)}"
            self.refuse(key, f'there is no "{key}" here', remedy=remedy)

    def table(self, key: str) -> "TableReader | None":
        """The table under a key; None, with a mistake, where there is something else."""
        value = self.values.get(key)
        if isinstance(value, Mapping):
            return self._child(key, value)
        self.refuse(key, "a table is needed here", found=value)
        return None

    def tables(self, key: str) -> "Sequence[TableReader]":
        """The list of tables under a key; empty, with a mistake, where there is none."""
        value = self.values.get(key)
        if isinstance(value, list) and value and all(isinstance(v, Mapping) for v in value):
            return [self._child(f"{key}[{i}]", v) for i, v in enumerate(value)]
        self.refuse(key, "a list of tables is needed here", found=value)
        return ()

    def text(self, key: str, default: str | None = None) -> str:
        """The text under a key."""
        value = self.values.get(key, default)
        if isinstance(value, str):
            return value
        self.refuse(key, "text is needed here", found=value)
        return ""

    def texts(self, key: str) -> tuple[str, ...]:
        """The list of texts under a key; none where the key is missing."""
        value = self.values.get(key, [])
        if isinstance(value, list) and all(isinstance(v, str) for v in value):
            return tuple(value)
        self.refuse(key, "a list of texts is needed here", found=value)
        return ()

    def number(self, key: str, default: float | None = None) -> float:
        """A positive number, or a fraction as text such as ``1/4``."""
        value = self.values.get(key, default)
        number = _number(value)
        if number is not None and math.isfinite(number) and number > 0:
            return number
        self.refuse(key, "a number above 0 is needed here", found=value)
        return math.nan

    def length(self, key: str) -> float:
        """A length (mm) above 0."""
        return self._length(key, self.values.get(key))

    def lengths(self, key: str) -> tuple[float, ...]:
        """A list of lengths (mm) above 0."""
        value = self.values.get(key)
        if isinstance(value, list) and value:
            return tuple(self._length(f"{key}[{i}]", v) for i, v in enumerate(value))
        self.refuse(key, "a list of lengths is needed here", found=value)
        return ()

    def optional_length(self, key: str) -> float | None:
        """A length (mm) above 0; None where the key is missing."""
        return self.length(key) if key in self.values else None

    def _length(self, key: str, value: object) -> float:
        if not isinstance(value, str | int | float):
            self.refuse(key, "a length is needed here", found=value, remedy=f"such as {EXAMPLES}")
            return math.nan
        try:
            length = parse_length(value, self.unit, where=self.place(self._at(key)))
        except InputRefused as refused:
            self.mistakes.extend(refused.mistakes)
            return math.nan
        if length > 0:
            return length
        self.refuse(key, "a length above 0 is needed here", found=value)
        return math.nan

    def _child(self, key: str, values: Mapping[str, object]) -> "TableReader":
        return TableReader(values, self._at(key), self.place, self.unit, self.mistakes)

    def _at(self, key: str) -> str:
        return ".".join(filter(None, [self.path, key]))


def _number(value: object) -> float | None:
    """A number, or a fraction of two in a text; None for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        return None
    over, _, under = value.partition("/") if isinstance(value, str) else (value, "", "")
    try:
        return float(over) / float(under or 1)
    except (ValueError, OverflowError, ZeroDivisionError):
        return None
