"""What is decided: joints, the panels between them, and how good the answer is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from shapely import LineString, Polygon

from kerfline.geometry.rectangle import Rectangle, enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.span import span_of
from kerfline.model.slab import JointKind


class Reason(StrEnum):
    """Why a joint is where it is."""

    WALL = "wall"
    CORNER = "corner"
    COLUMN = "column"
    PENETRATION = "penetration"
    OPENING = "opening"
    ZONE = "zone"
    SPAN = "span"
    ASPECT = "aspect"
    PATTERN = "pattern"
    FALL = "fall"
    KEEP_OUT = "keep-out"
    PINNED = "pinned"
    FOUND = "found"


@dataclass(frozen=True, kw_only=True)
class Dowels:
    """The dowels of one construction joint, mm.

    Attributes:
        count: How many.
        diameter: Of each.
        length: Of each.
        spacing: Between centres.
    """

    count: int
    diameter: float
    length: float
    spacing: float


@dataclass(frozen=True, kw_only=True)
class Joint:
    """One saw pass or bulkhead: a straight or arc line from end to end, not chopped at crossings.

    Where the slab comes in several placements, a line that goes on in another placement is another joint:
    its concrete is of another age.

    Attributes:
        id: ``J1``, ``J2``, ... in reading order; ``CNTJ1``, ... for construction joints between placements.
        kind: What it is.
        path: Its line; two points where straight, flattened where an arc or bent.
        depth: Depth of the cut; 0 where the joint is not sawn.
        reason: Why it is there.
        note: The reason in words.
        hidden: Length of it that lies under walls.
        dowels: Those of a construction joint; None where it has none or no table of them is chosen.
    """

    id: str
    kind: JointKind
    path: tuple[Point, ...]
    depth: float
    reason: Reason
    note: str
    hidden: float = 0.0
    dowels: Dowels | None = None

    @cached_property
    def line(self) -> LineString:
        """The path as a line."""
        return LineString(self.path)

    @property
    def length(self) -> float:
        """Length in mm."""
        return float(self.line.length)


@dataclass(frozen=True, kw_only=True)
class Panel:
    """A piece of slab bounded by edges and joints.

    Attributes:
        id: ``P1``, ``P2``, ... in reading order.
        polygon: Its outline and the openings inside it.
    """

    id: str
    polygon: Polygon

    @cached_property
    def box(self) -> Rectangle:
        """The smallest enclosing rectangle, which gives length, width and aspect."""
        return enclosing_rectangle(self.polygon)

    @property
    def length(self) -> float:
        """Long side in mm."""
        return self.box.length

    @property
    def width(self) -> float:
        """Short side in mm."""
        return self.box.width

    @cached_property
    def span(self) -> float:
        """What is held against the greatest joint spacing: the length or a longer straight run, mm."""
        return span_of(self.polygon)

    @property
    def aspect(self) -> float:
        """Length over width."""
        return self.box.aspect

    @property
    def area(self) -> float:
        """Area of concrete in mm2."""
        return float(self.polygon.area)


class Status(StrEnum):
    """How far the search for the best layout came."""

    OPTIMAL = "optimal"
    TIME_LIMIT = "time-limit"
    PARTS = "parts"
    HEURISTIC = "heuristic"
    GIVEN = "given"


@dataclass(frozen=True, kw_only=True)
class Solution:
    """How good the layout is.

    Attributes:
        status: ``optimal`` on the candidate lines, stopped when its effort was used up, laid out in parts
            of which each is searched by itself, built by rule somewhere, or given by the user.
        cost: The weighted cost in mm of joint.
        bound: Proven lower bound of that cost on the candidate lines.
        length_bound: No layout with the same joints under walls, at columns and from corners, and where it falls
            into parts of its own directions the same between them, has less joint than this, wherever its other
            joints lie along the same directions, if its panels keep the spacing and the aspect that these keep, mm.
        through: Whether that is said only of layouts whose joints run through where these do: none ends on another in
            the open floor.
        seconds: Time the engine took; left out of comparisons.
        regions: Status and gap of each region, for slabs that fall into several.
    """

    status: Status
    cost: float = 0.0
    bound: float = 0.0
    length_bound: float = 0.0
    through: bool = False
    seconds: float = 0.0
    regions: tuple["RegionSolution", ...] = ()

    @property
    def gap(self) -> float:
        """Proven gap of the cost, as a share of it; 0 is proven best."""
        return max(0.0, (self.cost - self.bound) / self.cost) if self.cost else 0.0


@dataclass(frozen=True, kw_only=True)
class RegionSolution:
    """How good one region's layout is; the fields are those of ``Solution``."""

    name: str
    status: Status
    cost: float
    bound: float


@dataclass(frozen=True, kw_only=True)
class WorkingLimits:
    """The limits that the engine worked to, mm and degrees."""

    span: float
    aspect: float
    width: float
    angle: float


@dataclass(frozen=True, kw_only=True)
class Layout:
    """Joints and panels of one slab.

    Attributes:
        joints: In reading order.
        panels: In reading order; together they tile the slab's concrete.
        solution: How good the answer is.
        limits: What the engine worked to; None for a layout that was given.
        walls_left: Id of each wall without a joint, and why; lengths in the words as ``units.stored_length``.
        wall_shifts: Id of each wall whose joint lies off its centre line, and by how much in mm.
        notes: Sentences about the layout that the user should read; lengths in them likewise.
        added: Ids of the joints that a mend added to existing ones; None where this is no amended layout.
    """

    joints: tuple[Joint, ...]
    panels: tuple[Panel, ...]
    solution: Solution
    limits: WorkingLimits | None = None
    walls_left: Mapping[str, str] = field(default_factory=dict)
    wall_shifts: Mapping[str, float] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    added: frozenset[str] | None = None

    @property
    def joint_length(self) -> float:
        """Feet of cut, in mm."""
        return sum(j.length for j in self.joints)

    @property
    def hidden_length(self) -> float:
        """Length of joint under walls, in mm."""
        return sum(j.hidden for j in self.joints)
