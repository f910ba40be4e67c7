"""Joints renewed: their names, their ends, and their place in the list."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from kerfline.app.working import BY_HAND, DrawnJoint
from kerfline.geometry.ring import Point
from kerfline.model.layout import Reason


def renamed(
    joint: DrawnJoint, pieces: Sequence[tuple[Point, Point]], joints: Sequence[DrawnJoint]
) -> list[DrawnJoint]:
    """The pieces as joints; the longest keeps the name, the others take new ones."""
    longest = max(range(len(pieces)), key=lambda i: (math.dist(*pieces[i]), -i))
    taken = {j.id for j in joints}
    out = []
    for index, piece in enumerate(pieces):
        name = joint.id if index == longest else new_name(taken)
        taken.add(name)
        out.append(by_hand(replace(joint, id=name, path=piece)))
    return out


def by_hand(joint: DrawnJoint) -> DrawnJoint:
    """The joint as one that the user placed, which the engine will leave alone."""
    return replace(joint, pinned=True, reason=Reason.PINNED, note=BY_HAND)


def new_name(taken: set[str]) -> str:
    """The next free name of the form ``J12``."""
    numbers = [int(n[1:]) for n in taken if n[:1] == "J" and n[1:].isascii() and n[1:].isdigit()]
    return f"J{max(numbers, default=0) + 1}"


def in_place(
    joints: Sequence[DrawnJoint], changed: Mapping[str, list[DrawnJoint]]
) -> tuple[DrawnJoint, ...]:
    """The joints in their order, each changed one in its old place."""
    return tuple(new for j in joints for new in changed.get(j.id, [j]))


def with_end(joint: DrawnJoint, end: int, point: Point) -> DrawnJoint:
    """A straight joint with its first (0) or last (1) point elsewhere."""
    path = (point, joint.path[1]) if end == 0 else (joint.path[0], point)
    return replace(joint, path=path)
