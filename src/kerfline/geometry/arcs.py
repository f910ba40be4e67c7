"""Arcs of one circle brought together: pieces, dashes, doubles."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from kerfline.geometry.chains import MEET
from kerfline.geometry.near import clusters, near_pairs, spots
from kerfline.geometry.ring import Arc, Point, chord_count

FULL = 360.0

ROUNDNESS = 1e-3
"""Arcs whose centres and radii differ by less than this share of the radius (and 1 mm) are of one circle."""


@dataclass(frozen=True, kw_only=True)
class ArcRun:
    """One arc made of pieces.

    Attributes:
        arc: The arc, anticlockwise.
        pieces: Indices of the pieces.
        gap: The widest gap (mm along the arc) that was closed; 0 where there was none.
    """

    arc: Arc
    pieces: tuple[int, ...]
    gap: float = 0.0

    @property
    def points(self) -> tuple[Point, ...]:
        """The arc flattened."""
        steps = chord_count(self.arc.radius, self.arc.sweep)
        return tuple(self.arc.at(i / steps) for i in range(steps + 1))


def arc_runs(arcs: Sequence[Arc], gap: float, dash_gap: float = 0.0) -> list[ArcRun]:
    """Brings arcs of one circle together where they touch, overlap or leave small gaps.

    Args:
        arcs: The arcs, run either way.
        gap: Widest gap (mm along the arc) that is closed.
        dash_gap: Widest gap that is closed where the pieces are no longer than twice the gap: dashes.
    """
    groups: dict[int, list[int]] = {}
    for index, root in enumerate(_circles(arcs)):
        groups.setdefault(root, []).append(index)
    return [run for group in groups.values() for run in _merged(arcs, group, gap, dash_gap)]


def _circles(arcs: Sequence[Arc]) -> list[int]:
    """For each arc the first one on the same circle."""
    if not arcs:
        return []
    radii = np.asarray([a.radius for a in arcs])
    reach = 1.0 + ROUNDNESS * float(radii.max())
    first, second = near_pairs(spots([a.centre for a in arcs]), reach)
    centres = np.asarray([a.centre for a in arcs])
    slack = 1.0 + ROUNDNESS * np.minimum(radii[first], radii[second])
    apart = np.hypot(*(centres[first] - centres[second]).T)
    same = (apart <= slack) & (np.abs(radii[first] - radii[second]) <= slack)
    return clusters(len(arcs), first[same], second[same])


def _merged(arcs: Sequence[Arc], group: Sequence[int], gap: float, dash_gap: float) -> list[ArcRun]:
    """The runs on one circle, anticlockwise."""
    longest = max(group, key=lambda i: (abs(arcs[i].sweep), -i))
    centre, radius = arcs[longest].centre, arcs[longest].radius
    widest = math.degrees(max(gap, MEET, _dashed(arcs, group, dash_gap)) / radius)
    runs: list[_Span] = []
    for span in sorted((_span(arcs[i], i) for i in group), key=lambda s: (s.low, s.high)):
        if runs and span.low <= runs[-1].high + widest:
            runs[-1] = runs[-1].with_next(span)
        else:
            runs.append(span)
    if len(runs) > 1 and runs[-1].high - FULL >= runs[0].low - widest:
        first = runs.pop(0)
        runs[-1] = runs[-1].with_next(first.turned(FULL))
    return [run.on(centre, radius) for run in runs]


@dataclass(frozen=True)
class _Span:
    """A stretch of a circle in degrees anticlockwise, the pieces on it and the widest gap between them."""

    low: float
    high: float
    pieces: tuple[int, ...]
    gap: float = 0.0

    def with_next(self, other: "_Span") -> "_Span":
        """Together with one that starts no earlier."""
        gap = max(self.gap, other.gap, other.low - self.high)
        return _Span(self.low, max(self.high, other.high), (*self.pieces, *other.pieces), gap)

    def turned(self, by: float) -> "_Span":
        return _Span(self.low + by, self.high + by, self.pieces, self.gap)

    def on(self, centre: Point, radius: float) -> ArcRun:
        """The run on a circle."""
        arc = Arc(centre, radius, self.low, min(self.high - self.low, FULL))
        return ArcRun(
            arc=arc, pieces=tuple(sorted(set(self.pieces))), gap=math.radians(self.gap) * radius
        )


def _span(arc: Arc, index: int) -> _Span:
    """An arc's stretch, its start from 0 to 360 degrees."""
    low = (arc.start if arc.sweep > 0 else arc.start + arc.sweep) % FULL
    return _Span(low, low + abs(arc.sweep), (index,))


def _dashed(arcs: Sequence[Arc], group: Sequence[int], dash_gap: float) -> float:
    """The widest gap between dashes on this circle; 0 where the pieces are too long or too few."""
    lengths = sorted(math.radians(abs(arcs[i].sweep)) * arcs[i].radius for i in group)
    few = 3
    if len(lengths) < few:
        return 0.0
    return min(dash_gap, 2 * lengths[len(lengths) // 2])
