"""Which offsets along the two baselines a crew needs: joints first, then corners and openings."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import LineString, MultiPolygon, Polygon

from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import SAME
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import ON_BASELINE, Baselines, Way, way_of

JOINT, EXTENT, CORNER, OPENING = range(4)
"""Ranks of stations: what is left out last comes first."""

MOST_LEGS = 3
"""A joint of more legs than this is a curve."""

LEAST_LEG = 150.0
"""The leg of a bent joint has a station where it is longer than this (mm)."""


@dataclass(frozen=True, order=True)
class Station:
    """An offset along a baseline.

    Attributes:
        offset: In mm from the origin.
        rank: How much it matters; 0 is a joint.
        here: Whether it holds on the baseline alone: where a slanting line ends on it.
    """

    offset: float
    rank: int
    here: bool = False


def stations(
    slab: Slab,
    layout: Layout,
    base: Baselines,
    region: Polygon | MultiPolygon | None = None,
) -> tuple[list[Station], list[Station]]:
    """Stations along the first and the second baseline, ascending, not yet rounded.

    Args:
        slab: The slab.
        layout: The joints that are measured.
        base: What offsets are measured from.
        region: The part of the slab that is measured, by its extent alone; None for all of it.
    """
    along: list[Station] = []
    across: list[Station] = []
    for joint in layout.joints:
        drawn = base.line(joint.path)
        for x, y in _ends_on(drawn, base):
            found, offset = (across, y) if abs(x) <= ON_BASELINE else (along, x)
            found.append(Station(offset, JOINT, here=True))
        for line in _legs(drawn):
            x0, y0, x1, y1 = line.bounds
            way = way_of(line)
            if way is Way.UPRIGHT:
                along.append(Station((x0 + x1) / 2, JOINT))
            elif way is Way.LEVEL:
                across.append(Station((y0 + y1) / 2, JOINT))
    whole = slab.outline.coordinates if region is None else shapely.get_coordinates(region)
    for x, y in _far_corners(whole, base):
        along.append(Station(x, EXTENT))
        across.append(Station(y, EXTENT))
    for ring, rank in _rings(slab) if region is None else ():
        for x, y in _corners(ring, base, straight_only=rank == OPENING):
            along.append(Station(x, rank))
            across.append(Station(y, rank))
    return _distinct(along), _distinct(across)


def _ends_on(line: LineString, base: Baselines) -> list[Point]:
    """The ends of a slanting line on a baseline, where corner A is a corner of the slab."""
    if not base.corner or way_of(line) is not Way.SLANTING:
        return []
    ends = [(float(x), float(y)) for x, y in (line.coords[0], line.coords[-1])]
    return [end for end in ends if min(map(abs, end)) <= ON_BASELINE]


def _legs(line: LineString) -> list[LineString]:
    """A line that is square as a whole, else its legs that are long enough to measure; none of a curve."""
    if way_of(line) is not Way.SLANTING:
        return [line]
    if len(line.coords) > MOST_LEGS + 1:
        return []
    legs = (LineString(leg) for leg in pairwise(line.coords))
    return [leg for leg in legs if leg.length > LEAST_LEG]


def _distinct(found: list[Station]) -> list[Station]:
    """One station for each place to a hundredth of a millimetre, the one of the best rank."""
    best: dict[int, Station] = {}
    for s in sorted(found, key=lambda s: (s.rank, s.here)):
        best.setdefault(round(s.offset / SAME), s)
    return [best[k] for k in sorted(best)]


def _rings(slab: Slab) -> Iterator[tuple[Ring, int]]:
    yield slab.outline, CORNER
    for opening in slab.openings:
        yield opening, OPENING


def _far_corners(points: Iterable[Point], base: Baselines) -> tuple[Point, Point]:
    """The lower left and the upper right of points, in the baselines' coordinates."""
    x0, y0, x1, y1 = base.line(points).bounds
    return (x0, y0), (x1, y1)


def _corners(ring: Ring, base: Baselines, *, straight_only: bool) -> Iterator[tuple[float, float]]:
    """Corner points of a ring; of an opening with curves only how far it reaches."""
    if ring.has_arcs and straight_only:
        yield from _far_corners(ring.coordinates, base)
        return
    for point in ring.points:
        yield base.local(point)


def thinned(found: list[Station], step: float, room: int) -> list[Station]:
    """Stations ascending, one for each rounded value, at most ``room`` of them.

    Of stations that round to the same value the one of the best rank stays.
    Where there are too many, first all openings go, then all corners, so that no string shows some of a
    kind and not the others; the two outermost stay.
    """
    by_value: dict[int, Station] = {}
    for s in found:
        key = round(s.offset / step)
        old = by_value.get(key)
        by_value[key] = s if old is None or (s.rank, s.here) < (old.rank, old.here) else old
    ordered = [by_value[k] for k in sorted(by_value)]
    for rank in (OPENING, CORNER):
        if len(ordered) > room:
            ordered = [s for s in ordered if s.rank < rank]
    if len(ordered) <= room:
        return ordered
    ends = {0, len(ordered) - 1}
    keep = sorted(range(len(ordered)), key=lambda i: (i not in ends, ordered[i].rank, i))
    return [ordered[i] for i in sorted(keep[:room])]
