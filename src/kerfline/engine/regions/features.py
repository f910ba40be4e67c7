"""What asks for a joint: lines along the axes of a frame, for a grid; any lines and points, for other charts.

Each has what it costs to miss it, or how strongly it asks.
"""

import math
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import cached_property
from itertools import pairwise
from typing import assert_never

import shapely
from shapely import LineString, Polygon

from kerfline.engine.options import Weights, feet
from kerfline.engine.regions.region import Nook, Region, X, Y, along_axis
from kerfline.engine.regions.walls import SQUARE, strip_half, wall_slack
from kerfline.geometry.corners import direction, reentrant_corners, sine_between
from kerfline.geometry.faces import points_of, polygons_of, rings_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Column, GivenJoint, Meeting, Penetration, PenetrationKind, Wall
from kerfline.units import MM_PER_INCH

CLEAR_OF = MM_PER_INCH
"""How far (mm) a joint stays outside a keep-out or a bearing strip."""

LARGE_BOXOUT = 2.0
"""A square boxout of this many least widths is an opening, with a joint from each corner."""

ROUGH = 5 * MM_PER_INCH
"""How near (mm) the lines for a curved border of a zone follow it."""

LARGE = 76.2
"""Pipes from this diameter (mm, 3 in) on ask for a joint through them (common practice)."""


class Rank(IntEnum):
    """How strongly a feature asks for a line: lower goes first when lines are merged or dropped."""

    EDGE = 0
    PINNED = 1
    ZONE = 2
    COLUMN = 3
    WALL = 4
    NOOK = 5
    BESIDE = 6
    PENETRATION = 7
    LANDING = 8
    BAY = 9
    STUB = 10
    WALL_END = 11
    FINER_BAY = 12


