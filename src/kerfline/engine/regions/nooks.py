"""Bites out of a slab's edge that are smaller than a panel may be, such as the recess round a pilaster.

No rectangular panel can stand between joints from both corners of one: it would be narrower than the least width. On
a grid such a bite is filled, as a column's boxout is, and asks for one joint, from one of its corners; bars lie across
the others. A bite out of the slab's own corner asks for none, which would cut off a strip along the edge.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import shapely
from shapely import Polygon
from shapely.geometry.polygon import orient

from kerfline.engine.regions.region import MERGE, Nook, Region, along_axis
from kerfline.geometry.corners import direction, reentrant_corners
from kerfline.geometry.faces import SLIVER, points_of, polygons_of, rings_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE

LEAST_OF_A_FIGURE = 3
"""Points that a figure has at least."""

Side = tuple[Point, Point]
"""A straight side of a ring."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A stretch of edge that is smaller than a panel may be, between two longer sides; the concrete is on its left.

    Attributes:
        before: The side before.
        points: From the end of that to where the side after begins.
        after: The side after.
    """

    before: Side
    points: tuple[Point, ...]
    after: Side

    @property
    def axis(self) -> int | None:
        """The axis whose lines both sides run along in one line, as the grid has it; None where they do not."""
        axis, way = along_axis(*self.before), along_axis(*self.after)
        if axis is None or axis != way or not self._goes_on():
            return None
        return axis if abs(self.points[0][axis] - self.points[-1][axis]) <= MERGE else None

    def _goes_on(self) -> bool:
        """Whether the side after runs on the way of the side before, not back."""
        (dx, dy), (ex, ey) = direction(*self.before), direction(*self.after)
        return dx * ex + dy * ey > 0.0

    @property
    def corner(self) -> Point | None:
        """Where sides along different axes would meet in a corner of the slab; None for others."""
        axes = along_axis(*self.before), along_axis(*self.after)
        (dx, dy), (ex, ey) = direction(*self.before), direction(*self.after)
        if None in axes or axes[0] == axes[1] or dx * ey - dy * ex < 0.0:
            return None
        (x, y), (u, v) = self.points[0], self.points[-1]
        far = ((u - x) * ey - (v - y) * ex) / (dx * ey - dy * ex)
        return (x + far * dx, y + far * dy)


def without_nooks(region: Region) -> Region:
    """The region with its small bites filled in ``gross``, and told as ``nooks`` where they ask for a joint."""
    corners = frozenset(c.at for c in reentrant_corners(region.gross))
    bites: list[Polygon] = []
    nooks: list[Nook] = []
    for stretch in _small_stretches(region):
        inner = [at for at in stretch.points if at in corners]
        bite = _bite(region, stretch) if inner else None
        if bite is None:
            continue
        bites.append(bite)
        if stretch.axis is not None:
            nooks.append(_nook(stretch, stretch.axis, inner))
    if not bites:
        return region
    whole = max(polygons_of(shapely.union_all([region.gross, *bites])), key=lambda p: p.area)
    return replace(region, gross=whole, nooks=(*region.nooks, *nooks))


def _small_stretches(region: Region) -> Iterator[_Stretch]:
    least = region.working.width - MEASURE
    for ring in rings_of(orient(region.gross)):
        sides = list(pairwise(points_of(ring)))
        long = [n for n, side in enumerate(sides) if math.dist(*side) >= least]
        for first, last in zip(long, [*long[1:], *long[:1]], strict=True):
            stop = last if last > first else last + len(sides)
            ends = [sides[n % len(sides)][1] for n in range(first, stop)]
            x0, y0, x1, y1 = shapely.MultiPoint(ends).bounds
            if max(x1 - x0, y1 - y0) < least:
                yield _Stretch(sides[first], tuple(ends), sides[last])


def _bite(region: Region, stretch: _Stretch) -> Polygon | None:
    """What is lacking between a stretch of edge and its sides drawn on; None where none or more than that is."""
    corner = stretch.corner
    rim = stretch.points if corner is None else (*stretch.points, corner)
    if (corner is None and stretch.axis is None) or len(rim) < LEAST_OF_A_FIGURE:
        return None
    bite = Polygon(rim)
    lacks = bite.is_valid and bite.intersection(region.gross).area <= SLIVER
    return bite if lacks else None


def _nook(stretch: _Stretch, axis: int, corners: Sequence[Point]) -> Nook:
    places = [at[1 - axis] for at in corners]
    level = (stretch.points[0][axis] + stretch.points[-1][axis]) / 2
    return Nook(axis=1 - axis, low=min(places), high=max(places), level=level)
