"""Stretches of the slab's edge as a side of the plan sees them, which dimension strings stand beside.

A side looks square into the plan. What it sees first is the slab's edge; where the edge jumps back, as in the notch
of an L, a new stretch begins, which has a string of its own in the empty paper before it.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import polygons_of
from kerfline.sheets.marks import Bounds

FLAT = 0.04
"""Rise over run up to which the edge lies along the side: a survey's noise, no slope."""

STEP = 0.4
"""Less than this is no step of the edge, mm of paper."""

HAIR = 1e-6
"""Less than this is no length on paper, mm."""

SQUARE = 0.01
"""An edge that runs along the side by less than this (mm of paper) is square to it: a part that was turned has such."""

SMOOTH = 0.05
"""The edge is seen to within this, mm of paper."""

NEAR = 0.75
"""A line this near the edge (mm of paper) ends on it."""

LEAST_STRETCH = 4.0
"""A stretch shorter than this (mm of paper) has no string of its own."""


@dataclass(frozen=True)
class Side:
    """A side of the plan in its own coordinates: ``along`` the side and ``out`` from it.

    Attributes:
        level: Place of the side across its direction, mm of paper.
        upright: True for the left and right sides.
        sign: +1 where outward is up or right, -1 where it is down or left.
    """

    level: float
    upright: bool
    sign: int

    def at(self, along: float, out: float) -> tuple[float, float]:
        """A point on the paper."""
        across = self.level + self.sign * out
        return (across, along) if self.upright else (along, across)

    def inward(self, out: float) -> "Side":
        """The same side moved into the plan by so many mm."""
        return Side(self.level - self.sign * out, self.upright, self.sign)


@dataclass(frozen=True)
class Stretch:
    """A stretch of the slab's edge that one string stands beside.

    Attributes:
        low: Where it begins along the side, mm of paper.
        high: Where it ends.
        depth: How far behind the side its outermost point lies, mm of paper.
        pieces: Its edge as pieces: start and end along the side, and the depth at each.
        walled: Whether concrete stands further out just beside its start and its end.
        smooth: Whether the edge goes on beyond its start and its end without a corner.
    """

    low: float
    high: float
    depth: float
    pieces: tuple[tuple[float, float, float, float], ...]
    walled: tuple[bool, bool] = (False, False)
    smooth: tuple[bool, bool] = (False, False)

    def depths_at(self, along: float) -> list[float]:
        """How deep the edge lies at a place: two depths where it steps there; none outside the stretch."""
        found = []
        for a, b, start, end in self.pieces:
            if a - NEAR <= along <= b + NEAR:
                share = min(max((along - a) / (b - a), 0.0), 1.0)
                found.append(start + share * (end - start))
        return found

    def joined(self, other: "Stretch") -> "Stretch":
        """Two neighbours as one, seen from the outer of both."""
        return Stretch(
            low=self.low,
            high=other.high,
            depth=min(self.depth, other.depth),
            pieces=self.pieces + other.pieces,
        )


def stretches(
    slab: Polygon | MultiPolygon, bounds: Bounds, side: Side, need: float
) -> list[Stretch]:
    """What a side sees of the slab, from its low end to its high end.

    Args:
        slab: The shown part of the slab, mm of paper.
        bounds: Its bounds, from which depths are measured.
        side: The side.
        need: Room in mm that a string takes: a stretch that steps back by less has none of its own.
    """
    pieces = _pieces(slab, bounds, side)
    if not pieces:
        return []
    found = _gathered(pieces)
    found = _joined_slopes(found)
    found = _joined_steps(found, need)
    return [_walled(found, i) for i in range(len(found))]


def _pieces(
    slab: Polygon | MultiPolygon, bounds: Bounds, side: Side
) -> list[tuple[float, float, float, float]]:
    """The nearest edge between each two corners: start, end, depth at the start, depth at the end."""
    starts, ends = _edges(slab, bounds, side)
    if not len(starts):
        return []
    places = np.unique(np.round(np.concatenate([starts[:, 0], ends[:, 0]]), 6))
    out: list[tuple[float, float, float, float]] = []
    for a, b in itertools.pairwise(places):
        if b - a <= HAIR:
            continue
        over = (starts[:, 0] <= a + HAIR) & (ends[:, 0] >= b - HAIR)
        if not over.any():
            continue
        first, last = starts[over], ends[over]
        slope = (last[:, 1] - first[:, 1]) / (last[:, 0] - first[:, 0])
        middle = first[:, 1] + slope * ((a + b) / 2 - first[:, 0])
        k = int(np.argmin(middle))
        half = slope[k] * (b - a) / 2
        out.append((float(a), float(b), float(middle[k] - half), float(middle[k] + half)))
    return out