MINOR = (Rank.STUB, Rank.WALL_END)
"""Features beside which a line is no more than a wish: they bound no strip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """Something that a line may follow.

    Attributes:
        axis: ``X`` for a line at one x, ``Y`` for a line at one y.
        at: Where, mm.
        slack: How far from ``at`` the line may be and still serve it.
        start: Where the feature begins along the line.
        end: Where it ends along the line.
        rank: How strongly it asks.
        id: Name of the wall, column or penetration.
        hole: Whether it is an edge of an opening, or of a boxout that acts as one.
    """

    axis: int
    at: float
    slack: float = 0.0
    start: float = 0.0
    end: float = 0.0
    rank: Rank
    id: str = ""
    hole: bool = False

    @property
    def length(self) -> float:
        """Extent along the line, mm."""
        return self.end - self.start


def features(region: Region) -> list[Feature]:
    """Every feature of a region, those of divisions left out."""
    return [
        *_ring(region.gross, Rank.EDGE),
        *(replace(f, hole=True) for hole in _large_boxouts(region) for f in _ring(hole, Rank.EDGE)),
        *(f for j in region.pinned for f in _pinned(j)),
        *(f for z in region.zones for f in _zone(z.area)),
        *(f for c in region.columns for f in _cross(c.at, Rank.COLUMN, c.id)),
        *(f for w in region.walls for f in wall_features(w, short=w.id in region.wishes)),
        *(_nook(n) for n in region.nooks),
        *(f for p in region.penetrations for f in _penetration(p)),
        *(f for k in region.keep_outs for f in _around(k.outline.polygon, k.id)),
        *(f for at in region.landings for f in _cross(at, Rank.LANDING)),
    ]


def segment_feature(
    start: Point, end: Point, rank: Rank, *, slack: float = 0.0, name: str = ""
) -> Feature | None:
    """A segment as a feature; None where it runs along neither axis."""
    axis = along_axis(start, end)
    if axis is None:
        return None
    along = sorted((start[1 - axis], end[1 - axis]))
    return Feature(
        axis=axis,
        at=(start[axis] + end[axis]) / 2,
        slack=slack,
        start=along[0],
        end=along[1],
        rank=rank,
        id=name,
    )


def _ring(polygon: Polygon, rank: Rank) -> list[Feature]:
    """The edges of a figure; a vertex beside an edge at an angle gives a point on both axes."""
    out: list[Feature] = []
    for number, ring in enumerate(rings_of(polygon)):
        for start, end in pairwise(points_of(ring)):
            feature = segment_feature(start, end, rank)
            found = [feature] if feature else [*_cross(start, rank), *_cross(end, rank)]
            out.extend(replace(f, hole=number > 0) for f in found)
    return out


def _zone(area: Polygon) -> list[Feature]:
    """The edges and the corners of a zone; an arc has a few corners, not one at each of its chords."""
    x0, y0, x1, y1 = area.bounds
    rough = area.simplify(min(ROUGH, (x1 - x0) / 4, (y1 - y0) / 4))
    return [f for part in polygons_of(rough) for f in _ring(part, Rank.ZONE)]


def _pinned(joint: GivenJoint) -> list[Feature]:
    found = (segment_feature(*s, Rank.PINNED, name=joint.id) for s in pairwise(joint.path))
    return [f for f in found if f]


def _cross(at: Point, rank: Rank, name: str = "", slack: float = 0.0) -> list[Feature]:
    """The line on each axis through a point."""
    return [
        Feature(axis=axis, at=at[axis], slack=slack, start=along, end=along, rank=rank, id=name)
        for axis, along in ((X, at[Y]), (Y, at[X]))
    ]


def _penetration(hole: Penetration) -> list[Feature]:
    """Both lines through a penetration, or those at its clear distance."""
    if hole.meeting is not Meeting.CLEAR:
        return _cross(hole.at, Rank.PENETRATION, hole.id, hole.diameter / 2)
    area = shapely.Point(hole.at).buffer(hole.clear)
    return _around(area, hole.id)


def _nook(nook: Nook) -> Feature:
    """The lines from one corner of a nook to the other."""
    return Feature(
        axis=nook.axis,
        at=(nook.low + nook.high) / 2,
        slack=(nook.high - nook.low) / 2,
        start=nook.level,
        end=nook.level,
        rank=Rank.NOOK,
    )


def wall_features(wall: Wall, *, short: bool = False) -> list[Feature]:
    """The line under each straight part of a wall, or the two beside its strip, and its ends; none of a short one's."""
    out: list[Feature] = []
    rank = Rank.STUB if short and wall.takes_joint else Rank.WALL
    for start, end in pairwise(wall.path):
        middle = segment_feature(start, end, rank, slack=wall_slack(wall), name=wall.id)
        if middle is None:
            continue
        out.extend([middle] if wall.takes_joint else _beside(middle, strip_half(wall)))
    if wall.takes_joint and not short:
        out.extend(_wall_ends(wall))
    return out


def _beside(middle: Feature, half: float) -> list[Feature]:
    return [
        replace(
            middle, at=middle.at + side * (half + 2 * CLEAR_OF), slack=CLEAR_OF, rank=Rank.BESIDE
        )
        for side in (-1, 1)
    ]


def _wall_ends(wall: Wall) -> list[Feature]:
    out = []
    for at, inner in ((wall.path[0], wall.path[1]), (wall.path[-1], wall.path[-2])):
        axis = along_axis(at, inner)
        if axis is not None:
            out.append(_cross(at, Rank.WALL_END, wall.id, wall.thickness)[1 - axis])
    return out


def _around(polygon: Polygon, name: str) -> list[Feature]:
    """Lines just outside the box of a figure."""
    x0, y0, x1, y1 = polygon.buffer(2 * CLEAR_OF).bounds
    spans = ((x0, x1, y0, y1), (y0, y1, x0, x1))
    return [
        Feature(axis=axis, at=at, slack=CLEAR_OF, start=start, end=end, rank=Rank.BESIDE, id=name)
        for axis, (low, high, start, end) in enumerate(spans)
        for at in (low, high)
    ]


def is_opening(column: Column, region: Region) -> bool:
    """Whether a square boxout is so large that its corners rule, not its centre.

    A smaller one is met through its centre like a diamond; its corners then take bars.
    """
    quarter = math.remainder(column.turn, 90.0)
    square = column.is_square and abs(quarter) <= 1.0
    return square and column.size >= LARGE_BOXOUT * region.working.width


def _large_boxouts(region: Region) -> list[Polygon]:
    return [c.outline.polygon for c in region.columns if c.outline and is_opening(c, region)]


