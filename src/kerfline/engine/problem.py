"""What the general method works on: one piece of concrete and everything that bears on its joints."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.engine.effort import Effort
from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.score import Floor, Score, score_of
from kerfline.engine.measure.shape import Shape
from kerfline.engine.options import EFFORT, Weights
from kerfline.engine.regions.features import AskingLine, Shy, Target
from kerfline.engine.regions.region import Cut
from kerfline.engine.steps import Steps
from kerfline.geometry.arrays import Numbers, Shapes
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import WorkingLimits


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
        targets: Points that joints should meet.
        shies: Points that joints pass through or stay clear of.
        passed: Points past which no panel's side should run on, and what one that does costs, mm of joint.
        barred: Areas (and lines widened by a touch) that no joint may cross.
        border: Sides of the piece that are joints already, shared with a neighbour.
        landings: Points on the border where the neighbour's joints arrive.
        steps: The whole steps along the frame's x and y, on which straight joints stand where the
            limits allow; None for any place, so that joints can meet those of a neighbour.
        stay: Places of lines on either axis of the chart that are kept instead of even divisions; None for those.
        more: Further places for lines on either axis of the chart, mm, the most wanted first.
        knees: Places where candidate lines bend on purpose: no corners of a panel.
        effort: What may be spent on it, shared by all that is tried.
        tried: The lines on which it was searched, shared by all that is tried; None where they are not remembered.
    """

    concrete: Polygon
    limits: WorkingLimits
    advised: WorkingLimits | None = None
    stretch: float = 1.0
    weights: Weights = field(default_factory=Weights)
    lines: tuple[AskingLine, ...] = ()
    walls: tuple[AskingLine, ...] = ()
    under: tuple[Cut, ...] = ()
    targets: tuple[Target, ...] = ()
    shies: tuple[Shy, ...] = ()
    passed: tuple[tuple[Point, float], ...] = ()
    barred: shapely.Geometry = field(default_factory=Polygon)
    border: BaseGeometry | None = None
    landings: tuple[Point, ...] = ()
    steps: tuple[Steps, Steps] | None = None
    stay: tuple[tuple[float, ...], tuple[float, ...]] | None = None
    more: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
    knees: tuple[Point, ...] = ()
    effort: Effort = field(default_factory=lambda: Effort(EFFORT), compare=False)
    tried: set[Hashable] | None = field(default=None, compare=False, repr=False)

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
            walls=self.walls,
            targets=self.targets,
            border=self.border,
            landings=self.landings,
        )

    @cached_property
    def under_walls(self) -> shapely.Geometry:
        """The strips that hide joints, of the walls whose joints are chosen."""
        return shapely.union_all([wall.band for wall in self.walls])

    def score(self, pieces: "PieceLayout", settled: Sequence[LineString]) -> Score:
        """How good a layout of it is."""
        lines = [c.line for c in pieces.cuts]
        return score_of(self.floor, pieces.panels, lines, settled)

    @property
    def greatest(self) -> float:
        """The length (mm) that no panel exceeds."""
        return self.limits.span * self.stretch

    def is_new(self, *lines: Hashable) -> bool:
        """Whether it was not searched on those lines before, which would only be found the same again."""
        if self.tried is None:
            return True
        known = lines in self.tried
        self.tried.add(lines)
        return not known

    def price(self, shape: Shape) -> float:
        """What a panel costs, its joints not counted, in mm of joint."""
        return float(self.cost.of(shape) + self.cost.uneven(shape))

    def hides(self, at: Point) -> bool:
        """Whether a place lies under a wall whose joint is chosen."""
        paths, reach = self._hiding
        return bool((shapely.distance(paths, shapely.Point(at)) <= reach).any())

    @cached_property
    def _hiding(self) -> tuple[Shapes, Numbers]:
        """The walls whose joints are chosen, and how far off each hides a joint (mm)."""
        paths = np.array([w.path for w in self.walls], dtype=object)
        return paths, np.array([w.slack + TOUCH for w in self.walls])

    def firmed(self) -> tuple["Problem", tuple[Cut, ...]]:
        """The piece without a choice of walls, and the joints under them."""
        known = tuple(AskingLine(name="", path=c.line) for c in self.under)
        return replace(self, lines=(*self.lines, *known), walls=(), under=()), self.under

    def holds(self, shape: Shape) -> bool:
        """Whether no straight run of a panel is longer than the span."""
        return bool(shape.span <= self.greatest + MEASURE)


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

    def with_cuts(self, cuts: Sequence[Cut]) -> "PieceLayout":
        """The layout with joints that were settled for it."""
        length = sum(c.line.length for c in cuts)
        return replace(
            self,
            cuts=(*cuts, *self.cuts),
            cost=self.cost + length,
            bound=self.bound + length if self.bound else 0.0,
        )

    @staticmethod
    def joined(parts: Sequence["PieceLayout"]) -> "PieceLayout":
        """The layout of a piece by those of its parts."""
        return PieceLayout(
            panels=tuple(p for part in parts for p in part.panels),
            cuts=tuple(c for part in parts for c in part.cuts),
            cost=sum(part.cost for part in parts),
            bound=sum(part.bound for part in parts),
        )
