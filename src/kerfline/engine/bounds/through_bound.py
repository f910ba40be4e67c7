"""The bound of layouts whose joints run through: no joint ends on another in the open floor.

Duties are as in the chord bound of any slab (``sweep_bound``), and joints run along two directions, here level and upright.

Proof. Take a layout of that kind with the duties D. An upright joint that is not in D and crosses a level chord holds all
of the upright chord there, from the edge or the joint of D below to that above, for it ends on nothing else. The places
at which such joints cross the level chord are no farther apart than a panel may reach, nor farther from its ends. So
together they are at least as long as the shortest choice of such places. It is found by steps, many to a reach: a step
stands for all places in it, its left end left out and its right one not, at the length of the shortest upright chord in
it; two joints may follow one another from step to step where some of their places are within the reach. The reach is a
whole number of steps, so that no choice is lost, and none is that asks for a joint less.

Several level chords add up where an upright chord that crosses an earlier one counts there, and for nothing on later ones.

Where a corner stands within ``TOUCH`` of an upright chord, the chord may end at it. Where the joints of a layout keep
clear of the keep-outs, no upright chord through one can be a joint.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.bounds.crossing import Reach
from kerfline.engine.bounds.uprights import LevelChord, Uprights, level_chords, uprights_on
from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH

STEPS = 48
"""Steps to a reach: 2 1/2 in at a span of 10 ft."""

BESIDE = 2.0 * TOUCH
"""Level chords are tried this close (mm) above and below a corner: there they are longest."""

MOST_CHORDS = 16
"""Level chords that are tried: the longest."""

MOST_HEIGHTS = 64
"""Corners closer than the height of a figure by this follow one another closely."""

APART = 0.5
"""Share of a reach by which two of them, one above the other, are apart."""

LARGE = 1500
"""Pieces of edge and of duties from which nothing is tried: a floor of so many has its bound from its chords."""


def shortest_choice(places: Numbers, lengths: Numbers, at_places: Numbers, reach: float) -> float:
    """The least length of uprights across a level chord no farther apart than the reach; none where none fit.

    Args:
        places: The ends of the chord and the places between, mm.
        lengths: Of the upright at the left and at the right end of each stretch, mm; infinite where none may be.
        at_places: Of that at each inner place.
        reach: How far apart two of them may be, or one from an end, mm.
    """
    whole = float(places[-1] - places[0])
    if whole <= reach:
        return 0.0
    step = reach / STEPS
    costs = _costs(places, lengths, at_places, step)
    best = np.full(len(costs) + STEPS, np.inf)
    best[:STEPS] = 0.0
    for number, cost in enumerate(costs.tolist()):
        before = best[number : number + STEPS].min() if number >= STEPS else 0.0
        best[number + STEPS] = cost + before
    last = [
        best[number + STEPS]
        for number in range(len(costs))
        if (number + 1 + STEPS) * step >= whole - SAME
    ]
    least = float(min(last, default=np.inf))
    return least if np.isfinite(least) else 0.0


def _costs(places: Numbers, lengths: Numbers, at_places: Numbers, step: float) -> Numbers:
    """For each step along a level chord the shortest upright in it, mm."""
    start, end = places[0], places[-1]
    left = start + step * np.arange(int(np.ceil((end - start) / step)))
    low = np.maximum(places[:-1, None], left - TOUCH)
    high = np.minimum(places[1:, None], left + step + TOUCH)
    wide = (places[1:] - places[:-1])[:, None]
    with np.errstate(invalid="ignore"):
        slope = (lengths[:, 1:] - lengths[:, :1]) / wide
        values = [lengths[:, :1] + slope * (at - places[:-1, None]) for at in (low, high)]
    barred = np.isinf(lengths).any(axis=1, keepdims=True)
    own = np.where((high >= low) & ~barred, np.minimum(*values), np.inf).min(axis=0)
    inner = places[1:-1, None]
    met = (inner >= left - TOUCH) & (inner <= left + step + TOUCH)
    corners = np.where(met, at_places[:, None], np.inf).min(axis=0, initial=np.inf)
    return np.asarray(np.minimum(own, corners))


def least_through(
    pieces: Numbers, figure: Area, reach: Reach, keep_outs: Sequence[BaseGeometry] = ()
) -> float:
    """The least length of upright joints that run through, in mm.

    Args:
        pieces: Pieces of line (n x 2 x 2, mm) at which chords end, the boundary of the figure among them; they meet
            at their ends alone.
        figure: The figure.
        reach: How far a panel may reach along a level chord.
        keep_outs: Where no joint may be.
    """
    if len(pieces) >= LARGE:
        return 0.0
    shapely.prepare(figure)
    chords = _longest(pieces, figure, reach)
    if not chords:
        return 0.0
    limits = reach(np.stack([chord.ends for chord in chords])) + MEASURE
    barred = shapely.union_all([area.buffer(-TOUCH) for area in keep_outs])
    more = _changes(barred, pieces)
    views = [uprights_on(chord, pieces, more) for chord in chords]
    found = [
        _Crossed(c, v, float(r), _barred(v, barred))
        for c, v, r in zip(chords, views, limits, strict=True)
    ]
    return max(_together(found), _together(found[::-1]))


@dataclass(frozen=True)
class _Crossed:
    chord: LevelChord
    uprights: Uprights
    reach: float
    barred: Flags


def _changes(barred: BaseGeometry, pieces: Numbers) -> Numbers:
    """The places where uprights begin or cease to meet an area, mm."""
    if barred.is_empty:
        return np.zeros(0)
    rim = barred.boundary
    met = shapely.intersection(rim, shapely.multilinestrings(pieces))
    return np.concatenate([shapely.get_coordinates(x)[:, 0] for x in (rim, met)])


def _barred(uprights: Uprights, area: BaseGeometry) -> Flags:
    """On which stretches the uprights meet an area where no joint may be."""
    if area.is_empty:
        return np.zeros(len(uprights.places) - 1, dtype=bool)
    middle = (uprights.places[:-1] + uprights.places[1:]) / 2
    below, above = uprights.below.mean(axis=1), uprights.above.mean(axis=1)
    lines = shapely.linestrings(
        np.stack([np.stack([middle, below], 1), np.stack([middle, above], 1)], 1)
    )
    return np.asarray(shapely.intersects(area, lines), dtype=bool)


def _together(crossed: Sequence[_Crossed]) -> float:
    """What some level chords ask for, each beside those before it."""
    total = 0.0
    used: list[LevelChord] = []
    for one in crossed:
        own = one.uprights
        seen = np.zeros(len(own.places) - 1, dtype=bool)
        for chord in used:
            seen |= own.crossing(chord)
        if seen.all():
            continue
        lengths = np.where(seen[:, None], 0.0, own.lengths)
        lengths[one.barred] = np.inf
        inner = np.where(one.barred[:-1] & one.barred[1:], np.inf, own.at_places)
        more = shortest_choice(own.places, lengths, inner, one.reach)
        if more > 0.0:
            total += more
            used.append(one.chord)
    return total


def _heights(corners: Sequence[float]) -> list[float]:
    """Heights beside corners and between them; of corners that follow one another closely, as on an arc, a few."""
    close = (corners[-1] - corners[0]) / MOST_HEIGHTS
    out: list[float] = []
    for low, high in pairwise(corners):
        middle = (low + high) / 2
        if high - low > close:
            out += [low + BESIDE, middle, high - BESIDE]
        elif high - low > 2.0 * BESIDE and (not out or middle > out[-1] + close):
            out.append(middle)
    return out


def _longest(pieces: Numbers, figure: Area, reach: Reach) -> list[LevelChord]:
    """The longest level chords beyond a reach, beside corners and between them, not too near one another."""
    tried = _heights(np.unique(pieces[:, :, 1]).tolist())
    found = [chord for height in tried for chord in level_chords(pieces, figure, height)]
    if not found:
        return []
    limits = reach(np.stack([chord.ends for chord in found])).tolist()
    long = [(c, r) for c, r in zip(found, limits, strict=True) if c.length > r]
    out: list[LevelChord] = []
    for chord, limit in sorted(long, key=lambda x: (-round(x[0].length), x[0].height, x[0].start)):
        if len(out) < MOST_CHORDS and not any(chord.beside(c, APART * limit) for c in out):
            out.append(chord)
    return out