def model_outline(region: Region) -> Polygon:
    """The figure that the panels of the model tile: gross, less the boxouts that act as openings; empty for none."""
    large = _large_boxouts(region)
    rest = region.gross.difference(shapely.union_all(large)) if large else region.gross
    return max(polygons_of(rest), key=lambda p: p.area, default=Polygon())


def model_corners(region: Region) -> list[Point]:
    """The re-entrant corners of that figure: from each a joint should run."""
    return [corner.at for corner in reentrant_corners(model_outline(region))]


@dataclass(frozen=True, kw_only=True)
class AskingLine:
    """A line that asks for a joint.

    Attributes:
        name: Id of the wall or of the given joint.
        path: The line.
        slack: How far (mm) to either side the joint may lie.
        reason: What the line is.
        short: Whether it is a wall that only wishes for a joint.
        needed: Whether it cannot go without a joint.
    """

    name: str
    path: LineString
    slack: float = 0.0
    reason: Reason = Reason.WALL
    needed: bool = False
    short: bool = False

    @cached_property
    def band(self) -> Polygon:
        """Where a joint along it serves it."""
        return self.path.buffer(self.slack + TOUCH, cap_style="flat")

    def runs_along(self, joint: LineString) -> bool:
        """Whether a joint has its direction."""
        ends = [points_of(line) for line in (self.path, joint)]
        own, other = (direction(points[0], points[-1]) for points in ends)
        return sine_between(own, other) <= SQUARE


@dataclass(frozen=True, kw_only=True)
class Target:
    """A point that a joint should run to or through.

    Attributes:
        at: The point.
        reason: A corner, a column's point or a drain.
        weight: What it costs, in mm of joint, where no joint reaches it; 0 where other costs say so.
        note: The point in words.
    """

    at: Point
    reason: Reason
    weight: float = 0.0
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Shy:
    """A point that joints pass through or stay clear of.

    Attributes:
        at: The point.
        clear: How far (mm) a joint that does not pass through stays away.
        through: Whether it may pass through.
        weight: What a joint within that distance costs, in mm of joint.
    """

    at: Point
    clear: float
    through: bool
    weight: float


def targets_of(region: Region, weights: Weights) -> tuple[Target, ...]:
    """The points that joints should run through."""
    columns = [
        Target(
            at=c.at,
            reason=Reason.COLUMN,
            weight=feet(weights.column_inside),
            note=f"column {c.id}",
        )
        for c in region.columns
    ]
    pipes = [
        Target(
            at=p.at,
            reason=Reason.PENETRATION,
            weight=feet(worth(p, weights)),
            note=f"penetration {p.id}",
        )
        for p in region.penetrations
        if p.meeting is not Meeting.CLEAR
    ]
    return (*columns, *pipes)


def passed_of(region: Region, weights: Weights) -> tuple[tuple[Point, float], ...]:
    """Points past which no panel's side should run on, and what each panel costs whose side does, mm of joint.

    Re-entrant corners, and columns without a boxout, where joints should cross: two panels run on past one.
    """
    corners = [(c.at, feet(weights.corner_passed)) for c in reentrant_corners(region.gross)]
    columns = [(c.at, feet(weights.column_side) / 2) for c in region.columns if c.outline is None]
    return (*corners, *columns)


def shies_of(region: Region, weights: Weights) -> tuple[Shy, ...]:
    """The points that joints pass through or stay clear of."""
    return tuple(
        Shy(
            at=p.at,
            clear=p.clear,
            through=p.meeting is not Meeting.CLEAR,
            weight=feet(weights.penetration_near),
        )
        for p in region.penetrations
    )


def worth(pipe: Penetration, weights: Weights) -> float:
    """What it costs, in feet of joint, where no joint runs through a penetration."""
    match pipe.meeting:
        case Meeting.THROUGH:
            return weights.penetration
        case Meeting.AUTO:
            asks = pipe.kind is PenetrationKind.DRAIN or pipe.diameter >= LARGE
            return weights.penetration_auto if asks else 0.0
        case Meeting.CLEAR:
            return 0.0
    assert_never(pipe.meeting)
