"""What asks for a joint: lines such as walls, and points such as columns and drains, each with what it costs to miss it."""

from dataclasses import dataclass
from functools import cached_property
from typing import assert_never

from shapely import LineString, Polygon

from kerfline.engine.options import Weights, feet
from kerfline.engine.regions.region import Region
from kerfline.engine.regions.walls import SQUARE
from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Meeting, Penetration, PenetrationKind


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
        own, other = (
            direction((x.coords[0][0], x.coords[0][1]), (x.coords[-1][0], x.coords[-1][1]))
            for x in (self.path, joint)
        )
        return abs(own[0] * other[1] - own[1] * other[0]) <= SQUARE


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


LARGE = 76.2
"""Pipes from this diameter (mm, 3 in) on ask for a joint through them (common practice)."""


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
