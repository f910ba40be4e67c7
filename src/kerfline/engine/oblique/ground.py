"""What the general method works on: one piece of concrete and everything that bears on its joints."""

from dataclasses import dataclass, field

import shapely
from shapely import LineString, Polygon

from kerfline.engine.effort import Effort
from kerfline.engine.oblique.steps import Steps
from kerfline.engine.options import EFFORT
from kerfline.engine.region import Cut
from kerfline.geometry.ring import Point
from kerfline.model.layout import Reason, WorkingLimits


@dataclass(frozen=True, kw_only=True)
class Line:
    """A line that asks for a joint.

    Attributes:
        name: Id of the wall or of the given joint.
        path: The line.
        slack: How far (mm) to either side the joint may lie.
        reason: What the line is.
        needed: Whether it cannot go without a joint.
    """

    name: str
    path: LineString
    slack: float = 0.0
    reason: Reason = Reason.WALL
    needed: bool = False


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


@dataclass(frozen=True, kw_only=True)
class Ground:
    """One piece of concrete.

    Attributes:
        concrete: The piece, openings and boxouts taken out.
        limits: What holds on it.
        lines: Walls and given joints.
        walls: Walls along the axes, whose joints are chosen; their lines may yield.
        under: The joints that serve those walls where no choice can be made.
        bare: What a panel costs that runs through under a wall: for each mm of wall, and once.
        targets: Points that joints should meet.
        shies: Points that joints pass through or stay clear of.
        barred: Areas (and lines widened by a touch) that no joint may cross.
        border: Sides of the piece that are joints already, shared with a neighbour.
        landings: Points on the border where the neighbour's joints arrive.
        steps: The whole steps along the frame's x and y, on which straight joints stand where the
            limits allow; None for any place, so that joints can meet those of a neighbour.
        more: Further places for lines on either axis of the chart, mm.
        knees: Places where candidate lines bend on purpose: no corners of a panel.
        effort: What may be spent on it, shared by all that is tried.
    """

    concrete: Polygon
    limits: WorkingLimits
    lines: tuple[Line, ...] = ()
    walls: tuple[Line, ...] = ()
    under: tuple[Cut, ...] = ()
    bare: tuple[float, float] = (0.0, 0.0)
    targets: tuple[Target, ...] = ()
    shies: tuple[Shy, ...] = ()
    barred: shapely.Geometry = field(default_factory=Polygon)
    border: shapely.Geometry | None = None
    landings: tuple[Point, ...] = ()
    steps: tuple[Steps, Steps] | None = None
    more: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
    knees: tuple[Point, ...] = ()
    effort: Effort = field(default_factory=lambda: Effort(EFFORT), compare=False)


@dataclass(frozen=True, kw_only=True)
class Pieces:
    """What the general method answers for one piece of concrete.

    Attributes:
        panels: The panels, which tile the piece.
        cuts: The joints between them.
        cost: The weighted cost in mm of joint.
        bound: Proven bound of that cost on the candidate lines; 0 where nothing is proven.
    """

    panels: tuple[Polygon, ...]
    cuts: tuple[Cut, ...]
    cost: float
    bound: float = 0.0
