"""What is given: the concrete and everything that stands on it or goes through it.

Words: see the glossary in DEVELOPERS.md. Lengths in mm, angles in degrees, y up.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import assert_never

import shapely
from shapely import LineString, Polygon, affinity
from shapely import Point as ShapelyPoint

from kerfline.geometry.corners import Corner, CornerGroup, corner_groups, corners_by_ring
from kerfline.geometry.faces import Area, area_of, left_by
from kerfline.geometry.ring import Point, Ring, circle

TIP = 1.0
"""A corner this near (mm) to the point of a diamond is that point."""


class EdgeKind(StrEnum):
    """What an edge of the slab stands against."""

    FREE = "free"
    TURNDOWN = "turndown"
    ISOLATED = "isolated"
    CONSTRUCTION = "construction"
    CONTINUOUS = "continuous"


class Boxout(StrEnum):
    """Shape of the isolation around a column."""

    DIAMOND = "diamond"
    SQUARE = "square"
    CIRCLE = "circle"
    NONE = "none"


class JointKind(StrEnum):
    """What a joint is."""

    CONTROL = "control"
    CONSTRUCTION = "construction"
    ISOLATION = "isolation"


class PenetrationKind(StrEnum):
    """What goes through the slab."""

    PIPE = "pipe"
    DRAIN = "drain"
    CONDUIT = "conduit"
    POST = "post"


class FallJoints(StrEnum):
    """Along which lines between the planes of a fall a joint is asked for."""

    BOTH = "both"
    VALLEYS = "valleys"
    RIDGES = "ridges"
    NONE = "none"


class Meeting(StrEnum):
    """What joints should do at a penetration."""

    AUTO = "auto"
    THROUGH = "through"
    CLEAR = "clear"


class BearingRule(StrEnum):
    """What a bearing wall on a thickened strip asks of joints."""

    BESIDE = "beside"
    DOWELED = "doweled"


class PatternKind(StrEnum):
    """What the user wants an open area to look like."""

    SQUARE = "square"
    DIAGONAL = "diagonal"
    ALIGNED = "aligned"


@dataclass(frozen=True, kw_only=True)
class Wall:
    """An interior wall.

    Attributes:
        id: Name on the sheets, such as ``W3``.
        path: Centre line, two points or more.
        thickness: Across the wall; a joint within it is hidden.
        bearing: Whether it carries load.
        strip_width: Width of the thickened strip under a bearing wall; 0 for none.
        strip_depth: Total depth of that strip; 0 for none.
        strip_slope: Run over rise of the strip's two sides below the slab; 1 for 45 degrees.
        bearing_rule: Whether joints go beside the strip or are doweled under it.
    """

    id: str
    path: tuple[Point, ...]
    thickness: float = 114.3
    bearing: bool = False
    strip_width: float = 0.0
    strip_depth: float = 0.0
    strip_slope: float = 0.0
    bearing_rule: BearingRule = BearingRule.BESIDE

    @cached_property
    def line(self) -> LineString:
        """The centre line."""
        return LineString(self.path)

    @cached_property
    def footprint(self) -> Polygon:
        """The area that hides a joint."""
        return self.line.buffer(self.thickness / 2, cap_style="flat", join_style="mitre")

    @property
    def takes_joint(self) -> bool:
        """Whether a plain sawn joint may lie under the wall."""
        return not self.bearing or self.bearing_rule is BearingRule.DOWELED


@dataclass(frozen=True, kw_only=True)
class Column:
    """A column and the isolation around it.

    Attributes:
        id: Name on the sheets, such as ``C1``.
        at: Centre.
        boxout: Shape of the isolation.
        size: Side of the square (also of the one that is turned to a diamond) or diameter.
        turn: Angle of the column's own axes from x in degrees; a diamond's points lie along them.
    """

    id: str
    at: Point
    boxout: Boxout = Boxout.DIAMOND
    size: float = 609.6
    turn: float = 0.0

    @cached_property
    def outline(self) -> Ring | None:
        """The boxout's edge; None where the column is cast in without one."""
        match self.boxout:
            case Boxout.NONE:
                return None
            case Boxout.CIRCLE:
                return circle(self.at, self.size / 2)
            case Boxout.SQUARE:
                return self._square(self.turn)
            case Boxout.DIAMOND:
                return self._square(self.turn + 45.0)
        assert_never(self.boxout)

    def _square(self, turn: float) -> Ring:
        """A square of the boxout's size about its centre, turned by an angle in degrees."""
        half = self.size / 2
        x, y = self.at
        square = shapely.box(x - half, y - half, x + half, y + half)
        return Ring.of(affinity.rotate(square, turn, origin=self.at))

    @property
    def points(self) -> tuple[Point, ...]:
        """The points of a diamond that joints should meet; none for other shapes."""
        match self.boxout:
            case Boxout.DIAMOND:
                return self.outline.points if self.outline else ()
            case Boxout.SQUARE | Boxout.CIRCLE | Boxout.NONE:
                return ()
        assert_never(self.boxout)

    @property
    def is_round(self) -> bool:
        """Whether the boxout's edge is one curve, which a joint may meet anywhere."""
        match self.boxout:
            case Boxout.CIRCLE:
                return True
            case Boxout.DIAMOND | Boxout.SQUARE | Boxout.NONE:
                return False
        assert_never(self.boxout)

    @property
    def is_square(self) -> bool:
        """Whether the boxout has sides along the column's own axes, whose corners a joint may leave."""
        match self.boxout:
            case Boxout.SQUARE:
                return True
            case Boxout.DIAMOND | Boxout.CIRCLE | Boxout.NONE:
                return False
        assert_never(self.boxout)


