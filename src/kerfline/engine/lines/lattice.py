"""The candidate lines of a rectangular grid: merged features, and even divisions of the floor between them.

Other charts have a maker of their own (``candidates``), for two reasons. A line of a grid has one place, since every
rectangle between two lines of each axis is listed by index: what lies within ``MERGE`` shares a line here, and the joint
is laid through it afterwards (``true_runs``), where a line of a net bends through its marks. And rectangles are so
cheap to list that a grid takes up to 36 lines on an axis, the most wanted first, where each line of a net costs cells,
and lines that crowd one another are left out. Free spans, their chords and even bays are the same for both.

One rule for the divisions of both was tried on the golden plans, six large floors and two traced ones: by the net's a
grid breaks 2 rules and is warned of 13 times more, by its own on the net's free spans, which know no walls across
them, it has 44 tees more.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np
from shapely import Polygon

from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.lines.divisions import FreeSpan, Places, chords
from kerfline.engine.regions.features import MINOR, Feature, Rank, features, model_outline
from kerfline.engine.regions.region import MERGE, Region, X, Y
from kerfline.engine.steps import Steps, bay_count, even_places, filled
from kerfline.geometry.tolerance import MEASURE, SAME

REMEMBERED = 4
"""Regions whose fixed lines and divisions are kept, for a grid is searched a dozen times and more, one region after
another."""

LEVELS = 1000
"""Levels at which the spans inside figures are kept: strips of a grid share most of theirs."""

BESIDE_HOLE = 127.0
"""What lies within this (mm, five inches) of an edge of an opening shares its line, not within ``MERGE``: the concrete
between has its own corners."""

CLOSE = 51.0
"""A wished line closer than this (mm, a hair over two inches) to one that stands for more is not worth its own.

Neither it nor half of it is a whole number of steps: lines just so far apart would be told apart by the last bits.
"""

CROSSING = 0.6
"""A wall that takes up this share of a strip's height divides the strip."""

