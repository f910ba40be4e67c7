"""The bound of layouts whose joints run through: no joint ends on another in the open floor.

Proof. Take a layout of that kind with the duties D, whose joints run level and upright. An upright joint that is not in D
and crosses a level chord holds all of the upright chord there, from the edge or the joint of D below to that above, for it
ends on nothing else. The places at which such joints cross the level chord are no farther apart than a panel may reach,
nor farther from its ends. So together they are at least as long as the shortest choice of such places. It is found by
steps, many to a reach: a step stands for all places in it, at the length of the shortest upright chord in it; two joints
may follow one another from step to step where some of their places are within the reach. The reach is a whole number of
steps, so that no choice is lost, and none is that asks for a joint less.

Several level chords add up where an upright chord that crosses an earlier one counts there, and for nothing on later ones.

Where a corner stands within ``TOUCH`` of an upright chord, the chord may end at it. Where the joints of a layout keep
clear of the keep-outs, no upright chord through one can be a joint.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from kerfline.engine.bounds.chords import Chords
from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH

STEPS = 48
"""Steps to a reach: 2 1/2 in at a span of 10 ft."""

BESIDE = 2.0 * TOUCH
"""Level chords are tried this close (mm) above and below a corner: there they are longest."""

MOST_CHORDS = 16
"""Level chords that are tried: the longest."""

APART = 0.5
"""Share of a reach by which two of them, one above the other, are apart."""

LARGE = 1500
"""Trapezoids from which nothing is tried: a floor of so many has its bound from its chords."""


@dataclass(frozen=True)
class _Level:
    """A level chord: its height, where it begins and ends, and how far panels may reach along it, mm."""

    height: float
    start: float
    end: float
    limit: float

    @property
    def length(self) -> float:
        """Its length, mm."""
        return self.end - self.start

    @property
    def step(self) -> float:
        """How wide a step along it is, mm."""
        return self.limit / STEPS

    def beside(self, other: "_Level") -> bool:
        """Whether one lies over the other and not far from it."""
        along = min(self.end, other.end) - max(self.start, other.start)
        return along > 0.0 and abs(self.height - other.height) < APART * self.limit


def least_through(
    chords: tuple[Chords, Chords], corners: Numbers, reach: Numbers, keep_outs: BaseGeometry
) -> float:
    """The least length of upright joints that run through, in mm.

    Args:
        chords: The level chords of a figure, and the upright ones (with x for y).
        corners: Where pieces of its boundary and of duties begin and end (n x 2, mm).
        reach: How far a panel may reach along the level chords of each trapezoid, mm.
        keep_outs: Where no joint may be.
    """
    level, upright = chords
    if max(len(level.high), len(upright.high)) >= LARGE:
        return 0.0
    steps = [_Steps.along(c, upright, corners) for c in _longest(level, reach + MEASURE)]
    barred = [own.barred(keep_outs) for own in steps]
    return max(_together(steps, barred), _together(steps[::-1], barred[::-1]))


def _longest(level: Chords, limit: Numbers) -> list[_Level]:
    """The longest level chords beyond how far panels may reach, beside corners and between them, not too near one another."""
    beside = np.minimum(BESIDE / level.high, 0.5)
    found = []
    for share in (beside, np.full_like(beside, 0.5), 1.0 - beside):
        height, start, end = (
            at[:, 0] + share * (at[:, 1] - at[:, 0])
            for at in (level.heights, level.starts, level.ends)
        )
        at = np.column_stack([height, start, end, limit])
        found += [_Level(*own) for own in at[end - start > limit].tolist()]
    out: list[_Level] = []
    for chord in sorted(found, key=lambda c: (round(c.start - c.end), c.height, c.start)):
        if len(out) < MOST_CHORDS and not any(chord.beside(c) for c in out):
            out.append(chord)
    return out


@dataclass(frozen=True)
class _Steps:
    """The upright chords across a level one, step by step, TOUCH beyond both ends of each.

    Attributes:
        chord: The level chord.
        places: Where the upright chords of each trapezoid begin and end in each step (2 x trapezoids x steps, mm).
        below: Where they begin at these places, infinitely low where there are none.
        above: Where they end, infinitely high where there are none.
        costs: The length of the shortest in each step, mm.
    """

    chord: _Level
    places: Numbers
    below: Numbers
    above: Numbers
    costs: Numbers

    @staticmethod
    def along(chord: _Level, upright: Chords, corners: Numbers) -> "_Steps":
        """Those of a level chord."""
        width = chord.step
        count = int(np.ceil(chord.length / width))
        left = chord.start + width * np.arange(count) - TOUCH
        right = left + width + 2.0 * TOUCH
        own = _met_by(chord, upright)
        (first, last), high = own.heights.T[..., None], own.high[:, None]
        places = np.stack(
            [
                np.clip(np.maximum(left, chord.start), first, last),
                np.clip(np.minimum(right, chord.end), first, last),
            ]
        )
        met = (first <= right) & (left <= last)
        share = (places - first) / high
        below, above = (
            at[:, :1] + share * (at[:, 1:] - at[:, :1]) for at in (own.starts, own.ends)
        )
        below, above = np.where(met, below, -np.inf), np.where(met, above, np.inf)
        x, y = corners[:, :1], corners[:, 1:]
        near = (left <= x) & (x <= right)
        over = np.where(near & (y > chord.height), y, np.inf).min(axis=0, initial=np.inf)
        under = np.where(near & (y < chord.height), y, -np.inf).max(axis=0, initial=-np.inf)
        least = np.minimum(over, above.min(axis=(0, 1))) - np.maximum(under, below.max(axis=(0, 1)))
        evenly = (above - below).min(axis=(0, 1))
        costs = np.maximum(np.where(near.any(axis=0), least, evenly), 0.0)
        return _Steps(chord, places, below, above, costs)

    def barred(self, area: BaseGeometry) -> Flags:
        """In which steps every upright chord meets an area where no joint may be."""
        out = np.zeros(len(self.costs), dtype=bool)
        low, high = self.below.max(axis=(0, 1)), self.above.min(axis=(0, 1))
        tall = np.flatnonzero(low < high)
        left = np.maximum(self.chord.start + self.chord.step * tall - TOUCH, self.chord.start)
        right = np.minimum(left + self.chord.step + 2.0 * TOUCH, self.chord.end)
        strips = shapely.box(left, low[tall], right, high[tall])
        parts, strip = shapely.get_parts(shapely.intersection(area, strips), return_index=True)
        x0, _, x1, _ = shapely.bounds(parts).reshape(-1, 4).T
        out[tall[strip[(x0 <= left[strip]) & (right[strip] <= x1)]]] = True
        return out

    def crossing(self, chord: _Level) -> Flags:
        """In which steps some upright chord may cross another level one too."""
        along = (chord.start < self.places[1]) & (self.places[0] < chord.end)
        over = (self.below.min(axis=0) < chord.height) & (chord.height < self.above.max(axis=0))
        return np.asarray((along & over & np.isfinite(self.above[0])).any(axis=0), dtype=bool)


def _met_by(chord: _Level, upright: Chords) -> Chords:
    """The trapezoids of upright chords that a level one runs through."""
    low = np.maximum(upright.heights[:, 0], chord.start)
    high = np.minimum(upright.heights[:, 1], chord.end)
    share = ((low + high) / 2 - upright.heights[:, 0]) / upright.high
    below, above = (
        at[:, 0] + share * (at[:, 1] - at[:, 0]) for at in (upright.starts, upright.ends)
    )
    on = (low < high) & (below < chord.height) & (chord.height < above)
    return Chords(upright.heights[on], upright.starts[on], upright.ends[on])


def _together(steps: Sequence[_Steps], barred: Sequence[Flags]) -> float:
    """What some level chords ask for, each beside those before it."""
    total = 0.0
    used: list[_Level] = []
    for own, shut in zip(steps, barred, strict=True):
        seen = np.zeros(len(own.costs), dtype=bool)
        for chord in used:
            seen |= own.crossing(chord)
        if seen.all():
            continue
        costs = np.where(shut, np.inf, np.where(seen, 0.0, own.costs))
        more = shortest_choice(costs, own.chord.length, own.chord.step)
        if more > 0.0:
            total += more
            used.append(own.chord)
    return total


def shortest_choice(costs: Numbers, length: float, width: float) -> float:
    """The least cost of steps along a chord, one at least in each reach; 0 where there is none.

    Args:
        costs: Of each step.
        length: Of the chord, mm.
        width: Of a step, mm.
    """
    best = np.full(len(costs) + STEPS, np.inf)
    best[:STEPS] = 0.0
    for number, cost in enumerate(costs.tolist()):
        best[number + STEPS] = cost + best[number : number + STEPS].min()
    ends = (np.arange(len(costs)) + 1 + STEPS) * width >= length - SAME
    least = float(best[STEPS:][ends].min(initial=np.inf))
    return least if np.isfinite(least) else 0.0
