"""Why each joint is where it is, in words: the strongest reason that its place gives."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise

import numpy as np
import shapely
from shapely import LineString, MultiPoint, Polygon
from shapely import Point as ShapelyPoint
from shapely.ops import substring

from kerfline.engine.partition.true_runs import TrueRun
from kerfline.engine.regions.features import is_opening, model_outline
from kerfline.engine.regions.region import (
    TOLD,
    Cut,
    Region,
    along_axis,
    drawn_out,
    given_reason,
)
from kerfline.engine.regions.walls import SQUARE
from kerfline.geometry.arrays import Shapes
from kerfline.geometry.corners import Corner, ahead, direction, reentrant_corners, sine_between
from kerfline.geometry.faces import lines_of, points_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Column, GivenJoint, JointKind
from kerfline.units import enumerated, stored_length

UNDER = 0.25
"""A joint is there for a wall when this share of the wall lies over it."""

LONG_LIST = 5
"""Longer lists of names are shortened to the first and the last."""

Cause = tuple[Reason, str, Point | None]


def named(region: Region, cuts: Iterable[Cut]) -> list[Cut]:
    """Cuts with their reasons."""
    floor = _Floor.of(region)
    return [
        done
        for cut in cuts
        for done in ([cut] if cut.reason in TOLD else floor.cuts(cut.line, cut.path))
    ]


def named_runs(region: Region, runs: Iterable[TrueRun]) -> list[Cut]:
    """The cuts along runs with their reasons; what a run meets is there for each of its pieces."""
    floor = _Floor.of(region)
    return [
        cut
        for run in runs
        for piece in run.pieces
        for cut in floor.cuts(LineString(run.path), piece)
    ]


@dataclass(frozen=True)
class _Floor:
    """What joints of a region may be there for.

    Attributes:
        region: The region.
        outline: Its outline with the openings.
        corners: The re-entrant corners of that.
        spots: Their places.
    """

    region: Region
    outline: Polygon
    corners: tuple[Corner, ...]
    spots: Shapes

    @staticmethod
    def of(region: Region) -> "_Floor":
        """A region."""
        outline = model_outline(region)
        corners = tuple(reentrant_corners(outline))
        return _Floor(region, outline, corners, np.array([ShapelyPoint(c.at) for c in corners]))

    def cuts(self, joint: LineString, piece: tuple[Point, ...]) -> Iterator[Cut]:
        """The cuts along a piece of a joint, divided where a given joint of another kind begins or ends."""
        given = [j for j in self.region.pinned if _overlap(joint, j.path) > TOUCH]
        own = [j for j in given if j.kind is not JointKind.CONTROL or j.existing]
        if not own:
            reason, note, at = self.cause(joint, given)
            depth = given[0].depth if given else None
            yield Cut(path=piece, reason=reason, note=note, at=at, depth=depth)
            return
        for part in _divided(piece, own):
            middle = LineString(part).interpolate(0.5, normalized=True)
            here = [j for j in own if LineString(j.path).distance(middle) <= TOUCH]
            reason, note, at = self.cause(joint, here)
            kind, depth = (here[0].kind, here[0].depth) if here else (JointKind.CONTROL, None)
            yield Cut(path=part, reason=reason, note=note, at=at, kind=kind, depth=depth)

    def cause(self, joint: LineString, given: Sequence[GivenJoint]) -> Cause:
        """The strongest reason for a joint on which some given ones lie."""
        told = ((*given_reason(g), None) for g in given)
        return next(chain(told, self._walls(joint), self._meetings(joint)), None) or self._open(
            joint
        )

    def _walls(self, joint: LineString) -> Iterator[Cause]:
        region = self.region
        near = region.wall_tree.query(joint, "dwithin", region.thickest / 2 + 2 * TOUCH)
        names = []
        for wall in (region.walls[n] for n in sorted(near.tolist()) if region.walls[n].takes_joint):
            along = sum(LineString(s).length for s in _alongside(joint, wall.path))
            under = _overlap(joint, wall.path, wall.thickness / 2)
            if under > UNDER * min(along, joint.length):
                names.append(wall.id)
        if names:
            yield Reason.WALL, f"under {_listed('wall', names)}", None

    def _meetings(self, joint: LineString) -> Iterator[Cause]:
        """What a joint meets, the strongest first: corners, borders, columns, penetrations, a neighbour's joints."""
        for number in np.flatnonzero(shapely.distance(self.spots, joint) <= TOUCH).tolist():
            spot, at = self.spots[number], self.corners[number].at
            hole = any(h.distance(spot) <= TOUCH for h in self.outline.interiors)
            yield (
                (Reason.OPENING, "corner of the opening at {at}", at)
                if hole
                else (Reason.CORNER, "re-entrant corner at {at}", at)
            )
        for zone in self.region.zones:
            ring = points_of(zone.area.exterior)
            if _overlap(joint, ring) > TOUCH:
                yield Reason.ZONE, f"border of zone {zone.id}", None
        columns = [c.id for c in self.region.columns if self._meets_column(joint, c)]
        if columns:
            yield Reason.COLUMN, _listed("column", columns), None
        for pipe in self.region.penetrations:
            if joint.distance(ShapelyPoint(pipe.at)) <= max(pipe.diameter / 2, TOUCH):
                yield Reason.PENETRATION, f"through {pipe.kind} {pipe.id}", None
        if joint.distance(MultiPoint(self.region.landings)) <= TOUCH:
            yield Reason.SPAN, "continues the joint of the next part", None

    def _meets_column(self, joint: LineString, column: Column) -> bool:
        """Whether a joint runs through a column, or to its boxout and on its centre."""
        x0, y0, x1, y1 = joint.bounds
        (x, y), size = column.at, column.size
        if not (x0 - size <= x <= x1 + size and y0 - size <= y <= y1 + size):
            return False
        around = column.outline.polygon if column.outline else ShapelyPoint(column.at)
        if is_opening(column, self.region) or joint.distance(around) > TOUCH:
            return False
        beyond = LineString(drawn_out(points_of(joint), size))
        return bool(beyond.distance(ShapelyPoint(column.at)) <= TOUCH)

    def _open(self, joint: LineString) -> Cause:
        """The free span that a joint divides, or the aspect that it mends."""
        limits = self.region.working
        free = self._free_span(joint)
        if free > limits.span + MEASURE:
            reach, bound = (stored_length(v) for v in (free, limits.span))
            return Reason.SPAN, f"open floor: {reach} is more than {bound}", None
        note = f"keeps the panels within {limits.aspect:g} times as long as wide"
        return Reason.ASPECT, note, None

    def _free_span(self, joint: LineString) -> float:
        """How far (mm) the concrete reaches across the middle of a joint, from edge or wall to edge or wall."""
        start, end = max(pairwise(points_of(joint)), key=lambda s: round(math.dist(*s)))
        middle = ShapelyPoint((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        axis = along_axis(start, end)
        x, y = direction(start, end) if axis is None else ((0.0, 1.0), (1.0, 0.0))[axis]
        x0, y0, x1, y1 = self.outline.bounds
        size = x1 - x0 + y1 - y0
        across = LineString([ahead((middle.x, middle.y), (y, -x), s * size) for s in (-1, 1)])
        chords = lines_of(across.intersection(self.outline))
        region = self.region
        crossed = [region.walls[n] for n in region.wall_tree.query(across).tolist()]
        walls = [LineString(s) for w in crossed for s in _alongside(joint, w.path)]
        met = [
            *(c for c in chords if c.distance(middle) <= TOUCH),
            *(w.intersection(across) for w in walls),
        ]
        stops = [
            across.project(ShapelyPoint(at)) - size
            for shape in met
            for at in shapely.get_coordinates(shape).tolist()
        ]
        high = min((s for s in stops if s > MEASURE), default=0.0)
        low = max((s for s in stops if s < -MEASURE), default=0.0)
        return float(high - low)


def _divided(piece: tuple[Point, ...], joints: Sequence[GivenJoint]) -> Iterator[tuple[Point, ...]]:
    """A piece, divided where joints along it begin or end."""
    line = LineString(piece)
    ends = [ShapelyPoint(end) for j in joints for end in (j.path[0], j.path[-1])]
    places = sorted(line.project(end) for end in ends if line.distance(end) <= TOUCH)
    stops = [0.0, *(p for p in places if TOUCH < p < line.length - TOUCH), line.length]
    for low, high in pairwise(stops):
        if high - low > TOUCH:
            part = shapely.get_coordinates(substring(line, low, high))
            yield tuple((float(x), float(y)) for x, y in part)


def _alongside(joint: LineString, path: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    """The straight parts of a path that run in the direction of one of a joint's."""
    ways = [direction(*s) for s in pairwise(points_of(joint)) if s[0] != s[1]]
    return [
        s for s in pairwise(path) if any(sine_between(way, direction(*s)) <= SQUARE for way in ways)
    ]


def _overlap(joint: LineString, path: tuple[Point, ...], reach: float = TOUCH) -> float:
    """Length of a path along its own line that a joint covers within a reach."""
    along = [LineString(s) for s in _alongside(joint, path)]
    near = [s for s in along if shapely.dwithin(s, joint, reach + TOUCH)]
    if not near:
        return 0.0
    band = joint.buffer(reach, cap_style="flat")
    return sum(float(s.intersection(band).length) for s in near)


def _listed(word: str, names: Sequence[str]) -> str:
    """Names in the order of their numbers, with what they are."""
    ordered = sorted(set(names), key=_natural)
    if len(ordered) > LONG_LIST:
        return f"{word}s {ordered[0]} to {ordered[-1]}, {len(ordered)} in all"
    return f"{word}{'s' if len(names) > 1 else ''} {enumerated(ordered)}"


def _natural(name: str) -> tuple[str, int]:
    digits = "".join(c for c in name if c.isdigit())
    return (name.rstrip("0123456789"), int(digits or 0))
