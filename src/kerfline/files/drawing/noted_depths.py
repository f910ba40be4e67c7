"""Depths of cut that a drawing notes for its joints, as in ``SAWCUT 1 1/4" DEEP``."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import LineString

from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.joint_kinds import names_joints
from kerfline.files.drawing.joint_labels import NEAR
from kerfline.files.drawing.wording import counted
from kerfline.geometry.ring import Point
from kerfline.model.slab import GivenJoint, JointKind
from kerfline.units import MM_PER_INCH, Display, format_depth

AMOUNT = r"(\d+(?:\.\d+)?)(?:\s*[- ]\s*(\d+)/(\d+)|/(\d+))?\s*(\"|''|IN\b|INCH(?:ES)?\b|MM\b)"
DEEP = re.compile(rf"{AMOUNT}\.?\s*(?:DEEP|DP\b)")
DEPTH = re.compile(rf"\bDEPTH(?:\s+OF(?:\s+SAW)?\s*CUT)?\s*[:=,]?\s*{AMOUNT}")
SAW = re.compile(r"SAW|\bCUTS?\b|TOOLED")

DEEPEST = 150.0
"""No joint is sawn deeper than this (mm, about 6 in); a deeper figure speaks of something else."""


@dataclass(frozen=True, kw_only=True)
class NotedDepth:
    """A depth of cut that a label gives.

    Attributes:
        depth: The depth, mm.
        at: Where the label stands.
    """

    depth: float
    at: Point


def noted_depths(labels: Sequence[Label]) -> tuple[NotedDepth, ...]:
    """The depths of cut that labels about joints give, in the order of the labels."""
    found = []
    for label in labels:
        text = label.text.upper()
        if not (SAW.search(text) or names_joints(text)):
            continue
        for match in (*DEEP.finditer(text), *DEPTH.finditer(text)):
            depth = _amount(match)
            if 0 < depth <= DEEPEST:
                found.append(NotedDepth(depth=depth, at=label.at))
    return tuple(found)


def _amount(match: re.Match[str]) -> float:
    """The length that a match of ``AMOUNT`` stands for, mm; 0 where it divides by nothing."""
    whole, over, under, divisor, unit = match.groups()[:5]
    if divisor is not None:
        value = float(whole) / float(divisor) if float(divisor) else 0.0
    else:
        value = float(whole) + (float(over) / float(under) if under and float(under) else 0.0)
    return value * (1.0 if unit == "MM" else MM_PER_INCH)


def with_depths(
    joints: Sequence[GivenJoint], labels: Sequence[Label], display: Display
) -> tuple[tuple[GivenJoint, ...], list[str]]:
    """The joints with the depths that the drawing notes, and a sentence on them.

    One depth on the whole drawing holds for every control joint; of several each holds for the joint
    that its label stands beside.
    """
    noted = noted_depths(labels)
    depths = sorted({round(n.depth, 2) for n in noted})
    sawn = [i for i, j in enumerate(joints) if j.kind is JointKind.CONTROL]
    if not depths or not sawn:
        return tuple(joints), []
    if len(depths) == 1:
        own = dict.fromkeys(sawn, depths[0])
        words = f"Depth of cut {format_depth(depths[0], display)}, noted on the drawing: taken for all control joints."
    else:
        own = _beside(joints, sawn, noted)
        listed = ", ".join(format_depth(d, display) for d in depths)
        words = (
            f"Depths of cut {listed} are noted on the drawing: each taken for the joint beside it, "
            f"{counted(len(own), 'joint')} in all."
        )
    out = (replace(j, depth=own[i]) if i in own else j for i, j in enumerate(joints))
    return tuple(out), [words]


def _beside(
    joints: Sequence[GivenJoint], sawn: Sequence[int], noted: Sequence[NotedDepth]
) -> dict[int, float]:
    """The depth of each control joint that labels stand beside; of two that disagree the lesser."""
    lines = [LineString(joints[i].path) for i in sawn]
    tree = shapely.STRtree(lines)
    own: dict[int, float] = {}
    for note in noted:
        spot = shapely.Point(note.at)
        nearest = int(tree.nearest(spot))
        if lines[nearest].distance(spot) <= NEAR:
            joint = sawn[nearest]
            own[joint] = min(note.depth, own.get(joint, note.depth))
    return own