@dataclass(frozen=True, kw_only=True)
class Penetration:
    """A pipe, drain, conduit or post through the slab.

    Attributes:
        id: Name on the sheets, such as ``N1``.
        at: Centre.
        diameter: Across; may be 0 where it is not known.
        kind: What it is.
        meeting: Whether a joint should run through it or stay clear; ``auto`` is through where the
            layout can, else clear.
        clear: Least distance of a joint that does not run through, from the centre.
    """

    id: str
    at: Point
    diameter: float = 0.0
    kind: PenetrationKind = PenetrationKind.PIPE
    meeting: Meeting = Meeting.AUTO
    clear: float = 304.8

    @cached_property
    def footprint(self) -> Polygon:
        """The hole, as a polygon; empty where the diameter is not known."""
        return circle(self.at, self.diameter / 2).polygon if self.diameter else Polygon()


@dataclass(frozen=True, kw_only=True)
class Zone:
    """An area with its own thickness.

    Attributes:
        id: Name on the sheets.
        outline: Its boundary.
        thickness: Its own thickness.
        joint_at_border: Whether its border must be a joint.
        level: Height of its surface, mm above the datum that the job's levels count from; None where it is not told.
    """

    id: str
    outline: Ring
    thickness: float
    joint_at_border: bool = True
    level: float | None = None


@dataclass(frozen=True, kw_only=True)
class KeepOut:
    """An area where no saw may go.

    Attributes:
        id: Name on the sheets.
        outline: Its boundary.
        what: What lies there, such as ``tubing``.
        cover: Depth of concrete over it; None where it is not known, and then no cut may go there.
    """

    id: str
    outline: Ring
    what: str = "keep-out"
    cover: float | None = None


@dataclass(frozen=True, kw_only=True)
class Edge:
    """What one segment of the outline or of an opening is.

    Attributes:
        ring: 0 for the outline, n for the nth opening (from 1).
        segment: Index of the segment's first point in that ring.
        kind: What it stands against.
        depth: Total depth of a turned-down edge; 0 for none.
        width: Width of a turned-down edge at its bottom; 0 for none.
        slope: Run over rise of the inner face of a turned-down edge.
    """

    ring: int
    segment: int
    kind: EdgeKind
    depth: float = 0.0
    width: float = 0.0
    slope: float = 0.0


@dataclass(frozen=True, kw_only=True)
class GivenJoint:
    """A joint that the user draws: pinned, there already, or forbidden.

    Attributes:
        id: Name, such as ``G1``.
        path: Its line, flattened.
        kind: What it is.
        forbidden: True where no joint may lie along this line.
        existing: True where it is in the concrete already (a survey), False where it is planned.
        depth: Depth noted for it; None where none is noted.
        depth_share: Depth noted for it as a share of the slab's thickness, such as 0.25; None for none.
        reason: Why it is there where a layout that was laid out before has been kept, a value of
            ``layout.Reason``; empty where the user drew it.
        note: That reason in words.
    """

    id: str
    path: tuple[Point, ...]
    kind: JointKind = JointKind.CONTROL
    forbidden: bool = False
    existing: bool = False
    depth: float | None = None
    depth_share: float | None = None
    reason: str = ""
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """A wish for the look of an open area.

    Attributes:
        id: Name.
        area: Where it holds.
        kind: Square grid centred on the area, the same turned 45 degrees, or aligned to a line.
        along: Two points of the line for ``aligned``.
        spacing: Wished spacing; None leaves it to the limits.
    """

    id: str
    area: Ring
    kind: PatternKind = PatternKind.SQUARE
    along: tuple[Point, Point] | None = None
    spacing: float | None = None


