"""Straight pieces that lie on one line, brought together: dashes, doubles, pieces left of a cut line."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from kerfline.geometry.arrays import Flags, Indices, Numbers
from kerfline.geometry.chains import MEET, Gap
from kerfline.geometry.near import clusters, lines, near_pairs
from kerfline.geometry.ring import Point

ASKEW = math.radians(2.0)
"""Pieces whose directions differ by more than this are on different lines; the distance decides the rest."""

BENT = 2.0
"""Pieces that lie off the line through them by more than this many times the allowance are not on one line."""


@dataclass(frozen=True, kw_only=True)
class Run:
    """One straight line made of pieces.

    Attributes:
        start: First end in mm.
        end: Other end.
        pieces: Indices of the pieces.
        covered: Length that the pieces cover, each place counted once.
        doubled: Length that more than one piece covers.
        spans: The stretches that are covered, in order; ``MEET`` or more lies between two of them.
    """

    start: Point
    end: Point
    pieces: tuple[int, ...]
    covered: float
    doubled: float
    spans: tuple[tuple[Point, Point], ...]

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The gaps between the spans."""
        return tuple(Gap(a[1], b[0]) for a, b in pairwise(self.spans))

    @property
    def length(self) -> float:
        """From end to end, in mm."""
        return math.dist(self.start, self.end)


def collinear_runs(
    pieces: Numbers,
    gap: float,
    lateral: float = 1.0,
    like: Numbers | None = None,
    like_within: float = 0.0,
) -> list[Run]:
    """Brings straight pieces that follow one another on one line together.

    Args:
        pieces: One row ``x0 y0 x1 y1`` a piece, in mm.
        gap: Pieces this far apart (mm) along the line are still one run.
        lateral: How far (mm) the ends of a piece may lie off the line of a longer one.
        like: A value of each piece, such as a thickness; only pieces of like values are brought together.
        like_within: How far apart like values may be.

    Returns:
        The runs, in the order of their first pieces.
    """
    if not len(pieces):
        return []
    first, second = near_pairs(lines(pieces), gap + MEET)
    keep = _on_one_line(pieces, first, second, lateral, gap)
    if like is not None:
        keep &= np.abs(like[first] - like[second]) <= like_within
    root = np.asarray(clusters(len(pieces), first[keep], second[keep]))
    order = np.argsort(root, kind="stable")
    cuts = np.flatnonzero(np.diff(root[order])) + 1
    groups = np.split(order, cuts)
    runs = [run for group in groups for run in _runs(pieces, group, lateral)]
    return sorted(runs, key=lambda r: r.pieces[0])


def _runs(pieces: Numbers, members: Indices, lateral: float) -> list[Run]:
    """A cluster as one run; where it bends, as the chords of an arc do, each piece by itself."""
    whole, off_line = _run(pieces, members)
    if off_line <= BENT * lateral:
        return [whole]
    return [_run(pieces, members[i : i + 1])[0] for i in range(len(members))]


def _on_one_line(
    pieces: Numbers,
    first: Indices,
    second: Indices,
    lateral: float,
    gap: float,
) -> Flags:
    """For each pair whether the shorter piece lies on the line of the longer one."""
    vector = pieces[:, 2:] - pieces[:, :2]
    length = np.hypot(vector[:, 0], vector[:, 1])
    swap = length[second] > length[first]
    long = np.where(swap, second, first)
    short = np.where(swap, first, second)
    unit = vector[long] / np.maximum(length[long], 1e-9)[:, None]
    normal = np.column_stack([-unit[:, 1], unit[:, 0]])
    start, end = pieces[short, :2] - pieces[long, :2], pieces[short, 2:] - pieces[long, :2]
    off_start, off_end = (start * normal).sum(axis=1), (end * normal).sum(axis=1)
    along = np.abs((vector[short] * unit).sum(axis=1)) / np.maximum(length[short], 1e-9)
    reach_low = np.minimum((start * unit).sum(axis=1), (end * unit).sum(axis=1))
    reach_high = np.maximum((start * unit).sum(axis=1), (end * unit).sum(axis=1))
    near = (reach_low <= length[long] + gap) & (reach_high >= -gap)
    straight = along >= math.cos(ASKEW)
    on_line: Flags = near & straight & (np.maximum(np.abs(off_start), np.abs(off_end)) <= lateral)
    return on_line


def _run(pieces: Numbers, members: Indices) -> tuple[Run, float]:
    """The line through the pieces of a cluster, and how far (mm) a piece lies off it at most."""
    own = pieces[members]
    if len(own) == 1:
        x0, y0, x1, y1 = own[0].tolist()
        length = math.dist((x0, y0), (x1, y1))
        alone = Run(
            start=(x0, y0),
            end=(x1, y1),
            pieces=(int(members[0]),),
            covered=length,
            doubled=0,
            spans=(((x0, y0), (x1, y1)),),
        )
        return alone, 0.0
    origin, unit = _axis(own)
    normal = np.asarray([-unit[1], unit[0]])
    ends = own.reshape(-1, 2) - origin
    along, across = ends @ unit, ends @ normal
    weights = np.repeat(np.hypot(*(own[:, 2:] - own[:, :2]).T), 2)
    offset = float(np.average(across, weights=weights))
    spans = np.sort(along.reshape(-1, 2), axis=1)
    merged, doubled = _merged_spans(spans[np.argsort(spans[:, 0], kind="stable")].tolist())

    def at(share: float) -> Point:
        x, y = origin + unit * share + normal * offset
        return (float(x), float(y))

    run = Run(
        start=at(merged[0][0]),
        end=at(merged[-1][1]),
        pieces=tuple(int(m) for m in members),
        covered=sum(b - a for a, b in merged),
        doubled=doubled,
        spans=tuple((at(a), at(b)) for a, b in merged),
    )
    return run, float(np.abs(across - offset).max())


def _axis(own: Numbers) -> tuple[Numbers, Numbers]:
    """A point on the line through the pieces, and its direction: from one far end to the other."""
    ends = own.reshape(-1, 2)
    vector = own[:, 2:] - own[:, :2]
    longest = vector[np.argmax(np.hypot(vector[:, 0], vector[:, 1]))]
    along = (ends - ends[0]) @ longest
    low, high = ends[np.argmin(along)], ends[np.argmax(along)]
    unit = (high - low) / max(float(np.hypot(*(high - low))), 1e-9)
    return low, unit


def _merged_spans(spans: Sequence[Sequence[float]]) -> tuple[list[tuple[float, float]], float]:
    """Spans sorted by their starts, those that touch or overlap as one; and the length covered twice."""
    merged: list[tuple[float, float]] = []
    doubled = 0.0
    for low, high in spans:
        if merged and low <= merged[-1][1] + MEET:
            doubled += max(0.0, min(high, merged[-1][1]) - low)
            merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
        else:
            merged.append((low, high))
    return merged, doubled
