"""Depths of cut that a drawing notes for its joints, as in ``SAWCUT 1 1/4" DEEP``.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import LineString

from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.joint_kinds import names_joints
from kerfline.files.drawing.joint_labels import NEAR
from kerfline.geometry.ring import Point
from kerfline.model.slab import GivenJoint, JointKind
from kerfline.units import MM_PER_INCH, Display, counted, format_depth

AMOUNT = r"(\d+(?:\.\d+)?)(?:\s*[- ]\s*(\d+)/(\d+)|/(\d+))?\s*(\"|''|IN\b|INCH(?:ES)?\b|MM\b)"
DEEP = re.compile(rf"{AMOUNT}\.?\s*(?:DEEP|DP\b)")
DEPTH = re.compile(rf"\bDEPTH(?:\s+OF(?:\s+SAW)?\s*CUT)?\s*[:=,]?\s*{AMOUNT}")
OF_SLAB = r"(?:(?:OF\s+)?(?:THE\s+)?(?:SLAB|FLOOR)?\s*(?:THICKNESS|DEPTH|[TD]\b))"
SHARE = re.compile(
    rf"(?<!DETAIL )(?<!SEE )(?<!DET )(?<!DET\. )\b[TD]\s*/\s*(?P<under>[2-8])\b|\b1\s*/\s*(?P<part>[2-8])\s*{OF_SLAB}"
    rf"|\bONE[- ](?P<word>QUARTER|THIRD)\s+{OF_SLAB}"
)
WORDS = {"QUARTER": 4, "THIRD": 3}
SAW = re.compile(r"SAW|\bCUTS?\b|TOOLED")

DEEPEST = 150.0
"""No joint is sawn deeper than this (mm, about 6 in); a deeper figure speaks of something else."""


@dataclass(frozen=True, kw_only=True)
class NotedDepth:
    """A depth of cut that a label gives.

    Attributes:
        at: Where the label stands.
        depth: The depth, mm; 0 where the label gives a share.
        share: The depth as a share of the slab's thickness; 0 where the label gives a length.
    """

    at: Point
    depth: float = 0.0
    share: float = 0.0

    def words(self, display: Display) -> str:
        """As the user reads it: ``1 1/4"``, or ``1/4 of the slab's thickness``."""
        if self.share:
            return f"1/{round(1 / self.share)} of the slab's thickness"
        return format_depth(self.depth, display)

    @property
    def amount(self) -> tuple[float, float]:
        """What tells depths apart, and their order: the shallowest first."""
        return (round(self.depth, 2), round(self.share, 4))

    def on(self, joint: GivenJoint) -> GivenJoint:
        """A joint with this depth."""
        if self.share:
            return replace(joint, depth_share=self.share)
        return replace(joint, depth=self.depth)


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
        found += [NotedDepth(share=_share(m), at=label.at) for m in SHARE.finditer(text)]
    return tuple(found)


def _amount(match: re.Match[str]) -> float:
    """The length that a match of ``AMOUNT`` stands for, mm; 0 where it divides by nothing."""
    whole, over, under, divisor, unit = match.groups()[:5]
    if divisor is not None:
        value = float(whole) / float(divisor) if float(divisor) else 0.0
    else:
        value = float(whole) + (float(over) / float(under) if under and float(under) else 0.0)
    return value * (1.0 if unit == "MM" else MM_PER_INCH)


def _share(match: re.Match[str]) -> float:
    """The share that a match of ``SHARE`` stands for."""
    under = match["under"] or match["part"]
    return 1 / (int(under) if under else WORDS[match["word"]])


def with_depths(
    joints: Sequence[GivenJoint], labels: Sequence[Label], display: Display
) -> tuple[tuple[GivenJoint, ...], list[str]]:
    """The joints with the depths that the drawing notes, and a sentence on them.

    One depth on the whole drawing holds for every control joint; of several each holds for the joint
    that its label stands beside.
    """
    noted = noted_depths(labels)
    kinds = {n.amount: n for n in noted}
    sawn = [i for i, j in enumerate(joints) if j.kind is JointKind.CONTROL]
    if not kinds or not sawn:
        return tuple(joints), []
    listed = ", ".join(dict.fromkeys(kinds[amount].words(display) for amount in sorted(kinds)))
    if len(kinds) == 1:
        own = dict.fromkeys(sawn, noted[0])
        words = f"Depth of cut {listed}, noted on the drawing: taken for all control joints."
    else:
        own = _beside(joints, sawn, noted)
        words = (
            f"Depths of cut {listed} are noted on the drawing: each taken for the joint beside it, "
            f"{counted(len(own), 'joint')} in all."
        )
    return tuple(own[i].on(j) if i in own else j for i, j in enumerate(joints)), [words]


def _beside(
    joints: Sequence[GivenJoint], sawn: Sequence[int], noted: Sequence[NotedDepth]
) -> dict[int, NotedDepth]:
    """The depth of each control joint that labels stand beside; of two that disagree the lesser, a share last."""
    lines = [LineString(joints[i].path) for i in sawn]
    tree = shapely.STRtree(lines)
    own: dict[int, NotedDepth] = {}
    for note in noted:
        spot = shapely.Point(note.at)
        nearest = int(tree.nearest(spot))
        if lines[nearest].distance(spot) <= NEAR:
            joint = sawn[nearest]
            own[joint] = min(note, own.get(joint, note), key=_shallow)
    return own


def _shallow(note: NotedDepth) -> tuple[bool, float, float]:
    return (note.share > 0, *note.amount)
