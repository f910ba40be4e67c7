"""The joints of a day by kind: what is sawn and what is formed between placements."""

from dataclasses import dataclass

from shapely import LineString

from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind


@dataclass(frozen=True, kw_only=True)
class SawnLine:
    """A joint that is sawn.

    Attributes:
        joint: Id of the joint in the layout.
        line: Its line.
        depth: Depth of the cut, mm.
        hidden: Whether a wall will stand on some of it.
        part: Which stretch of the joint it is, such as ``2 of 3``; empty where it is all of it.
    """

    joint: str
    line: LineString
    depth: float
    hidden: bool
    part: str = ""

    @property
    def name(self) -> str:
        """The joint, and which stretch of it."""
        return f"{self.joint} ({self.part})" if self.part else self.joint


@dataclass(frozen=True, kw_only=True)
class JointLines:
    """The joints that are sawn, and those that are formed between placements."""

    sawn: tuple[SawnLine, ...]
    construction: tuple[LineString, ...]

    @property
    def sawn_length(self) -> float:
        """Length in mm."""
        return sum(float(part.line.length) for part in self.sawn)

    @property
    def construction_length(self) -> float:
        """Length in mm."""
        return sum(float(line.length) for line in self.construction)


def joint_lines(layout: Layout) -> JointLines:
    """The joints of a layout by what is done for them."""
    return JointLines(
        sawn=tuple(
            SawnLine(joint=j.id, line=j.line, depth=j.depth, hidden=j.hidden > 0)
            for j in layout.joints
            if j.kind is JointKind.CONTROL
        ),
        construction=tuple(j.line for j in layout.joints if j.kind is JointKind.CONSTRUCTION),
    )
