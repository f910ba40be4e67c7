"""What the general method works on: one piece of concrete and everything that bears on its joints."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.engine.effort import Effort
from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.score import Floor, Score, WallLine, Wish, score_of
from kerfline.engine.measure.shape import Shape
from kerfline.engine.options import EFFORT, Weights
from kerfline.engine.regions.region import Cut
from kerfline.engine.steps import Steps
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason, WorkingLimits


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
class Problem:
    """One piece of concrete.

    Attributes:
        concrete: The piece, openings and boxouts taken out.
        limits: What holds on it.
        advised: What is advised on it; None where nothing is beyond the limits.
        stretch: How many times the span a panel may be long, at a price.
        weights: What each thing is worth.
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
    advised: WorkingLimits | None = None
    stretch: float = 1.0
    weights: Weights = field(default_factory=Weights)
    lines: tuple[AskingLine, ...] = ()
    walls: tuple[AskingLine, ...] = ()
    under: tuple[Cut, ...] = ()
    bare: tuple[float, float] = (0.0, 0.0)
    targets: tuple[Target, ...] = ()
    shies: tuple[Shy, ...] = ()
    barred: shapely.Geometry = field(default_factory=Polygon)
    border: BaseGeometry | None = None
    landings: tuple[Point, ...] = ()
    steps: tuple[Steps, Steps] | None = None
    more: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
    knees: tuple[Point, ...] = ()
    effort: Effort = field(default_factory=lambda: Effort(EFFORT), compare=False)

    @cached_property
    def cost(self) -> Cost:
        """The prices of panels on it."""
        return Cost(
            weights=self.weights,
            working=self.limits,
            advised=self.advised or self.limits,
            stretch=self.stretch,
        )

    @cached_property
    def floor(self) -> Floor:
        """What layouts of it are compared on."""
        return Floor(
            concrete=self.concrete,
            cost=self.cost,
            walls=tuple(WallLine(w.path, w.slack, w.short) for w in self.walls),
            wishes=tuple(Wish(at=t.at, price=t.weight) for t in self.targets if t.weight),
            border=self.border,
            landings=self.landings,
        )

    def score(self, pieces: "PieceLayout", settled: Sequence[LineString]) -> Score:
        """How good a layout of it is."""
        lines = [LineString(c.path) for c in pieces.cuts]
        return score_of(self.floor, pieces.panels, lines, settled)

    @property
    def greatest(self) -> float:
        """The length (mm) that no panel exceeds."""
        return self.limits.span * self.stretch

    def price(self, shape: Shape) -> float:
        """What a panel costs, its joints not counted, in mm of joint."""
        return float(self.cost.of(shape) + self.cost.uneven(shape))

    def hides(self, at: Point) -> bool:
        """Whether a place lies under a wall whose joint is chosen."""
        spot = shapely.Point(at)
        return any(w.path.distance(spot) <= w.slack + TOUCH for w in self.walls)

    def holds(self, shape: Shape) -> bool:
        """Whether no straight run of a panel is longer than the span."""
        return bool(shape.span <= self.greatest + MEASURE / 2)


@dataclass(frozen=True, kw_only=True)
class PieceLayout:
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
