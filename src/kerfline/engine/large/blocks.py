"""The blocks of a large floor, each a region of its own in the same frame; those beside slanted edges gathered.

A separator is a joint from edge to edge between blocks. It runs where one is wanted anyway: along a row of columns,
under a long wall, from a re-entrant corner, or on an even division of the whole floor. A separator that would leave a
strip too narrow beside something else is priced out, one through a keep-out is not taken at all. Two are never so near
that panels of the greatest span would break the aspect between them: such a strip cannot keep its neighbours' bays.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain, pairwise

import numpy as np
import shapely
from networkx.utils import UnionFind
from shapely import LineString, Polygon

from kerfline.engine.lines.lattice import GridLine, merged
from kerfline.engine.regions.features import Feature, Rank, features, model_outline
from kerfline.engine.regions.placing import LEAST, clipped
from kerfline.engine.regions.region import MERGE, Region, X, Y, along_axis
from kerfline.engine.regions.walls import asks_aslant
from kerfline.engine.steps import Steps, bay_count, even_places
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.units import MM_PER_FOOT

BLOCK = 6.0
"""A block is at most this many spans long and wide."""

ASLANT_BLOCK = 3.0
"""The same on a floor with edges aslant of both axes: the less of it do they take out of the regular part."""

DOT = MM_PER_FOOT
"""Edges shorter than this (mm) draw no separator where others run aslant."""

ROWS = (Rank.COLUMN, Rank.NOOK)
"""What stands in rows across a hall, along which its joints run."""

WANTED = (Rank.EDGE, Rank.PINNED, Rank.ZONE, Rank.WALL, *ROWS)
"""Features along which a separator may run."""

COST_OF_ONE = 10.0 * MM_PER_FOOT
"""What each separator costs in the choice, so that few are taken, mm."""

COST_OF_PLAIN = 20.0 * MM_PER_FOOT
"""What one costs more that follows no feature, mm."""

COST_OF_CLASH = 100.0 * MM_PER_FOOT
"""What one costs more for each line that it runs too close beside, mm."""

LONG_EDGE = 3.0
"""From so many spans on, an edge is that of a wing."""

PARTING_WALL = 2.0
"""From so many spans on, the bays of a block are counted between the walls in one line."""

COST_OF_TURN = 60.0 * MM_PER_FOOT
"""What a block costs, beside the edge's length, for each long edge that runs into it: its wings cannot both be
divided evenly, mm."""

GAIN_OF_COLUMN = 5.0 * MM_PER_FOOT
"""What one costs less for each column on it, mm."""

DIGITS = 2
"""Digits of a millimetre to which places are rounded."""

EXACT = 3
"""The same of places where joints arrive."""

FIRST = 1024
"""Places that there is room for at first; the room doubles when it is full."""

SHORT = 150.0
"""Less edge than this (mm) aslant of both axes in one block is a chamfer that any layout takes."""

ROOM = 18.0
"""Gathered pieces are not made larger than this many squares of the span."""

SMALL = 1.0
"""A corner of a block smaller than this, in squares of the span, joins whatever lies beside it."""


def separators(region: Region, axis: int, span: float, longest: float = math.inf) -> list[float]:
    """Places of the separators across an axis, so that no block is longer than ``BLOCK`` spans, nor than that (mm)."""
    outline = model_outline(region)
    low, high = outline.bounds[axis], outline.bounds[axis + 2]
    steps = Steps(region.baseline[axis], region.step)
    aslant = has_slants(region)
    found = [f for f in features(region) if f.axis == axis and not (aslant and _is_dot(f))]
    lines = merged(found, steps)
    turns = [(line.at, _on(line, Rank.EDGE)) for line in lines if low < line.at < high]
    turns = [(at, length) for at, length in turns if length >= LONG_EDGE * span]
    columns = [line.at for line in lines if line.rank in ROWS and low < line.at < high]
    fixed = [
        line.at
        for line in lines
        if line.at in columns or _on(line, Rank.WALL) >= PARTING_WALL * span
    ]
    places = _candidates(lines, (columns, [at for at, _ in turns]), (low, high), span, steps)
    barred = shapely.union_all([k.outline.polygon for k in region.keep_outs])
    costs = [_cost(region, axis, at, lines, barred) for at in places]
    stops = [low, *places, high]
    before = dict(zip(stops, _area_before(outline, axis, stops), strict=True))

    def bays_of(start: float, end: float) -> float:
        run_in = [COST_OF_TURN + length for at, length in turns if start + 1.0 < at < end - 1.0]
        across = (before[end] - before[start]) / (end - start)
        parts = pairwise([start, *(at for at in fixed if start + 1.0 < at < end - 1.0), end])
        return sum(run_in) + across * sum(_bays(b - a, span) for a, b in parts)

    longest = min(longest, (ASLANT_BLOCK if aslant else BLOCK) * span)
    shortest = max(region.working.width - MERGE, span / region.working.aspect)
    return _chosen(stops, [0.0, *costs, 0.0], bays_of, (shortest, longest))


def _on(line: GridLine, rank: Rank) -> float:
    """How much edge of the slab, or wall, runs along a line, mm."""
    return sum(f.length for f in line.features if f.rank is rank)


def _area_before(outline: Polygon, axis: int, places: Sequence[float]) -> list[float]:
    """The area of a slab up to each place on an axis."""
    left, bottom, right, top = outline.bounds
    frames = [(left, bottom, at, top) if axis == X else (left, bottom, right, at) for at in places]
    return [float(outline.intersection(shapely.box(*frame)).area) for frame in frames]


def _bays(length: float, span: float) -> float:
    """The bays of a length, and a little more the further they stay below the span: alike ones are cheaper."""
    count = bay_count(length, span)
    return count * (1.0 + (1.0 - min(length / count / span, 1.0)) ** 2)


def _is_dot(feature: Feature) -> bool:
    """Whether a feature is a corner between edges aslant, or one of the short edges of a curve."""
    return feature.rank is Rank.EDGE and feature.length < DOT


def _candidates(
    lines: Sequence[GridLine],
    stops: tuple[Sequence[float], Sequence[float]],
    ends: tuple[float, float],
    span: float,
    steps: Steps,
) -> list[float]:
    """Lines along features, and even divisions between columns, and between columns and long edges."""
    low, high = ends
    columns, turns = stops
    found = [line.at for line in lines if line.rank in WANTED and low < line.at < high]
    for between in ([low, *columns, high], sorted([low, *columns, *turns, high]) if turns else []):
        for start, end in pairwise(between):
            count = bay_count(end - start, span)
            found.extend(even_places(start, end, count, span, steps))
    kept: list[float] = []
    for at in sorted(found):
        if not kept or at - kept[-1] > 1.0:
            kept.append(at)
    return kept


def _cost(
    region: Region, axis: int, at: float, lines: Sequence[GridLine], barred: shapely.Geometry
) -> float:
    if _crosses(region, axis, at, barred):
        return math.inf
    here = [line for line in lines if abs(line.at - at) <= 1.0]
    near = [
        line
        for line in lines
        if 1.0 < abs(line.at - at) < region.advised.width and line.rank <= Rank.BESIDE
    ]
    wanted = [line for line in here if line.rank in WANTED]
    columns = sum(f.rank in ROWS for line in here for f in line.features)
    return (
        COST_OF_ONE
        + (0.0 if wanted else COST_OF_PLAIN)
        + COST_OF_CLASH * len(near)
        - GAIN_OF_COLUMN * columns
    )


def _crosses(region: Region, axis: int, at: float, barred: shapely.Geometry) -> bool:
    if shapely.is_empty(barred):
        return False
    x0, y0, x1, y1 = region.gross.bounds
    ends = [(at, y0), (at, y1)] if axis == X else [(x0, at), (x1, at)]
    return bool(shapely.intersects(barred, LineString(ends)))


def _chosen(
    places: Sequence[float],
    costs: Sequence[float],
    bays_of: Callable[[float, float], float],
    allowed: tuple[float, float],
) -> list[float]:
    """The cheapest chain from end to end whose steps are no shorter and no longer than allowed.

    Where none exists the longest step is widened until there is one.

    Args:
        places: Where the steps may end, from the first to the last.
        costs: What a separator costs at each.
        bays_of: What the bays between two places cost.
        allowed: The shortest and the longest step.
    """
    shortest, longest = allowed
    while True:
        best = [math.inf] * len(places)
        came = [-1] * len(places)
        best[0] = 0.0
        for i in range(1, len(places)):
            for j in range(i):
                step = places[i] - places[j]
                if not shortest <= step <= longest:
                    continue
                total = best[j] + costs[i] + bays_of(places[j], places[i])
                if total < best[i] - 1e-6:
                    best[i], came[i] = total, j
        if best[-1] < math.inf:
            break
        longest *= 1.25
    chain = []
    at = came[-1]
    while at > 0:
        chain.append(places[at])
        at = came[at]
    return chain[::-1]


def blocks(region: Region, cuts: tuple[Sequence[float], Sequence[float]]) -> Iterator[Region]:
    """The blocks between separators, row by row.

    Args:
        region: The region.
        cuts: Places of the separators across x and across y.
    """
    x0, y0, x1, y1 = region.gross.bounds
    for low_y, high_y in pairwise([y0, *cuts[Y], y1]):
        for low_x, high_x in pairwise([x0, *cuts[X], x1]):
            frame = shapely.box(low_x, low_y, high_x, high_y)
            for gross in polygons_of(_clip(region.gross, frame)):
                if gross.area > LEAST and _has_concrete(region, gross):
                    yield block(region, gross)


def _has_concrete(region: Region, gross: Polygon) -> bool:
    """Whether a part of a region is more than the inside of a boxout."""
    return bool(model_outline(replace(region, gross=gross)).area > LEAST)


def _clip(shape: Polygon, frame: Polygon) -> shapely.Geometry:
    """The part of a shape in a box; boxes wholly inside stay boxes."""
    return frame if shape.covers(frame) else shape.intersection(frame)


def block(region: Region, gross: Polygon) -> Region:
    """A part of a region with what stands on it."""
    parts = polygons_of(shapely.clip_by_rect(region.concrete, *gross.bounds).intersection(gross))
    return clipped(region, gross, max(parts, key=lambda p: p.area, default=gross))


class Arrivals:
    """The ends of joints, in the order in which the joints came."""

    def __init__(self, paths: Iterable[tuple[Point, ...]] = ()) -> None:
        self._room: Numbers = np.empty((FIRST, 2))
        self._count = 0
        self.add(paths)

    def add(self, paths: Iterable[tuple[Point, ...]]) -> None:
        """Takes both ends of each path."""
        ends = list(chain.from_iterable((path[0], path[-1]) for path in paths))
        if not ends:
            return
        count = self._count + len(ends)
        while count > len(self._room):
            self._room = np.concatenate([self._room, np.empty_like(self._room)])
        self._room[self._count : count] = ends
        self._count = count

    def on(self, part: Region) -> Region:
        """A part of a floor with the places on its border where joints arrive."""
        if not self._count:
            return part
        ends = self._room[: self._count]
        x0, y0, x1, y1 = part.gross.bounds
        inside = (ends[:, 0] > x0 - TOUCH) & (ends[:, 0] < x1 + TOUCH)
        inside &= (ends[:, 1] > y0 - TOUCH) & (ends[:, 1] < y1 + TOUCH)
        near = np.unique(np.round(ends[inside], EXACT), axis=0)
        beside = shapely.distance(part.gross.boundary, shapely.points(near)) <= TOUCH
        return replace(part, landings=tuple((float(x), float(y)) for x, y in near[beside]))


def gathered(region: Region, parts: Sequence[Region]) -> tuple[list[Region], list[Region]]:
    """The blocks that run along the axes, and the gathered pieces of the others.

    Args:
        region: The whole floor.
        parts: Its blocks.
    """
    slanted = [i for i, part in enumerate(parts) if has_slants(part)]
    if not slanted:
        return list(parts), []
    groups = _groups([p.gross for p in parts], slanted, region.working.span)
    taken = {i for group in groups for i in group}
    straight = [part for i, part in enumerate(parts) if i not in taken]
    return straight, [
        block(region, shape)
        for group in groups
        for shape in polygons_of(shapely.union_all([parts[i].gross for i in group]))
    ]


def has_slants(part: Region) -> bool:
    """Whether edges, walls or given joints of a piece run aslant of both axes."""
    edges = (part.gross.exterior, *part.gross.interiors)
    length = sum(
        LineString(pair).length
        for ring in edges
        for pair in pairwise(ring.coords)
        if along_axis(*pair) is None
    )
    return length > SHORT or asks_aslant(part)


def _groups(shapes: Sequence[Polygon], slanted: Sequence[int], span: float) -> list[list[int]]:
    """Blocks that belong together: slanted neighbours while there is room, small corners in any case."""
    joined: UnionFind[int] = UnionFind(range(len(shapes)))
    area = [shape.area for shape in shapes]
    within = set(slanted)
    for length, i, j in sorted(_shared(shapes, slanted), key=lambda s: (-round(s[0]), s[1], s[2])):
        one, other = joined[i], joined[j]
        small = min(area[one], area[other]) < SMALL * span**2
        fits = area[one] + area[other] <= ROOM * span**2
        if one != other and length > TOUCH and (small or (fits and j in within)):
            whole = area[one] + area[other]
            joined.union(one, other)
            area[joined[one]] = whole
            within.add(j)
    return sorted(sorted(group) for group in joined.to_sets() if group & within)


def _shared(shapes: Sequence[Polygon], slanted: Sequence[int]) -> Iterator[tuple[float, int, int]]:
    """Length of border that each slanted block shares with each neighbour."""
    tree = shapely.STRtree(list(shapes))
    for i in slanted:
        for j in sorted(int(n) for n in tree.query(shapes[i], predicate="intersects")):
            if j != i:
                yield shapes[i].intersection(shapes[j]).length, i, j
