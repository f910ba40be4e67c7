"""Which dimensions stand on which string: beside each stretch of the edge what reaches it, and nothing else."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from shapely import MultiPolygon, Polygon

from kerfline.sheets.marks import Bounds
from kerfline.sheets.runs import NEAR, Side, Stretch, stretches
from kerfline.sheets.stations import EXTENT, PLACE, Station

RUNNING_NEED = 30.0
CHAIN_NEED = 17.0
"""Room in mm that a string of running dimensions and a chain take before a stretch of edge that steps back."""


LONGEST = 30.0
"""An extension line is longer than this (mm of paper) only where nothing shorter reaches what is measured."""


@dataclass(frozen=True)
class DimensionString:
    """Dimensions along one stretch of the slab's edge.

    Attributes:
        side: The side that the stretch is seen from, moved in to the stretch.
        stretch: The stretch.
        stations: What reaches it, ascending, its two ends among them.
        running: Whether the values run from the baseline; else each is the distance to the next.
        whole: Whether it runs from end to end of what is shown, and tells that length.
        spare: Whether all that it tells stands on a string along the outside as well.
        out: How much further out than usual it stands, mm of paper.
        lean: How far the texts of a chain stand off the middle of their bays, as a share of the room there; those of a
            running string off their stations, as a share of the pitch of texts.
        square: Whether they stand square to the chain, beyond it, though they have room along it.
    """

    side: Side
    stretch: Stretch
    stations: tuple[Station, ...]
    running: bool
    whole: bool
    spare: bool = False
    out: float = 0.0
    lean: float = 0.0
    square: bool = False


@dataclass(frozen=True)
class Shown:
    """What is shown of a slab on one sheet.

    Attributes:
        slab: Its outline on the paper, mm.
        bounds: Its bounds on the paper.
        origin: Where the baselines meet on the paper.
        scale: Scale denominator.
        own: What of it lies between match lines, where the slab is shown beyond them; None for all of it.
        overall: Whether a chain also tells its length from end to end.
    """

    slab: Polygon | MultiPolygon
    bounds: Bounds
    origin: tuple[float, float]
    scale: float
    own: Bounds | None = None
    overall: bool = True


def dimension_strings(
    shown: Shown, along: Sequence[Station], across: Sequence[Station]
) -> list[DimensionString]:
    """The strings below and left, whose values run from the baselines, then the chains above and right."""
    x0, y0, x1, y1 = shown.bounds
    below, above = Side(y0, upright=False, sign=-1), Side(y1, upright=False, sign=1)
    left, right = Side(x0, upright=True, sign=-1), Side(x1, upright=True, sign=1)
    return [
        *_pair(shown, below, above, along),
        *_pair(shown, left, right, across),
    ]


def _pair(shown: Shown, near: Side, far: Side, found: Sequence[Station]) -> list[DimensionString]:
    """The strings of two sides that face each other; what is shown and reaches neither stands on the near one."""
    first = stretches(shown.slab, shown.bounds, near, RUNNING_NEED)
    second = stretches(shown.slab, shown.bounds, far, CHAIN_NEED)
    of: dict[tuple[int, int], list[Station]] = {}
    lost = []
    outside: set[Station] = set()
    for station in filter(partial(_is_shown, shown, near), found):
        lengths = {
            (k, i): length
            for k, (side, parts) in enumerate(((near, first), (far, second)))
            for i, stretch in enumerate(parts)
            if (length := _extension(shown, side, stretch, station)) is not None
        }
        if not lengths:
            lost.append(station)
            continue
        most = max(LONGEST, min(lengths.values()))
        for key, length in lengths.items():
            if length <= most:
                of.setdefault(key, []).append(station)
                if (first, second)[key[0]][key[1]].depth <= 0:
                    outside.add(station)
    out = []
    for k, (side, parts) in enumerate(((near, first), (far, second))):
        for i, stretch in enumerate(parts):
            here = of.get((k, i), [])
            if k == 0:
                here = [*here, *(s for s in lost if _over(shown, side, stretch, s))]
            else:
                here = [s for s in here if not s.here]
            string = _string(shown, side, stretch, here, running=k == 0, alone=len(parts) == 1)
            if string:
                told = outside.issuperset(here) and stretch.depth > 0
                out.append(replace(string, spare=told))
    return out


def _is_shown(shown: Shown, side: Side, station: Station) -> bool:
    """Whether something at a station's offset lies between the sides that face each other: not on other parts alone."""
    low, high = shown.bounds[::2] if side.upright else shown.bounds[1::2]
    origin = shown.origin[0 if side.upright else 1]
    rim = max(NEAR * shown.scale, PLACE)
    return station.reaches((low - origin) * shown.scale - rim, (high - origin) * shown.scale + rim)


def _string(
    shown: Shown,
    side: Side,
    stretch: Stretch,
    found: Sequence[Station],
    *,
    running: bool,
    alone: bool,
) -> DimensionString | None:
    """The string of a stretch with its two ends; None where no joint and no corner but its ends stands on it."""
    ends = zip((stretch.low, stretch.high), stretch.smooth, strict=True)
    places = [_own_end(shown, side, stretch, place) for place, smooth in ends if not smooth]
    kept = list(found)
    for end in (_offset(shown, side, place) for place in places if place is not None):
        if not any(abs(s.offset - end) <= PLACE for s in kept):
            kept.append(Station(end, EXTENT))
    if len(kept) < (1 if running else 2) or not (alone or any(s.rank != EXTENT for s in found)):
        return None
    return DimensionString(
        side=side.inward(stretch.depth),
        stretch=stretch,
        stations=tuple(sorted(kept)),
        running=running,
        whole=alone and shown.overall,
    )


def _own_end(shown: Shown, side: Side, stretch: Stretch, place: float) -> float | None:
    """Where a stretch ends that is dimensioned: at the match line where it is shown beyond it; None where it is no end."""
    if shown.own is None:
        return place
    low, high = (1, 3) if side.upright else (0, 2)
    for k in (low, high):
        if abs(place - shown.bounds[k]) <= NEAR < abs(shown.own[k] - shown.bounds[k]):
            return shown.own[k] if stretch.low < shown.own[k] < stretch.high else None
    return place


def _place(shown: Shown, side: Side, offset: float) -> float:
    return shown.origin[1 if side.upright else 0] + offset / shown.scale


def _offset(shown: Shown, side: Side, place: float) -> float:
    return (place - shown.origin[1 if side.upright else 0]) * shown.scale


def _over(shown: Shown, side: Side, stretch: Stretch, station: Station) -> bool:
    """Whether a station lies over a stretch, between its ends."""
    return stretch.low - NEAR <= _place(shown, side, station.offset) <= stretch.high + NEAR


def _extension(shown: Shown, side: Side, stretch: Stretch, station: Station) -> float | None:
    """Length of the extension line (mm of paper) of what ends at a stretch or goes on beyond it; None where nothing does."""
    x0, y0, x1, y1 = shown.bounds
    low, high = (x0, x1) if side.upright else (y0, y1)
    origin = shown.origin[0 if side.upright else 1]
    for depth in stretch.depths_at(_place(shown, side, station.offset)):
        at = high - depth if side.sign > 0 else low + depth
        off = (at - origin) * shown.scale
        rim = max(NEAR * shown.scale, PLACE)
        if station.reaches(off - rim, off + rim):
            return depth - stretch.depth
    return None
