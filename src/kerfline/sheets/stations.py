"""Which offsets along the two baselines a crew needs: joints first, then corners and openings."""

import statistics
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import LineString, MultiPolygon, Polygon

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import CORNER_TURN
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import ON_BASELINE, Baselines, Way, way_of
from kerfline.units import MM_PER_INCH, Display, in_steps

JOINT, EXTENT, CORNER, OPENING = range(4)
"""Ranks of stations: what is left out last comes first."""

MOST_LEGS = 3
"""A joint of more legs than this is a curve."""

LEAST_LEG = 150.0
"""The leg of a bent joint has a station where it is longer than this (mm)."""

PLACE = 0.75 * MM_PER_INCH
"""Lines nearer than this (mm) are one line to whoever places them: the sideways tolerance of a joint, 3/4 in (ACI
117 table as reproduced in UFGS 03700)."""

Span = tuple[float, float]


@dataclass(frozen=True, order=True)
class Station:
    """An offset along a baseline.

    Attributes:
        offset: In mm from the origin.
        rank: How much it matters; 0 is a joint.
        here: Whether it holds on the baseline alone: where a slanting line ends on it.
        spans: From where to where along the other baseline the things at this offset reach, mm.
    """

    offset: float
    rank: int
    here: bool = False
    spans: tuple[Span, ...] = ()

    def reaches(self, low: float, high: float) -> bool:
        """Whether something at this offset lies between two places along the other baseline."""
        return any(a <= high and b >= low for a, b in self.spans)


def stations(
    slab: Slab,
    layout: Layout,
    base: Baselines,
    region: Polygon | MultiPolygon | None = None,
) -> tuple[list[Station], list[Station]]:
    """Stations along the first and the second baseline, ascending, not yet rounded.

    Things that lie nearer to each other than they can be placed share one station: that of a joint where there is
    one, else that of the line that was meant, the middle of the corners that a survey gives of it.

    Args:
        slab: The slab.
        layout: The joints that are measured.
        base: What offsets are measured from.
        region: The part of the slab that is measured, by its extent alone; None for all of it.
    """
    along, across = _all_stations(slab, layout, base, region)
    return _meant(along), _meant(across)


def departure(slab: Slab, layout: Layout, base: Baselines) -> float:
    """How far (mm) the corners of the outline lie off the lines that are dimensioned for them, at most."""
    worst = 0.0
    for found in _all_stations(slab, layout, base, None):
        kept = [s.offset for s in _meant(found)]
        edges = [s.offset for s in found if s.rank in (EXTENT, CORNER)]
        off = [min(abs(offset - k) for k in kept) for offset in edges]
        worst = max([worst, *off])
    return worst


def _all_stations(
    slab: Slab, layout: Layout, base: Baselines, region: Polygon | MultiPolygon | None
) -> tuple[list[Station], list[Station]]:
    """Every station, those at one place too."""
    along: list[Station] = []
    across: list[Station] = []
    for joint in layout.joints:
        drawn = base.line(joint.path)
        for x, y in _ends_on(drawn, base):
            found, offset, level = (across, y, x) if abs(x) <= ON_BASELINE else (along, x, y)
            found.append(Station(offset, JOINT, here=True, spans=((level, level),)))
        for line in _legs(drawn):
            x0, y0, x1, y1 = line.bounds
            way = way_of(line)
            if way is Way.UPRIGHT:
                along.append(Station((x0 + x1) / 2, JOINT, spans=((y0, y1),)))
            elif way is Way.LEVEL:
                across.append(Station((y0 + y1) / 2, JOINT, spans=((x0, x1),)))
    whole = slab.outline.coordinates if region is None else shapely.get_coordinates(region)
    limits = _far_corners(whole, base)
    for x, y in base.line(whole).coords:
        for limit in limits:
            if abs(x - limit[0]) <= ON_BASELINE:
                along.append(Station(limit[0], EXTENT, spans=((y, y),)))
            if abs(y - limit[1]) <= ON_BASELINE:
                across.append(Station(limit[1], EXTENT, spans=((x, x),)))
    for ring, rank in _rings(slab) if region is None else ():
        for x, y in _corners(ring, base, straight_only=rank == OPENING):
            along.append(Station(x, rank, spans=((y, y),)))
            across.append(Station(y, rank, spans=((x, x),)))
    return along, across


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


def _meant(found: list[Station]) -> list[Station]:
    """One station for each line that was meant, ascending."""
    groups: list[list[Station]] = []
    for s in sorted(found, key=lambda s: s.offset):
        if groups and s.offset - groups[-1][0].offset <= PLACE:
            groups[-1].append(s)
        else:
            groups.append([s])
    return [_one(group) for group in groups]


def _one(group: Sequence[Station]) -> Station:
    """The station that stands for things at nearly the same place."""
    rank = min(s.rank for s in group)
    joints = [s for s in group if s.rank == JOINT]
    through = [s for s in joints if not s.here]
    if any(s.rank == EXTENT and abs(s.offset) <= ON_BASELINE for s in group):
        offset = 0.0
    elif joints:
        offset = max(
            through or joints, key=lambda s: (s.spans[0][1] - s.spans[0][0], -s.offset)
        ).offset
    else:
        offset = statistics.median(s.offset for s in group)
    spans = sorted({span for s in group for span in s.spans})
    return Station(offset, rank, here=all(s.here for s in group), spans=tuple(spans))


def _rings(slab: Slab) -> Iterator[tuple[Ring, int]]:
    yield slab.outline, CORNER
    for opening in slab.openings:
        yield opening, OPENING


def _far_corners(points: Iterable[Point], base: Baselines) -> tuple[Point, Point]:
    """The lower left and the upper right of points, in the baselines' coordinates."""
    x0, y0, x1, y1 = base.line(points).bounds
    return (x0, y0), (x1, y1)


def _corners(ring: Ring, base: Baselines, *, straight_only: bool) -> Iterator[tuple[float, float]]:
    """Corner points of a ring and the ends of its arcs; of an opening with curves only how far it reaches."""
    if ring.has_arcs and straight_only:
        yield from _far_corners(ring.coordinates, base)
        return
    count = len(ring.points)
    for i, point in enumerate(ring.points):
        before, after = ring.points[i - 1], ring.points[(i + 1) % count]
        curved = ring.bulge(i - 1) or ring.bulge(i)
        turn = angle_between(direction(before, point), direction(point, after))
        if curved or turn > CORNER_TURN:
            yield base.local(point)


def thinned(found: list[Station], display: Display, room: int) -> list[Station]:
    """Stations ascending, one for each rounded value, at most ``room`` of them.

    Of stations that round to the same value the one of the best rank stays.
    Where there are too many, first all openings go, then all corners, so that no string shows some of a
    kind and not the others; the two outermost stay.
    """
    by_value: dict[int, Station] = {}
    for s in found:
        key = in_steps(s.offset, display)
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
