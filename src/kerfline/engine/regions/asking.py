"""What asks for a joint: lines such as walls, and points such as columns and drains."""

from dataclasses import dataclass

from shapely import LineString

from kerfline.geometry.ring import Point
from kerfline.model.layout import Reason


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
