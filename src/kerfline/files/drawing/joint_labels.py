"""The kind of joints on layers whose names do not say it, from the labels beside them.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.joint_kinds import is_ambiguous, kind_in, meaning_of_cj, names_joints
from kerfline.files.drawing.wording import place
from kerfline.geometry.ring import Point
from kerfline.model.slab import JointKind
from kerfline.units import Display

NEAR = 1000.0
"""A label belongs to the nearest joint within this distance (mm) of its start."""

LONGEST = 40
"""Characters of a label; a longer text is a note."""


@dataclass(frozen=True, kw_only=True)
class JointLabel:
    """A label that says the kind of the joint beside it.

    Attributes:
        kind: The kind; None where the label says CJ and no legend says what that means.
        text: What it says.
        at: Where it stands, mm.
    """

    kind: JointKind | None
    text: str
    at: Point


def joint_labels(labels: Sequence[Label]) -> tuple[JointLabel, ...]:
    """The labels that say a kind of joint."""
    legend = meaning_of_cj(labels)
    found = []
    for label in labels:
        text = label.text.strip()
        if len(text) > LONGEST or not names_joints(text):
            continue
        ambiguous = is_ambiguous(text)
        kind = legend if ambiguous else kind_in(text)
        if kind or ambiguous:
            found.append(JointLabel(kind=kind, text=text, at=label.at))
    return tuple(found)


def kinds_by_label(
    lines: Sequence[LineString],
    told: Sequence[bool],
    labels: Sequence[JointLabel],
    display: Display,
) -> list[JointKind | None]:
    """The kind that the labels say for each joint whose layer says none.

    Args:
        lines: All joints.
        told: For each whether its layer says its kind; its labels are then not asked.
        labels: The labels.
        display: How lengths are written.

    Returns:
        For each joint the kind by its labels; None where it has none or they disagree.

    Raises:
        InputRefused: A label of a joint says CJ, which has two meanings.
    """
    said: list[set[JointKind]] = [set() for _ in lines]
    if not lines:
        return []
    tree = shapely.STRtree(lines)
    for label in labels:
        spot = shapely.Point(label.at)
        nearest = int(tree.nearest(spot))
        if told[nearest] or lines[nearest].distance(spot) > NEAR:
            continue
        if label.kind is None:
            raise InputRefused(_question(label, display))
        said[nearest].add(label.kind)
    return [kinds.pop() if len(kinds) == 1 else None for kinds in said]


def _question(label: JointLabel, display: Display) -> Mistake:
    return Mistake(
        what="CJ means construction joint in some offices and control joint in others",
        where=f"label {label.text!r} at {place(label.at, display)}",
        remedy='say the kind with the layer, as in joints = ["JOINTS = control"]',
    )
