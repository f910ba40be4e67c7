"""Where each value of a TOML text stands, so that a mistake can name its line.

The text has been read by ``tomllib`` before, so it is well formed; this reader only keeps count of
lines.
"""

import bisect
import re
from collections.abc import Mapping
from dataclasses import dataclass, field

Key = tuple[str | int, ...]

_SPACE = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'', re.DOTALL
)
_SCALAR = re.compile(r"[^,\]}#\n]+")
_QUOTES = "\"'"


def lines_of(text: str) -> Mapping[Key, int]:
    """The line (from 1) on which each table, key and array element of a TOML text starts."""
    reader = _Reader(text)
    reader.read()
    return reader.lines


@dataclass
class _Reader:
    """Walks through the text once; ``at`` is how far it came."""

    text: str
    at: int = 0
    table: Key = ()
    lines: dict[Key, int] = field(default_factory=dict)
    counts: dict[Key, int] = field(default_factory=dict)
    ends: list[int] = field(init=False)

    def __post_init__(self) -> None:
        self.ends = [match.start() for match in re.finditer("\n", self.text)]

    def read(self) -> None:
        self._skip()
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                self._header()
            else:
                self._pair(self.table)
            self._skip()

    def _header(self) -> None:
        start = self.at
        is_array = self.text.startswith("[[", self.at)
        self.at += 2 if is_array else 1
        name = self._dotted()
        self.at = self.text.index("]", self.at) + (2 if is_array else 1)
        self.table = self._resolve(name, is_array=is_array)
        for depth in range(1, len(self.table) + 1):
            self._note(self.table[:depth], start)

    def _resolve(self, name: Key, *, is_array: bool) -> Key:
        """The path of a header, each array of tables on its way at its last element."""
        path: Key = ()
        for depth, part in enumerate(name, start=1):
            path = (*path, part)
            if is_array and depth == len(name):
                self.counts[path] = self.counts.get(path, -1) + 1
            if path in self.counts:
                path = (*path, self.counts[path])
        return path

    def _pair(self, table: Key) -> None:
        start = self.at
        path = (*table, *self._dotted())
        for depth in range(len(table) + 1, len(path) + 1):
            self._note(path[:depth], start)
        self.at = self.text.index("=", self.at) + 1
        self._skip()
        self._value(path)

    def _dotted(self) -> Key:
        parts: list[str] = []
        while True:
            self._skip()
            parts.append(self._key_part())
            self._skip()
            if not self.text.startswith(".", self.at):
                return tuple(parts)
            self.at += 1

    def _key_part(self) -> str:
        if self.text[self.at] in _QUOTES:
            return self._take(_STRING)[1:-1]
        return self._take(_BARE_KEY)

    def _value(self, path: Key) -> None:
        opening = self.text[self.at]
        if opening == "[":
            self._array(path)
        elif opening == "{":
            self._inline_table(path)
        elif opening in _QUOTES:
            self._take(_STRING)
        else:
            self._take(_SCALAR)

    def _array(self, path: Key) -> None:
        count = 0
        self.at += 1
        while not self._closed("]"):
            self._note((*path, count), self.at)
            self._value((*path, count))
            self._comma()
            count += 1

    def _inline_table(self, path: Key) -> None:
        self.at += 1
        while not self._closed("}"):
            self._pair(path)
            self._comma()

    def _closed(self, bracket: str) -> bool:
        """Steps over the closing bracket if it is next."""
        self._skip()
        if self.text[self.at] != bracket:
            return False
        self.at += 1
        return True

    def _comma(self) -> None:
        self._skip()
        self.at += self.text[self.at] == ","

    def _skip(self) -> None:
        self._take(_SPACE)

    def _take(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self.text, self.at)
        if match is None:
            message = f"no {pattern.pattern} at {self.at}"
            raise ValueError(message)
        self.at = match.end()
        return match[0]

    def _note(self, path: Key, start: int) -> None:
        self.lines.setdefault(path, bisect.bisect_left(self.ends, start) + 1)


@dataclass(frozen=True)
class Places:
    """Names places in one TOML file.

    Attributes:
        name: Name of the file.
        lines: Line of each key, as ``lines_of`` gives it.
    """

    name: str
    lines: Mapping[Key, int]

    def of(self, key: Key) -> str:
        """A place such as ``job.toml line 12, wall[2].path[1]``, of the nearest table that is there."""
        known = next((key[:n] for n in range(len(key), 0, -1) if key[:n] in self.lines), ())
        line = f" line {self.lines[known]}" if known else ""
        return f"{self.name}{line}, {dotted(key)}" if key else f"{self.name}{line}"


def dotted(key: Key) -> str:
    """A key as it is written: ``wall[2].path[1]``."""
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in key)
    return text.removeprefix(".")