MOST_BAYS = 200
"""No span is divided into more bays than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GridLine:
    """A line that joints may run on.

    Attributes:
        at: Its place on the axis, mm.
        features: What it serves, strongest first; empty for a division of open floor.
        rank: The rank of the strongest.
    """

    at: float
    rank: Rank
    features: tuple[Feature, ...] = ()


def merged(features: Sequence[Feature], steps: Steps) -> list[GridLine]:
    """The lines that serve the features of one axis, strongest features placed first."""
    lines = _edge_lines([f for f in features if f.rank is Rank.EDGE])
    for rank in sorted({f.rank for f in features} - {Rank.EDGE}):
        lines = _with_rank(lines, [f for f in features if f.rank is rank], steps)
    return sorted(lines, key=lambda line: line.at)


def _edge_lines(features: Sequence[Feature]) -> list[GridLine]:
    """One line for the edges within ``MERGE``; it lies on the longest of them."""
    groups: list[list[Feature]] = []
    for feature in sorted(features, key=lambda f: (f.at, f.start)):
        hole = feature.hole or (bool(groups) and groups[-1][0].hole)
        if groups and feature.at - groups[-1][0].at <= (BESIDE_HOLE if hole else MERGE):
            groups[-1].append(feature)
        else:
            groups.append([feature])
    return [
        GridLine(at=_place_of(group), rank=Rank.EDGE, features=tuple(group)) for group in groups
    ]


def _place_of(group: Sequence[Feature]) -> float:
    """The place of the longest edges of a group; the middle where equals differ.

    Of the two faces of a wall that juts out it is the one along which its joint will run on the slab.
    """
    lengths: dict[float, float] = {}
    for feature in group:
        at = next((a for a in lengths if abs(a - feature.at) <= SAME), feature.at)
        lengths[at] = lengths.get(at, 0.0) + feature.length
    longest = max(lengths.values())
    best = sorted(at for at, length in lengths.items() if length >= longest - 1.0)
    return best[-1] if longest <= MERGE else (best[0] + best[-1]) / 2


def _with_rank(lines: list[GridLine], features: Sequence[Feature], steps: Steps) -> list[GridLine]:
    """The lines with features of the next rank: on a line that serves them already, else on new ones."""
    left: list[Feature] = []
    served = [list(line.features) for line in lines]
    for feature in features:
        index = _line_for(lines, feature)
        (left if index is None else served[index]).append(feature)
    kept = [replace(x, features=tuple(own)) for x, own in zip(lines, served, strict=True)]
    return [*kept, *(_new_line(group, steps) for group in _groups(left))]


def _line_for(lines: Sequence[GridLine], feature: Feature) -> int | None:
    """The line that serves a feature already: the nearest within its slack."""
    reach = feature.slack or _reach(feature)
    near = [
        (abs(line.at - feature.at), i)
        for i, line in enumerate(lines)
        if abs(line.at - feature.at) <= reach + SAME
    ]
    return min(near)[1] if near else None


def _reach(feature: Feature) -> float:
    """How far an exact feature lets itself be drawn to a line: the joint may run a little aslant."""
    return MERGE if feature.rank in (Rank.COLUMN, Rank.LANDING) else SAME


def _groups(features: Sequence[Feature]) -> list[list[Feature]]:
    """Features whose ranges have a common part."""
    groups: list[list[Feature]] = []
    high = 0.0
    for feature in sorted(features, key=lambda f: (f.at - f.slack, f.at, f.start)):
        if groups and feature.at - feature.slack <= high + SAME:
            groups[-1].append(feature)
            high = min(high, feature.at + feature.slack)
        else:
            groups.append([feature])
            high = feature.at + feature.slack
    return groups


def _new_line(group: Sequence[Feature], steps: Steps) -> GridLine:
    low = max(f.at - f.slack for f in group)
    high = min(f.at + f.slack for f in group)
    if group[0].rank is Rank.NOOK:
        return GridLine(at=low, rank=Rank.NOOK, features=tuple(group))  # a corner of one of them
    weight = sum(f.length or 1.0 for f in group)
    wish = sum(f.at * (f.length or 1.0) for f in group) / weight
    at = steps.within(low, high, wish) if high - low > SAME else (low + high) / 2
    return GridLine(at=at, rank=group[0].rank, features=tuple(group))


@dataclass(frozen=True, kw_only=True)
class Lattice:
    """The candidate lines of both axes.

    Attributes:
        lines: The lines of axis ``X`` and of axis ``Y``, in order of place.
        outline: The figure that they divide.
    """

    lines: tuple[tuple[GridLine, ...], tuple[GridLine, ...]]
    outline: Polygon

    @property
    def has_cells(self) -> bool:
        """Whether there are lines on both axes; of a spike lower than lines are merged there are not."""
        return all(len(lines) > 1 for lines in self.lines)

    def places(self, axis: int) -> np.ndarray:
        """The places of the lines of one axis."""
        return np.asarray([line.at for line in self.lines[axis]])


@dataclass(frozen=True)
class Asked:
    """Places for lines on both axes that are asked for beside features and divisions.

    Attributes:
        stay: Those that stay in any case.
        more: Further ones, the most wanted first.
        room: How many lines there are on an axis beside the fixed ones and those that stay; None for what the
            greatest number leaves.
    """

    stay: Places = ((), ())
    more: Places = ((), ())
    room: int | None = None


NOTHING = Asked()


def lattice(region: Region, most: int, span: float, asked: Asked = NOTHING) -> Lattice:
    """The candidate lines of a region.

    Args:
        region: The region in its canonical orientation.
        most: Greatest number of lines on an axis; the weakest are left out first.
        span: Working span, mm.
        asked: Lines that come before all divisions.
    """
    (outline, every), even = _ground(region), _even(region, span)
    least = min([span, *(z.working.span for z in region.zones)])
    out = []
    for axis in (X, Y):
        fixed, divisions = every[axis], even[axis]
        stay = [at for at in asked.stay[axis] if all(abs(at - f.at) > MEASURE for f in fixed)]
        wishes = [
            *(_Wish(at, Rank.LANDING, 1.0, tight=True) for at in stay),
            *(_Wish(at, Rank.LANDING, -n, tight=False) for n, at in enumerate(asked.more[axis])),
            *divisions,
        ]
        firm = sum(line.rank not in MINOR for line in fixed) + len(stay)
        enough = max(most, len(fixed) + len(stay)) if asked.room is None else firm + asked.room
        kept = _thinned(fixed, wishes, enough)
        more_lines = filled([line.at for line in kept], least, _steps(region, axis))
        kept += [GridLine(at=at, rank=Rank.FINER_BAY) for at in more_lines]
        out.append(tuple(sorted(kept, key=lambda line: line.at)))
    return Lattice(lines=(out[0], out[1]), outline=outline)


def fixed_lines(region: Region) -> tuple[tuple[GridLine, ...], ...]:
    """The lines of both axes that every lattice of a region has, whatever is asked of it."""
    return _ground(region)[1]


@lru_cache(maxsize=REMEMBERED)
def _ground(region: Region) -> tuple[Polygon, tuple[tuple[GridLine, ...], ...]]:
    """What every lattice of a region begins with: its figure, and the fixed lines of both axes."""
    outline = model_outline(region)
    found = features(region)
    fixed = tuple(
        tuple(
            line
            for line in merged([f for f in found if f.axis == axis], _steps(region, axis))
            if _inside(line, outline, axis)
        )
        for axis in (X, Y)
    )
    return outline, fixed


@lru_cache(maxsize=REMEMBERED)
def _even(region: Region, span: float) -> tuple[tuple["_Wish", ...], ...]:
    """The even divisions between the fixed lines of both axes."""
    outline, fixed = _ground(region)
    return tuple(tuple(_divisions(axis, fixed, outline, region, span)) for axis in (X, Y))


def _steps(region: Region, axis: int) -> Steps:
    return Steps(region.baseline[axis], region.step)


def _inside(line: GridLine, outline: Polygon, axis: int) -> bool:
    low, high = outline.bounds[axis], outline.bounds[axis + 2]
    return line.rank is Rank.EDGE or low + CLOSE < line.at < high - CLOSE


@dataclass(frozen=True, slots=True)
class _Wish:
    at: float
    rank: Rank
    worth: float
    tight: bool


def _divisions(
    axis: int,
    fixed: Sequence[Sequence[GridLine]],
    outline: Polygon,
    region: Region,
    span: float,
) -> Iterator[_Wish]:
    """Even divisions of the free spans of each strip between the fixed lines of the other axis."""
    steps = _steps(region, axis)
    for low, high in _pairs(x.at for x in fixed[1 - axis] if x.rank not in MINOR):
        stops = _stops(fixed[axis], (low, high))
        for start, end in _chords(
            axis, outline, (low + high) / 2, [s for s, solid in stops if solid]
        ):
            clear = _free_height(axis, outline, fixed[1 - axis], (start, end), (low, high))
            whole = FreeSpan(start, end, high - low, clear)
            yield from _bays(whole, region, span, steps)
            inner = [s for s, _ in stops if start + MEASURE < s < end - MEASURE]
            for a, b in _pairs([start, *inner, end]) if inner else ():
                yield from _bays(replace(whole, low=a, high=b), region, span, steps)


def _pairs(places: Iterable[float]) -> Iterator[tuple[float, float]]:
    stops = sorted(places)
    yield from ((a, b) for a, b in pairwise(stops) if b - a > CLOSE)


def _stops(lines: Sequence[GridLine], strip: tuple[float, float]) -> list[tuple[float, bool]]:
    """Places where something asks for a joint across a strip, and whether it surely gets it there."""
    wanted = ((x.at, [f for f in x.features if f.rank not in MINOR]) for x in lines)
    return [(at, any(_divides(f, strip) for f in asks)) for at, asks in wanted if asks]


def _divides(feature: Feature, strip: tuple[float, float]) -> bool:
    """Whether a wall or a pinned joint stands across most of a strip."""
    if feature.rank not in (Rank.WALL, Rank.PINNED, Rank.ZONE):
        return False
    overlap = min(feature.end, strip[1]) - max(feature.start, strip[0])
    return overlap >= CROSSING * (strip[1] - strip[0])


def _chords(
    axis: int, outline: Polygon, level: float, walls: Sequence[float]
) -> Iterator[tuple[float, float]]:
    """The free spans along an axis at a level of the other one, divided by walls."""
    for start, end in inside_spans(axis, outline, level):
        inner = [w for w in walls if start + MEASURE < w < end - MEASURE]
        yield from _pairs([start, *inner, end])


@lru_cache(maxsize=LEVELS)
def inside_spans(axis: int, outline: Polygon, level: float) -> tuple[tuple[float, float], ...]:
    """Where a line along an axis of the grid lies inside a figure, slivers left out."""
    return tuple(
        sorted(s for s in chords(outline, SquareChart(), axis, level) if s[1] - s[0] > CLOSE)
    )


def _free_height(
    axis: int,
    outline: Polygon,
    others: Sequence[GridLine],
    chord: tuple[float, float],
    strip: tuple[float, float],
) -> float:
    """The clear height around a strip over a chord, between walls or edges across it."""
    middle = (chord[0] + chord[1]) / 2
    level = (strip[0] + strip[1]) / 2
    walls = [line.at for line in others if any(_divides(f, chord) for f in line.features)]
    across = _chords(1 - axis, outline, middle, walls)
    return next((b - a for a, b in across if a <= level <= b), strip[1] - strip[0])


def _bays(free: FreeSpan, region: Region, span: float, steps: Steps) -> Iterator[_Wish]:
    """The divisions of a span: as few bays as the aspect, the span and the little over it allow, and one more.

    In a strip one bay high the squarest bays are the likeliest answer: all their lines are kept first. So are those
    of bays as long as the span, unless a bay may be a little longer where a line close by serves more.
    """
    reach, greatest = free.high - free.low, span * region.stretch
    least = bay_count(reach, span)
    rows = bay_count(free.clear, span)
    across = free.clear / rows
    by_aspect = bay_count(reach, min(span, region.working.aspect * across))
    square = bay_count(reach, min(span, region.advised.aspect * across))
    ranks = dict.fromkeys((bay_count(reach, greatest), least + 1, square), Rank.FINER_BAY)
    ranks |= dict.fromkeys((least, by_aspect, *([square] if rows == 1 else [])), Rank.BAY)
    for count in sorted(ranks):
        if count > MOST_BAYS or reach / count < region.working.width:
            continue
        strip = rows == 1 and count == square
        full = reach / count > span - CLOSE and greatest - span < CLOSE
        limit = span if count >= least else greatest
        for at in even_places(free.low, free.high, count, limit, steps):
            yield _Wish(at, ranks[count], free.height * reach, strip or full)


def _thinned(fixed: Sequence[GridLine], wishes: Sequence[_Wish], most: int) -> list[GridLine]:
    """The fixed lines and the wishes that stand for something of their own, the best up to a number."""
    worth: dict[float, tuple[Rank, float, bool]] = {}
    for wish in wishes:
        at = round(wish.at, 1)
        rank, total, tight = worth.get(at, (Rank.FINER_BAY, 0.0, False))
        worth[at] = (min(rank, wish.rank), total + wish.worth, tight or wish.tight)
    order = sorted(worth, key=lambda at: (worth[at][0], not worth[at][2], -worth[at][1], at))
    kept = [line for line in fixed if line.rank not in MINOR]
    ends = [line for line in fixed if line.rank in MINOR]
    for at in order:
        if len(kept) >= most:
            break
        if all(abs(at - line.at) > (MEASURE if worth[at][2] else _room(line)) for line in kept):
            kept.append(GridLine(at=at, rank=worth[at][0]))
    for line in ends:
        if len(kept) < most and all(abs(line.at - k.at) > CLOSE for k in kept):
            kept.append(line)
    return sorted(kept, key=lambda line: line.at)


def _room(line: GridLine) -> float:
    """How far a wish must be from a line to be worth its own."""
    return CLOSE if line.rank <= Rank.BESIDE else CLOSE / 2
