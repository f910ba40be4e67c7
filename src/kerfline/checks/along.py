"""Straight stretches of a line, and what lies along them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import shapely
from shapely import LineString

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH

ALONG = 0.94
"""Cosine of 20 degrees: a line that turns less from a stretch runs along it."""

Span = tuple[float, float]


@dataclass(frozen=True)
class Beside:
    """A part of a stretch that another line lies along.

    Attributes:
        start: Where it begins along the stretch, mm.
        end: Where it ends.
        off: The greatest distance of the other line sideways, mm.
    """

    start: float
    end: float
    off: float


@dataclass(frozen=True)
class Run:
    """A straight stretch of a line.

    Attributes:
        start: Its first point.
        way: Unit vector along it.
        length: In mm.
    """

    start: Point
    way: Point
    length: float

    @cached_property
    def line(self) -> LineString:
        """The stretch as a line."""
        return LineString([self.start, self.at(self.length)])

    def at(self, along: float, across: float = 0.0) -> Point:
        """A place on the stretch, or beside it (positive to the left)."""
        return (
            self.start[0] + self.way[0] * along - self.way[1] * across,
            self.start[1] + self.way[1] * along + self.way[0] * across,
        )

    def local(self, point: Sequence[float]) -> Point:
        """Distance along the stretch and across it, left positive."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        return (dx * self.way[0] + dy * self.way[1], dy * self.way[0] - dx * self.way[1])

    def alongside(self, line: LineString, half: float) -> list[Beside]:
        """The parts of the stretch that a line lies along within ``half`` (mm) to either side."""
        points = [self.local(p) for p in shapely.get_coordinates(line).tolist()]
        found = (self._beside(a, b, half) for a, b in pairwise(points))
        return [beside for beside in found if beside]

    def _beside(self, a: Point, b: Point, half: float) -> Beside | None:
        """The part that one segment, in the stretch's own measures, lies along."""
        dx, dy = b[0] - a[0], b[1] - a[1]
        size = (dx * dx + dy * dy) ** 0.5
        if size <= SAME or abs(dx) < ALONG * size:
            return None
        ends = sorted((a[0], b[0]))
        if abs(dy) > SAME:
            ends = _both(ends, sorted(a[0] + (d - a[1]) * dx / dy for d in (-half, half)))
        elif abs(a[1]) > half:
            return None
        start, end = _both(ends, [0.0, self.length])
        if end - start <= SAME:
            return None
        off = max(abs(a[1] + (s - a[0]) * dy / dx) for s in (start, end))
        return Beside(start, end, off)


def _both(one: Sequence[float], two: Sequence[float]) -> list[float]:
    """What two stretches share; the end before the start where they share nothing."""
    return [max(one[0], two[0]), min(one[1], two[1])]


def runs_of(path: Sequence[Point]) -> list[Run]:
    """The straight stretches of a path."""
    return [Run(a, direction(a, b), LineString([a, b]).length) for a, b in pairwise(path) if a != b]


def merged(spans: Iterable[Span]) -> list[Span]:
    """Stretches without overlaps, in order; those that touch become one."""
    out: list[Span] = []
    for start, end in sorted(spans):
        if out and start <= out[-1][1] + 2 * TOUCH:
            out[-1] = (out[-1][0], max(end, out[-1][1]))
        else:
            out.append((start, end))
    return out


def left_of(whole: Span, taken: Sequence[Span]) -> list[Span]:
    """What of a stretch is left when others, merged, are taken out."""
    left, out = whole[0], []
    for start, end in taken:
        if end <= left or start >= whole[1]:
            continue
        if start > left:
            out.append((left, start))
        left = max(left, end)
    if left < whole[1]:
        out.append((left, whole[1]))
    return [(a, b) for a, b in out if b - a > TOUCH]