def _edges(slab: Polygon | MultiPolygon, bounds: Bounds, side: Side) -> tuple[Numbers, Numbers]:
    """Edges that are not square to the side, each from its lower end: place along the side and depth."""
    starts, ends = [], []
    x0, y0, x1, y1 = bounds
    low, high = (x0, x1) if side.upright else (y0, y1)
    for part in polygons_of(slab.simplify(SMOOTH)):
        points = shapely.get_coordinates(part.exterior)
        along = points[:, 1] if side.upright else points[:, 0]
        across = points[:, 0] if side.upright else points[:, 1]
        depth = high - across if side.sign > 0 else across - low
        seen = np.column_stack([along, depth])
        a, b = seen[:-1], seen[1:]
        backward = (a[:, 0] > b[:, 0])[:, None]
        first, last = np.where(backward, b, a), np.where(backward, a, b)
        wide = last[:, 0] - first[:, 0] > SQUARE
        starts.append(first[wide])
        ends.append(last[wide])
    none = np.empty((0, 2))
    return np.concatenate([none, *starts]), np.concatenate([none, *ends])


def _gathered(pieces: Sequence[tuple[float, float, float, float]]) -> list[Stretch]:
    """Pieces that follow on one another without a step, flat ones apart from sloping ones."""
    found: list[Stretch] = []
    for piece in pieces:
        a, b, start, end = piece
        one = Stretch(low=a, high=b, depth=min(start, end), pieces=(piece,))
        if found:
            _, last_end, _, last = found[-1].pieces[-1]
            level = abs(last - start) <= STEP and abs(last_end - a) <= SMOOTH
            if level and _flat(found[-1]) == _flat(one):
                found[-1] = found[-1].joined(one)
                continue
        found.append(one)
    return found


def _flat(one: Stretch) -> bool:
    return all(abs(end - start) <= FLAT * (b - a) + HAIR for a, b, start, end in one.pieces)


def _joined_slopes(found: Sequence[Stretch]) -> list[Stretch]:
    """Sloping and round stretches joined to a flat neighbour that runs on from them further out."""
    out: list[Stretch] = []
    for one in found:
        last = out[-1] if out else None
        if last and _runs_on(last, one) and _flat(last) != _flat(one):
            outer = last if _flat(last) else one
            inner = one if outer is last else last
            if outer.depth <= inner.depth + STEP:
                out[-1] = last.joined(one)
                continue
        out.append(one)
    return out


def _runs_on(last: Stretch, one: Stretch) -> bool:
    return abs(last.pieces[-1][3] - one.pieces[0][2]) <= STEP


def _goes_on(last: Stretch, one: Stretch) -> bool:
    """Whether the edge goes on from one to the next, and not by a step that a survey left a little aslant."""
    return _runs_on(last, one) and not (_steep(last.pieces[-1]) or _steep(one.pieces[0]))


def _steep(piece: tuple[float, float, float, float]) -> bool:
    """Whether an edge is square to the side but for a survey's noise."""
    a, b, start, end = piece
    return b - a <= FLAT * abs(end - start)


def _joined_steps(found: list[Stretch], need: float) -> list[Stretch]:
    """Stretches that step back by too little for a string, or are too short for one, joined to the outer one."""
    out = list(found)
    while len(out) > 1:
        pairs = [
            (abs(a.depth - b.depth), i)
            for i, (a, b) in enumerate(itertools.pairwise(out))
            if abs(a.depth - b.depth) < need or min(a.high - a.low, b.high - b.low) < LEAST_STRETCH
        ]
        if not pairs:
            break
        _, i = min(pairs)
        out[i : i + 2] = [out[i].joined(out[i + 1])]
    return out


def _walled(found: Sequence[Stretch], i: int) -> Stretch:
    one = found[i]
    before = i > 0 and found[i - 1].depth < one.depth
    after = i + 1 < len(found) and found[i + 1].depth < one.depth
    start = i > 0 and _goes_on(found[i - 1], one)
    end = i + 1 < len(found) and _goes_on(one, found[i + 1])
    walled, smooth = (before and not start, after and not end), (start, end)
    return Stretch(one.low, one.high, one.depth, one.pieces, walled, smooth)
