"""The joints of a day by kind: what is sawn and what is formed between placements."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString

from kerfline.geometry.faces import lines_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind


@dataclass(frozen=True, kw_only=True)
class SawnLine:
    """A joint, or the part of it that is sawn.

    Attributes:
        joint: Id of the joint in the layout.
        line: Its line.
        depth: Depth of the cut, mm.
        hidden: Whether a wall will stand on some of it.
    """

    joint: str
    line: LineString
    depth: float
    hidden: bool


@dataclass(frozen=True, kw_only=True)
class JointLines:
    """The planned joints, those that become construction joints taken out of the sawn ones."""

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


def joint_lines(layout: Layout, construction: Sequence[LineString] = ()) -> JointLines:
    """Parts the joints of a layout into sawn and construction joints.

    Args:
        layout: The planned joints.
        construction: Lines along planned joints at which placements meet.
    """
    meets = shapely.union_all([line.buffer(TOUCH, cap_style="square") for line in construction])
    sawn = [
        SawnLine(joint=joint.id, line=part, depth=joint.depth, hidden=joint.hidden > 0)
        for joint in layout.joints
        if joint.kind is JointKind.CONTROL
        for part in lines_of(shapely.difference(joint.line, meets))
        if part.length > 2 * TOUCH
    ]
    planned = [j.line for j in layout.joints if j.kind is JointKind.CONSTRUCTION]
    fresh = [
        part
        for line in planned
        for part in lines_of(shapely.difference(line, meets))
        if part.length > 2 * TOUCH
    ]
    return JointLines(sawn=tuple(sawn), construction=(*construction, *fresh))
