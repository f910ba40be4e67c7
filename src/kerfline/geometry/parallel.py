"""Pairs of parallel lines that are the two faces of one thing: a wall, a joint former."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.near import lines as line_shapes
from kerfline.geometry.near import near_pairs
from kerfline.geometry.ring import Point

PARALLEL = math.radians(1.0)
"""Two faces whose directions differ by more than this are not faces of one thing."""

TAPER = 0.1
"""The distance between two faces changes by at most this share of it."""

STUB = 0.75
"""A strip is at least this many times as long as it is thick; the stub beside a door is about square."""

Span = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Strip:
    """What lies between two faces, where they face one another.

    Attributes:
        start: First end of the centre line, mm.
        end: Other end.
        thickness: Distance between the faces.
        faces: Indices of the two lines.
    """

    start: Point
    end: Point
    thickness: float
    faces: tuple[int, int]

    @property
    def length(self) -> float:
        """Length of the centre line in mm."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, kw_only=True)
class Paired:
    """Strips, and what is left of each line.

    Attributes:
        strips: In the order of the thinner first.
        left: For each line the length that is a face of nothing.
    """

    strips: tuple[Strip, ...]
    left: tuple[float, ...]


@dataclass(frozen=True)
class _Candidate:
    """Two lines that face one another: the second's span and offset seen along the first."""

    first: int
    second: int
    span: Span
    offset_low: float
    offset_high: float

    @property
    def offset(self) -> float:
        return (self.offset_low + self.offset_high) / 2


def paired(lines: Numbers, least: float, most: float, shortest: float = STUB) -> Paired:
    """Finds the strips between parallel lines.

    Near pairs are taken before wide ones, and each place of a line is the face of one strip only; so one long
    face may stand opposite many short ones.

    Args:
        lines: One row ``x0 y0 x1 y1`` a line, in mm.
        least: Thinnest strip, mm.
        most: Thickest strip, mm.
        shortest: A strip's least length as a multiple of its thickness.
    """
    free = [[(0.0, _length(row))] for row in lines]
    strips: list[Strip] = []
    for pair in _candidates(lines, least, most):
        for span in _both_free(lines, pair, free):
            if span[1] - span[0] >= shortest * abs(pair.offset):
                strips.append(_strip(lines, pair, span))
                _use(lines, pair, span, free)
    left = tuple(sum(b - a for a, b in spans) for spans in free)
    return Paired(strips=tuple(strips), left=left)


def _length(row: Numbers) -> float:
    return float(np.hypot(row[2] - row[0], row[3] - row[1]))


def _candidates(lines: Numbers, least: float, most: float) -> list[_Candidate]:
    """Pairs of lines that face one another, nearest first, then the longest."""
    if not len(lines):
        return []
    near = np.stack(near_pairs(line_shapes(lines), most))
    vector = lines[:, 2:] - lines[:, :2]
    unit = vector / np.maximum(np.hypot(vector[:, 0], vector[:, 1]), 1e-9)[:, None]
    cross = unit[near[0], 0] * unit[near[1], 1] - unit[near[0], 1] * unit[near[1], 0]
    near = near[:, np.abs(cross) <= math.sin(PARALLEL)]
    found = [c for i, j in near.T.tolist() if (c := _facing(lines, i, j, least, most))]
    return sorted(
        found,
        key=lambda c: (round(abs(c.offset)), -round(c.span[1] - c.span[0]), c.first, c.second),
    )


def _facing(lines: Numbers, i: int, j: int, least: float, most: float) -> _Candidate | None:
    """The two lines as a candidate, the longer one first; None where they do not face one another."""
    if _length(lines[j]) > _length(lines[i]):
        i, j = j, i
    (a, off_a), (b, off_b) = (_seen(lines[i], p) for p in (lines[j][:2], lines[j][2:]))
    if a > b:
        a, b, off_a, off_b = b, a, off_b, off_a
    offset = (off_a + off_b) / 2
    span = (max(0.0, a), min(_length(lines[i]), b))
    if span[1] <= span[0] or not least <= abs(offset) <= most:
        return None
    if abs(off_a - off_b) > TAPER * abs(offset) + 1.0:
        return None
    return _Candidate(i, j, span, off_a, off_b)


def _seen(row: Numbers, point: Numbers) -> tuple[float, float]:
    """How far along a line, and how far to its left, a point lies."""
    dx, dy = row[2] - row[0], row[3] - row[1]
    size = math.hypot(dx, dy)
    px, py = point[0] - row[0], point[1] - row[1]
    return float((px * dx + py * dy) / size), float((dx * py - dy * px) / size)


def _both_free(lines: Numbers, pair: _Candidate, free: Sequence[list[Span]]) -> list[Span]:
    """Where neither line is a face of something yet, seen along the first line."""
    theirs = [_across(lines, pair, s) for s in free[pair.second]]
    out = []
    for low, high in free[pair.first]:
        for a, b in theirs:
            start, end = max(low, a, pair.span[0]), min(high, b, pair.span[1])
            if end > start:
                out.append((start, end))
    return sorted(out)


def _across(lines: Numbers, pair: _Candidate, span: Span) -> Span:
    """A span of the second line, seen along the first."""
    row = lines[pair.second]
    size = _length(row)
    ends = []
    for reach in span:
        point = row[:2] + (row[2:] - row[:2]) * (reach / size)
        ends.append(_seen(lines[pair.first], point)[0])
    return (min(ends), max(ends))


def _use(lines: Numbers, pair: _Candidate, span: Span, free: list[list[Span]]) -> None:
    """Takes the span out of what is free on both lines."""
    free[pair.first] = _without(free[pair.first], span)
    row = lines[pair.first]
    size = _length(row)
    ends = [
        _seen(lines[pair.second], row[:2] + (row[2:] - row[:2]) * (reach / size))[0]
        for reach in span
    ]
    free[pair.second] = _without(free[pair.second], (min(ends), max(ends)))


def _without(spans: Sequence[Span], taken: Span) -> list[Span]:
    out = []
    for low, high in spans:
        out += [(low, min(high, taken[0])), (max(low, taken[1]), high)]
    return [(low, high) for low, high in out if high - low > 1.0]


def _strip(lines: Numbers, pair: _Candidate, span: Span) -> Strip:
    """The strip between the lines over a span of the first."""
    row = lines[pair.first]
    size = _length(row)
    unit = (row[2:] - row[:2]) / size
    normal = np.asarray([-unit[1], unit[0]])
    low, high = pair.offset_low, pair.offset_high
    width = pair.span[1] - pair.span[0]
    ends: list[Point] = []
    for reach in span:
        share = (reach - pair.span[0]) / width if width else 0.0
        x, y = row[:2] + unit * reach + normal * ((low + (high - low) * share) / 2)
        ends.append((float(x), float(y)))
    return Strip(
        start=ends[0], end=ends[1], thickness=abs(pair.offset), faces=(pair.first, pair.second)
    )
