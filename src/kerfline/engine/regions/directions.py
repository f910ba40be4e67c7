"""Main directions of a piece, by its edges and walls."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.faces import rings_of

QUARTER = 90.0

SPREAD = 3.0
"""Edges within this angle (degrees) of a direction belong to it: surveyed outlines are noisy."""

SHORT = 300.0
"""Edges shorter than this (mm) say nothing about directions."""


ALIKE = 0.03
"""Pieces whose directions differ by no more than this (degrees; 5 mm in 10 m) were drawn along one."""

MOST = 0.5
"""The direction that was drawn is that of this share of the length around it."""

DIGITS = 8
"""Directions are told to this many digits of a degree: the last bits differ from one processor to the next, and all
places in a frame follow from its direction."""

LESSER = 1e-5
"""Shares that differ by less may be told as equal."""

CHORD_TURN = (0.2, 12.0)
"""An edge that turns by this much (degrees) at both ends is a chord of an arc: it has no direction."""


@dataclass(frozen=True, slots=True)
class Direction:
    """A main direction.

    Attributes:
        angle: Degrees, 0 <= angle < 90.
        share: Share of the counted length that runs along it or square to it.
    """

    angle: float
    share: float


def main_directions(concrete: Polygon, lines: Iterable[LineString] = ()) -> tuple[Direction, ...]:
    """Directions by falling share.

    Args:
        concrete: Its edges count.
        lines: Walls and given joints, which count too.
    """
    found = _directions(*segments([*rings_of(concrete), *lines]))
    return tuple(sorted(found, key=_order))


def heaviest_direction(angles: Numbers, lengths: Numbers) -> Direction:
    """The direction of the greatest share: the first of all, for which the others need not all be known.

    Args:
        angles: Of straight pieces, modulo 90 degrees.
        lengths: Of the same.
    """
    best = None
    left = 1.0
    for found in _directions(angles, lengths):
        best = found if best is None else min(best, found, key=_order)
        left -= found.share
        if left < best.share - LESSER:
            break
    return best or Direction(0.0, 1.0)


def _order(found: Direction) -> tuple[float, float]:
    return (-round(found.share, 6), found.angle)


def _directions(angles: Numbers, lengths: Numbers) -> Iterator[Direction]:
    """The directions one after another, each from the pieces that those before it leave."""
    if not lengths.size:
        yield Direction(0.0, 1.0)
    total = float(lengths.sum())
    while lengths.sum() > total / 1000:
        angle, members = _heaviest(angles, lengths)
        yield Direction(angle, float(lengths[members].sum()) / total)
        angles, lengths = angles[~members], lengths[~members]


def segments(
    shapes: Sequence[shapely.Geometry],
) -> tuple[Numbers, Numbers]:
    """Angle modulo 90 degrees and length of every straight piece that says something."""
    steps = np.vstack([_straights(shapely.get_coordinates(s)) for s in shapes])
    if not len(steps):
        return np.zeros(0), np.zeros(0)
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    angles = np.degrees(np.arctan2(steps[:, 1], steps[:, 0])) % QUARTER
    firm = lengths >= min(SHORT, float(lengths.max()) / 2)
    return angles[firm], lengths[firm]


def _straights(points: Numbers) -> Numbers:
    """Steps of a line or ring, those left out that are chords of an arc."""
    steps = np.diff(points, axis=0)
    ways = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    closed = bool(np.allclose(points[0], points[-1]))
    turns = np.abs((np.diff(ways, prepend=ways[-1] if closed else np.nan) + 180.0) % 360.0 - 180.0)
    soft = (turns > CHORD_TURN[0]) & (turns < CHORD_TURN[1])
    after = np.roll(soft, -1) if closed else np.append(soft[1:], False)
    chords: Flags = soft & after
    return steps[~chords]


def _heaviest(
    angles: Numbers,
    lengths: Numbers,
) -> tuple[float, Flags]:
    """The direction with most length around it, and which pieces belong to it."""
    apart = misfits(angles[:, None], angles[None, :])
    weight = (np.clip(1 - apart / (2 * SPREAD), 0, None) * lengths).sum(axis=1)
    peak = angles[int(np.argmax(np.round(weight, 3)))]
    members = misfits(angles, peak) <= SPREAD
    return _common(angles[members], lengths[members]), members


def _common(angles: Numbers, lengths: Numbers) -> float:
    """The direction that most of the length has in common, as drawn; the mean where a survey knows none."""
    alike = misfits(angles[:, None], angles[None, :]) <= ALIKE
    shared = np.round(alike @ lengths, 3)
    most = int(np.argmax(shared))
    if shared[most] < MOST * lengths.sum():
        return _mean(angles, lengths)
    return _mean(angles[alike[most]], lengths[alike[most]])


def _mean(
    angles: Numbers,
    lengths: Numbers,
) -> float:
    """The mean direction by length, on the circle of 90 degrees."""
    turn = np.exp(4j * np.radians(angles))
    mean = math.degrees(float(np.angle((turn * lengths).sum()))) / 4
    return round(mean, DIGITS) % QUARTER


def misfits(angles: Numbers | float, directions: Numbers | float) -> Numbers:
    """Angles in degrees between lines and the nearer axes of frames, 0 to 45."""
    gap = np.abs(np.subtract(angles, directions)) % QUARTER
    return np.minimum(gap, QUARTER - gap)


def misfit(angle: float, direction: float) -> float:
    """The same of one line and one frame."""
    return float(misfits(angle, direction))
