"""Which joints of two states are one line, and where the lines of the two states differ.

A joint along an axis that only became longer or shorter, as when the edge moves on which it ends, is the
line that it was but for the stretch between its two ends: where it is crossed there stays the same to the
last bit. Of an aslant line that cannot be said, so it counts as another line.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString

from kerfline.geometry.arrays import Integers
from kerfline.geometry.ring import Point

GONE = -2
"""Stands for a joint that is not there any more."""

STRAIGHT = 2
"""Points of a straight line."""

Key = tuple[bytes, int]


class Ray(NamedTuple):
    """Where a joint along an axis is held, as drawn and as met, the way from there, and which end is loose."""

    drawn: Point
    met: Point
    way: Point
    end: int


@dataclass(frozen=True)
class ChangedLines:
    """The lines of two states beside each other.

    Attributes:
        moved: For each joint of before its number now; ``GONE`` where its line is gone.
        stretches: The lines, or ends of lines, that only one of the two states has.
    """

    moved: Integers
    stretches: tuple[LineString, ...]

    @property
    def in_order(self) -> bool:
        """Whether the joints that stayed follow one another as before."""
        stayed = self.moved[self.moved != GONE]
        return bool((np.diff(stayed) > 0).all())


@dataclass(frozen=True)
class Lines:
    """The joints of one state.

    Attributes:
        given: Their lines as they are drawn, in the layout's order.
        met: The same with their ends on what they meet.
    """

    given: Sequence[LineString]
    met: Sequence[LineString]

    def keys(self) -> dict[Key, int]:
        """What is read of each joint's line, and the joint's number; of equal lines the second is another."""
        both = zip(*(shapely.to_wkb(list(x)) for x in (self.given, self.met)), strict=True)
        seen: Counter[bytes] = Counter()
        keys = {}
        for number, (drawn, met) in enumerate(both):
            keys[drawn + met, seen[drawn + met]] = number
            seen[drawn + met] += 1
        return keys


def changed_lines(before: Lines, now: Lines) -> ChangedLines:
    """Holds the joints of a state against those of the state before."""
    old, new = before.keys(), now.keys()
    moved = np.array([new.get(key, GONE) for key in old], dtype=np.int64)
    went = {i for key, i in old.items() if key not in new}
    came = {i for key, i in new.items() if key not in old}
    stretches: list[LineString] = []
    for (i, end), j in _longer_or_shorter(before, went, now, came).items():
        moved[i] = j
        went.remove(i)
        came.remove(j)
        stretches += _between(before, now, i, j, end)
    for lines, numbers in ((before, went), (now, came)):
        stretches += (line for i in sorted(numbers) for line in (lines.given[i], lines.met[i]))
    return ChangedLines(moved, tuple(stretches))


def _longer_or_shorter(
    before: Lines, went: Iterable[int], now: Lines, came: Iterable[int]
) -> dict[tuple[int, int], int]:
    """For each joint of before that became longer or shorter, and the end that moved, its number now."""
    new = _rays(now, came)
    found: dict[tuple[int, int], int] = {}
    taken: set[int] = set()
    for ray, i in _rays(before, went).items():
        j = new.get(ray)
        if j is not None and j not in taken and not {(i, 0), (i, 1)} & set(found):
            found[i, ray.end] = j
            taken.add(j)
    return found


def _rays(lines: Lines, numbers: Iterable[int]) -> dict[Ray, int]:
    """Where joints along an axis begin and which way they run, with the number of one that does."""
    return {ray: i for i in sorted(numbers) for ray in _rays_of(lines.given[i], lines.met[i])}


def _rays_of(given: LineString, met: LineString) -> Iterator[Ray]:
    drawn, joined = _points(given), _points(met)
    if len(drawn) != STRAIGHT or len(joined) != STRAIGHT:
        return
    for end in (0, 1):
        way = _axis(drawn[1 - end], drawn[end])
        if way is not None and way == _axis(joined[1 - end], joined[end]):
            yield Ray(drawn[1 - end], joined[1 - end], way, end)


def _points(line: LineString) -> list[Point]:
    return [(float(x), float(y)) for x, y in line.coords]


def _axis(start: Point, end: Point) -> Point | None:
    """The way along an axis from one point to another; None where they do not lie on one."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    if (dx == 0) == (dy == 0):
        return None
    return (float(np.sign(dx)), float(np.sign(dy)))


def _between(before: Lines, now: Lines, i: int, j: int, end: int) -> Iterator[LineString]:
    """The stretches between the loose ends of a joint before and now, as drawn and as met."""
    for old, new in ((before.given[i], now.given[j]), (before.met[i], now.met[j])):
        if old.coords[end] != new.coords[end]:
            yield LineString([old.coords[end], new.coords[end]])
