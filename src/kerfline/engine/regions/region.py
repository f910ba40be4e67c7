"""What passes between the parts of the engine: a piece of slab in its own frame, and its cuts."""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon, affinity

from kerfline.geometry.arrays import Numbers, Shapes
from kerfline.geometry.corners import ahead, direction
from kerfline.geometry.faces import lines_of, points_of, rings_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason, Status, WorkingLimits
from kerfline.model.slab import (
    Column,
    GivenJoint,
    JointKind,
    KeepOut,
    Pattern,
    Penetration,
    Wall,
)
from kerfline.units import Display

X, Y = 0, 1
"""The axes: a line on axis ``X`` has one x and runs up and down, one on ``Y`` has one y."""

NEAR_AXIS = 0.14
"""Slope (about 8 degrees) within which an edge or a wall counts as along an axis."""

TOLD = (
    Reason.PINNED,
    Reason.FOUND,
    Reason.FALL,
    Reason.ZONE,
    Reason.PATTERN,
    Reason.KEEP_OUT,
)
"""Reasons that a joint is made for: it is settled first, and nothing that it meets is a stronger one."""

MERGE = 203.2
"""Edges, columns and corners that lie within this (mm, eight inches) of one line share it: a third of the least
width, so that no panel could stand between them. The end of a wall that juts out of the slab needs none."""

HAIR = SAME / 2
"""How far (mm) a cut reaches beyond what it ends on: well under what counts as one point."""


@dataclass(frozen=True, kw_only=True)
class RegionZone:
    """An area of a region with limits of its own.

    Attributes:
        id: Name of the zone.
        area: Where it holds, in the region's frame.
        working: The limits there.
        joint_at_border: Whether its border must be a joint.
    """

    id: str
    area: Polygon
    working: WorkingLimits
    joint_at_border: bool = True