@dataclass(frozen=True, kw_only=True)
class Fall:
    """An area whose surface falls to a drain from its border.

    Attributes:
        id: Name, such as ``D1``.
        area: Where the floor falls.
        to: The drain: one point, or the points of a channel.
        joints: Along which lines between its planes a joint is asked for.
        slope: How steeply its planes fall, in percent; None where it is not told.
    """

    id: str
    area: Ring
    to: tuple[Point, ...]
    joints: FallJoints = FallJoints.BOTH
    slope: float | None = None


@dataclass(frozen=True, kw_only=True)
class Slab:
    """The concrete as given, checked for sense by whoever read it (``files``).

    Attributes:
        outline: Outer edge.
        thickness: Thickness outside the zones.
        openings: Holes through the slab.
        level: Height of the top of slab, mm above the datum that the job's levels count from; None where it is not
            told.
        others: See the classes above; ``edges`` lists only segments that are not ``free``.
    """

    outline: Ring
    thickness: float
    openings: tuple[Ring, ...] = ()
    walls: tuple[Wall, ...] = ()
    columns: tuple[Column, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    zones: tuple[Zone, ...] = ()
    keep_outs: tuple[KeepOut, ...] = ()
    edges: tuple[Edge, ...] = ()
    joints: tuple[GivenJoint, ...] = ()
    patterns: tuple[Pattern, ...] = ()
    falls: tuple[Fall, ...] = ()
    level: float | None = None

    @cached_property
    def gross(self) -> Polygon:
        """Outline minus openings, boxouts still in."""
        return Polygon(self.outline.polygon.exterior, [o.polygon.exterior for o in self.openings])

    @cached_property
    def boxouts(self) -> tuple[Polygon, ...]:
        """The areas isolated around columns."""
        return tuple(c.outline.polygon for c in self.columns if c.outline)

    @cached_property
    def concrete(self) -> Area:
        """The slab that the joints divide: outline minus openings and boxouts.

        Boxouts that reach from edge to edge leave it in several pieces.
        """
        return area_of(self.pieces)

    @cached_property
    def pieces(self) -> tuple[Polygon, ...]:
        """The concrete piece by piece, in reading order; one where no boxout parts it."""
        return tuple(left_by(self.gross, self.boxouts))

    @cached_property
    def corner_groups(self) -> tuple[CornerGroup, ...]:
        """Re-entrant corners of the outline, the openings and the square boxouts, in the order of the edges.

        The points of diamonds are left to the rule on columns.
        """
        tips = shapely.MultiPoint([p for c in self.columns for p in c.points])
        return tuple(
            group
            for ring in corners_by_ring(self.concrete)
            for group in corner_groups(ring)
            if tips.is_empty or all(tips.distance(ShapelyPoint(c.at)) > TIP for c in group.corners)
        )

    @property
    def reentrant_corners(self) -> tuple[Corner, ...]:
        """Those corners, a chamfered one as one."""
        return tuple(group.whole for group in self.corner_groups)

    @cached_property
    def _wall_tree(self) -> shapely.STRtree:
        return shapely.STRtree([w.footprint for w in self.walls])

    def under_walls(self, line: LineString) -> float:
        """Length of a line that walls hide, mm."""
        near = sorted(self._wall_tree.query(line, "intersects").tolist())
        over = shapely.union_all([self.walls[int(i)].footprint for i in near])
        return float(line.intersection(over).length)

    def thickness_at(self, x: float, y: float) -> float:
        """Thickness at a point: that of the zone there, else the slab's."""
        if not self.zones:
            return self.thickness
        here = ShapelyPoint(x, y)
        return next(
            (z.thickness for z in self.zones if z.outline.polygon.covers(here)), self.thickness
        )

    @property
    def pinned(self) -> tuple[GivenJoint, ...]:
        """The joints that the user draws and that must stay."""
        return tuple(j for j in self.joints if not j.forbidden)

    @property
    def forbidden(self) -> tuple[GivenJoint, ...]:
        """The lines along which no joint may lie."""
        return tuple(j for j in self.joints if j.forbidden)
