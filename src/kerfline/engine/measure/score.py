"""Which of two layouts is better: one order, measured on the true panels, wherever two are compared."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.shape import shape_of, sharp_places
from kerfline.engine.options import Weights, feet
from kerfline.engine.regions.arcs import FoundArc, flattened_arcs
from kerfline.engine.regions.features import AskingLine, Target
from kerfline.engine.regions.region import drawn_out
from kerfline.geometry.ends import EndKind, chalk_lines, joint_ends
from kerfline.geometry.faces import Area, faces, points_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH

MEETS = 1.0
"""A joint this close (mm) to the end of a neighbour's meets it."""


@dataclass(frozen=True, order=True)
class Score:
    """How good a layout is; the lesser is the better.

    Whole numbers, so that the last bits of a float decide nothing, and the order is total.

    Attributes:
        loose: Joints that end in the open, which no layout may have: first of all there are none of them.
        faults: Rules broken: panels over the span, over the aspect, too narrow or hooked, sharp corners beyond
            the slab's own, and joints that end in the open.
        cost: Weighted cost in mm of joint, to the whole millimetre.
    """

    loose: int
    faults: int
    cost: int

    def with_cost(self, share: float) -> "Score":
        """The same with its cost times a share."""
        return Score(self.loose, self.faults, round(self.cost * share))


@dataclass(frozen=True, kw_only=True)
class Floor:
    """What layouts are compared on.

    Attributes:
        concrete: The concrete.
        cost: The prices of panels.
        walls: The walls.
        targets: Points that ask for a joint.
        border: Sides where a neighbour's joints arrive; None for none.
        landings: Where they do.
    """

    concrete: Polygon
    cost: Cost
    walls: tuple[AskingLine, ...] = ()
    targets: tuple[Target, ...] = ()
    border: BaseGeometry | None = None
    landings: tuple[Point, ...] = ()

    @cached_property
    def arcs(self) -> tuple[FoundArc, ...]:
        """The arcs in its edges."""
        return tuple(flattened_arcs(self.concrete))

    @cached_property
    def own_sharp(self) -> int:
        """How many corners of its own are under the least angle."""
        return len(sharp_places(self.concrete, self.cost.working.angle, self.arcs))


def score_of(
    floor: Floor,
    panels: Sequence[Polygon],
    joints: Sequence[LineString],
    settled: Sequence[LineString] = (),
) -> Score:
    """How good a layout is.

    Args:
        floor: What it is laid out on.
        panels: Its panels.
        joints: Its joints.
        settled: Joints inside the concrete that are there in any case, and cost nothing here.
    """
    weights, angle = floor.cost.weights, floor.cost.working.angle
    knees = [at for j in joints for at in list(j.coords)[1:-1]]
    shapes = [shape_of(p, angle, [(at[0], at[1]) for at in knees], floor.arcs) for p in panels]
    every = [*settled, *joints]
    tees, free = _ends(floor, weights, every)
    cost = (
        sum(float(floor.cost.of(s) + floor.cost.uneven(s)) for s in shapes)
        + _lengths(floor, weights, joints)
        + feet(weights.line) * (chalk_lines(joints) if joints else 0)
        + feet(weights.over_joint) * free
        + tees
        + _missed(floor, every)
    )
    faults = sum(int(floor.cost.faults(s)) for s in shapes) + free - floor.own_sharp
    return Score(free, faults, round(cost))


def _lengths(floor: Floor, weights: Weights, joints: Sequence[LineString]) -> float:
    """What the length of joint costs, in the open and under walls."""
    length = sum(j.length for j in joints)
    if not floor.walls or not joints:
        return weights.length_open * length
    bands = shapely.union_all([w.band for w in floor.walls])
    hidden = float(shapely.intersection(shapely.union_all(list(joints)), bands).length)
    return weights.length_open * (length - hidden) + weights.length_hidden * hidden


def _ends(floor: Floor, weights: Weights, joints: Sequence[LineString]) -> tuple[float, int]:
    """What tee ends cost, in the open, under walls and beside a neighbour's joints; and how many ends are free."""
    found = joint_ends(floor.concrete, list(joints)) if joints else []
    spots = [shapely.Point(e.at) for e in found]
    landings = shapely.MultiPoint(floor.landings)
    cost, free = 0.0, 0
    for end, spot in zip(found, spots, strict=True):
        beside = floor.border is not None and end.kind is EndKind.EDGE
        passed = beside and floor.border.distance(spot) <= MEETS  # type: ignore[union-attr] # beside
        if end.kind is EndKind.TEE or (passed and landings.distance(spot) > MEETS):
            hidden = any(w.path.distance(spot) <= w.slack + TOUCH for w in floor.walls)
            cost += feet(weights.tee_hidden if hidden else weights.tee)
        free += end.kind is EndKind.FREE
    ends = shapely.MultiPoint([e.at for e in found])
    unmet = sum(ends.is_empty or ends.distance(shapely.Point(at)) > MEETS for at in floor.landings)
    return cost + feet(weights.landing) * unmet, free


def _missed(floor: Floor, joints: Sequence[LineString]) -> float:
    """What points and walls cost that have no joint."""
    cuts = shapely.union_all(list(joints))
    rim = shapely.union_all([cuts, floor.concrete.boundary])
    missed = sum(t.weight for t in floor.targets if rim.distance(shapely.Point(t.at)) > 2 * SAME)
    return missed + sum(_bare(floor.cost, wall, cuts) for wall in floor.walls)


def _bare(cost: Cost, wall: AskingLine, cuts: BaseGeometry) -> float:
    """What a wall costs for what of it has no joint under it."""
    bare = wall.path.length - min(wall.path.length, float(cuts.intersection(wall.band).length))
    if wall.short:
        return cost.weights.wall_short * bare
    return float(cost.bare(bare, wall.path.length))


def panels_between(concrete: Area, joints: Sequence[LineString]) -> list[Polygon]:
    """The pieces that joints cut the concrete into, in reading order.

    An end within ``TOUCH`` of what it ends on counts as ending there: every joint is drawn out by that
    much, and what sticks out beyond the other joint or the edge cuts nothing.
    """
    return faces(
        concrete,
        [LineString(drawn_out(points_of(j), TOUCH)) if j.length > SAME else j for j in joints],
    )
