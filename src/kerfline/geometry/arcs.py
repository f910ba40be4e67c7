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

SAME_CENTRE = 5.0
"""Arcs whose centres agree within this (mm) may be the two sides of one thing."""


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


@dataclass(frozen=True, kw_only=True)
class ArcStrip:
    """What lies between two arcs about one centre: a curved wall, a curved joint former.

    Attributes:
        middle: The arc half-way between.
        thickness: Difference of the radii, mm.
        faces: Indices of the two arcs.
    """

    middle: Arc
    thickness: float
    faces: tuple[int, int]

    @property
    def points(self) -> tuple[Point, ...]:
        """The middle flattened."""
        return ArcRun(arc=self.middle, pieces=()).points


def paired_arcs(
    arcs: Sequence[Arc], least: float, most: float, share: float
) -> tuple[ArcStrip, ...]:
    """Pairs of arcs about one centre, the thinnest strips first; each arc bounds one strip.

    Args:
        arcs: Arcs run anticlockwise.
        least: Thinnest strip, mm.
        most: Thickest strip, mm.
        share: Share of the longer arc's sweep along which the other must face it.
    """
    first, second = near_pairs(spots([a.centre for a in arcs]), SAME_CENTRE)
    found = [
        strip
        for i, j in zip(first.tolist(), second.tolist(), strict=True)
        if (strip := _between(arcs, i, j, share)) and least <= strip.thickness <= most
    ]
    used: set[int] = set()
    kept = []
    for strip in sorted(found, key=lambda s: (round(s.thickness, 3), s.faces)):
        if not used & set(strip.faces):
            used |= set(strip.faces)
            kept.append(strip)
    return tuple(kept)


def _between(arcs: Sequence[Arc], i: int, j: int, share: float) -> ArcStrip | None:
    """The strip between two arcs; None where they do not face one another enough."""
    inner, outer = (arcs[i], arcs[j]) if arcs[i].radius <= arcs[j].radius else (arcs[j], arcs[i])
    turn = (outer.start - inner.start + FULL / 2) % FULL - FULL / 2
    low, high = max(0.0, turn), min(inner.sweep, turn + outer.sweep)
    if high - low < share * max(inner.sweep, outer.sweep):
        return None
    radius = (inner.radius + outer.radius) / 2
    middle = Arc(inner.centre, radius, inner.start + low, high - low)
    return ArcStrip(middle=middle, thickness=outer.radius - inner.radius, faces=(i, j))