@dataclass(frozen=True, kw_only=True)
class Sides:
    """The straight pieces of a region's edges and walls, gathered once for all walls to be held against.

    Attributes:
        ends: Their ends, (n, 2, 2) in mm.
        lines: The same as lines.
        walls: The id of the wall of each; empty for a piece of an edge.
    """

    ends: Numbers
    lines: Shapes
    walls: npt.NDArray[np.str_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Nook:
    """A bite out of an edge that asks for one joint, from one of its corners.

    Attributes:
        axis: The axis of the lines that reach it.
        low: Where its first corner lies on that axis, mm.
        high: Where its last does; the same as ``low`` where it has one.
        level: Where the edge that it is a bite of lies on the other axis, mm.
    """

    axis: int
    low: float
    high: float
    level: float

    @property
    def mouth(self) -> tuple[Point, Point]:
        """Where its first and its last corner lie along the edge that it is a bite of."""
        ends = ((self.low, self.level), (self.high, self.level))
        return ends if self.axis == X else ((self.level, self.low), (self.level, self.high))


@dataclass(frozen=True, kw_only=True)
class Region:
    """A piece of slab in its own frame, whose axes run along its main directions.

    Attributes:
        name: Name in the solution's table, ``R1``, ``R2``, ...
        concrete: The concrete, boxouts cut out; one polygon.
        gross: The same with the boxouts still in, and the nooks where they are told.
        nooks: Bites out of its edge that ``gross`` has filled.
        walls: The walls on it, each path clipped to it; a wall that is clipped into several pieces
            comes once for each piece under the same id.
        wishes: Ids of walls that only wish for a joint, because they are short (``wishes``).
        columns: Columns whose boxout or centre touches it.
        penetrations: Penetrations in it.
        zones: Areas with limits of their own.
        keep_outs: Areas where no joint may go; those whose cover leaves room for the cut are not
            listed.
        pinned: Joints that must stay, clipped to it.
        forbidden: Lines along which no joint may lie, clipped to it.
        patterns: Wishes for the look of open areas.
        landings: Places on its border where the joints of neighbouring regions arrive; lines through
            them are preferred.
        working: The limits outside the zones.
        stretch: How many times the working span a panel may be long, at a price: at most to the greatest span.
        advised: Aspect, width and angle that are advised; beyond them costs, within is free.
        baseline: Origin of whole-inch positions.
        step: The step of those positions, mm: one inch or 10 mm.
        display: How lengths are written in notes.
    """

    name: str
    concrete: Polygon
    gross: Polygon
    working: WorkingLimits
    advised: WorkingLimits
    stretch: float = 1.0
    walls: tuple[Wall, ...] = ()
    wishes: frozenset[str] = frozenset()
    nooks: tuple[Nook, ...] = ()
    columns: tuple[Column, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    zones: tuple[RegionZone, ...] = ()
    keep_outs: tuple[KeepOut, ...] = ()
    pinned: tuple[GivenJoint, ...] = ()
    forbidden: tuple[GivenJoint, ...] = ()
    patterns: tuple[Pattern, ...] = ()
    landings: tuple[Point, ...] = ()
    baseline: Point = (0.0, 0.0)
    step: float = 25.4
    display: Display = Display.FEET_INCHES

    @cached_property
    def wall_tree(self) -> shapely.STRtree:
        """The lines of its walls, to be looked up by place."""
        return shapely.STRtree([wall.line for wall in self.walls])

    @cached_property
    def thickest(self) -> float:
        """Thickness of its thickest wall, mm."""
        return max((wall.thickness for wall in self.walls), default=0.0)

    @cached_property
    def sides(self) -> Sides:
        """The straight pieces of its edges, then those of its walls."""
        edges = [("", pair) for ring in rings_of(self.gross) for pair in pairwise(ring.coords)]
        parts = [(wall.id, pair) for wall in self.walls for pair in pairwise(wall.path)]
        named = [*edges, *parts]
        ends = np.array([pair for _, pair in named], dtype=float).reshape(-1, 2, 2)
        return Sides(
            ends=ends,
            lines=np.asarray(shapely.linestrings(ends)),
            walls=np.array([name for name, _ in named], dtype=str),
        )


@dataclass(frozen=True, kw_only=True)
class Cut:
    """A straight, bent or curved piece of joint; collinear pieces become one saw pass later.

    Attributes:
        path: Its line, in the frame of the region (or of the slab, where that is said).
        reason: Why it is there; of one that was chosen that is said at last (``reasons``).
        note: The reason in words. The text ``{at}`` in it stands for the place of ``at``, written in
            the job's units from the slab's lower left corner.
        at: The feature that asked for it, in the same frame as the path.
        kind: What joint it is.
        depth: Depth that the user gave; None leaves it to the rules.
    """

    path: tuple[Point, ...]
    reason: Reason = Reason.SPAN
    note: str = ""
    at: Point | None = None
    kind: JointKind = JointKind.CONTROL
    depth: float | None = None

    @cached_property
    def line(self) -> LineString:
        """Its line."""
        return LineString(self.path)

    @property
    def is_straight(self) -> bool:
        """Whether it runs from end to end without a bend."""
        return not self.path[1:-1]

    def moved(self, there: Callable[[Point], Point]) -> "Cut":
        """The same where each point is taken."""
        at = there(self.at) if self.at else None
        return replace(self, path=tuple(there(p) for p in self.path), at=at)


STATES = (Status.OPTIMAL, Status.TIME_LIMIT, Status.PARTS, Status.HEURISTIC)
"""How far a search may come, from the best; that of a whole is the worst of its parts', and no better than in parts."""

CLOSED = 1e-6
"""Share of the cost by which cost and bound may differ and still be the same."""


@dataclass(frozen=True)
class Proof:
    """What a part costs, and the least that it may cost on its candidate lines.

    Attributes:
        cost: Weighted cost in mm of joint.
        bound: Proven lower bound of that cost; 0 where nothing is proven.
    """

    cost: float = 0.0
    bound: float = 0.0

    @property
    def status(self) -> Status:
        """How far the search came; of a part that costs nothing there is nothing to prove."""
        if self.bound <= 0.0 < self.cost:
            return Status.HEURISTIC
        closed = self.cost - self.bound <= CLOSED * self.cost
        return Status.OPTIMAL if closed else Status.TIME_LIMIT


def together(parts: Iterable[Proof]) -> tuple[Status, Proof]:
    """How far the search for the best came in a layout of parts that were searched one after the other."""
    found = list(parts)
    whole = Proof(sum(part.cost for part in found), sum(part.bound for part in found))
    return _worst([part.status for part in found]), whole


def _worst(states: Sequence[Status]) -> Status:
    some = [Status.PARTS] if len(states) > 1 else []
    return max([*states, *some], key=STATES.index, default=Status.OPTIMAL)


@dataclass(frozen=True, kw_only=True)
class RegionLayout:
    """The cuts of one region, and how good they are.

    Attributes:
        cuts: In the region's frame.
        walls_left: Id of each wall without a joint, and why, in words.
        wall_shifts: Id of each wall whose joint lies off its centre line, and by how much in mm.
        status: How far the search came.
        cost: Weighted cost in mm of joint.
        bound: Proven lower bound of that cost on the candidate lines.
        length_bound: Lower bound of the joint length for any positions, mm.
        through_bound: That of layouts whose joints run through, as these do; 0 where these do not.
        notes: Sentences that the user should read.
    """

    cuts: tuple[Cut, ...]
    walls_left: Mapping[str, str] = field(default_factory=dict)
    wall_shifts: Mapping[str, float] = field(default_factory=dict)
    status: Status = Status.OPTIMAL
    cost: float = 0.0
    bound: float = 0.0
    length_bound: float = 0.0
    through_bound: float = 0.0
    notes: tuple[str, ...] = ()

    @staticmethod
    def joined(parts: Sequence["RegionLayout"]) -> "RegionLayout":
        """The layout of several parts in one frame."""
        return RegionLayout(
            cuts=tuple(cut for part in parts for cut in part.cuts),
            walls_left={k: why for part in parts for k, why in part.walls_left.items()},
            wall_shifts={k: mm for part in parts for k, mm in part.wall_shifts.items()},
            status=_worst([part.status for part in parts]),
            cost=sum(part.cost for part in parts),
            bound=sum(part.bound for part in parts),
            length_bound=sum(part.length_bound for part in parts),
            through_bound=sum(max(part.length_bound, part.through_bound) for part in parts),
            notes=tuple(note for part in parts for note in part.notes),
        )


@dataclass(frozen=True, kw_only=True)
class PlacedRegion:
    """A region and where it lies in the slab.

    Attributes:
        region: The region, in its frame.
        angle: Direction of the frame's x axis in the slab, degrees.
        orthogonal: Whether the exact solver for near-orthogonal pieces takes it; otherwise the
            general one does.
        borders: Cuts along its border with other regions, in the slab's own frame; each shared line
            is listed with one of its two regions only.
    """

    region: Region
    angle: float = 0.0
    orthogonal: bool = True
    borders: tuple[Cut, ...] = ()

    def to_slab(self, point: Point) -> Point:
        """A point of the region's frame in the slab's: turned by ``angle`` about the origin."""
        return turned(point, self.angle)

    def to_region(self, point: Point) -> Point:
        """A point of the slab in the region's frame."""
        return turned(point, -self.angle)


def turned(point: Point, angle: float) -> Point:
    """A point turned about the origin, angle in degrees; exact at multiples of 90."""
    cos, sin = cos_sin(angle)
    return (point[0] * cos - point[1] * sin, point[0] * sin + point[1] * cos)


def cos_sin(angle: float) -> Point:
    """Cosine and sine of an angle in degrees, exact at multiples of 90."""
    quarter = round(angle / 90.0)
    if angle == quarter * 90.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[quarter % 4]
    radians = math.radians(angle)
    return math.cos(radians), math.sin(radians)


def turned_shape(shape: Polygon, angle: float) -> Polygon:
    """A polygon turned about the origin, angle in degrees; exact at multiples of 90."""
    cos, sin = cos_sin(angle)
    return affinity.affine_transform(shape, [cos, -sin, sin, cos, 0.0, 0.0])


def along_axis(start: Point, end: Point) -> int | None:
    """The axis whose lines run along a segment; None where it lies across both."""
    dx, dy = abs(end[0] - start[0]), abs(end[1] - start[1])
    if max(dx, dy) <= SAME:
        return None
    if dx <= NEAR_AXIS * dy:
        return X
    if dy <= NEAR_AXIS * dx:
        return Y
    return None


def overshot(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A path whose ends reach a hair beyond what they end on, so that rounding leaves no gap."""
    head, *_, foot = drawn_out(path, HAIR)
    return (head, *path[1:-1], foot)


def drawn_out(path: tuple[Point, ...], far: float) -> tuple[Point, ...]:
    """A path run straight on so far (mm) beyond both its ends."""
    ends = []
    for inner, end in ((path[1], path[0]), (path[-2], path[-1])):
        ends.append(ahead(end, direction(inner, end), far))
    return (ends[0], *path, ends[1])


def given_reason(joint: GivenJoint) -> tuple[Reason, str]:
    """The reason for a given joint, and in words."""
    if joint.existing:
        return Reason.FOUND, f"existing joint {joint.id}"
    if joint.reason == Reason.FALL:
        return Reason.FALL, joint.note
    return Reason.PINNED, f"pinned joint {joint.id}"


def parts_in(shape: Polygon, path: Sequence[Point]) -> list[tuple[Point, ...]]:
    """The parts of a path in a figure that are long enough to see."""
    parts = lines_of(shapely.line_merge(LineString(path).intersection(shape)))
    return [points_of(part) for part in parts if part.length > TOUCH]
