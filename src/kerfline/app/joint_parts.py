"""Joints renewed: their names, their ends, and their place in the list."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from kerfline.app.joint_path import length_of
from kerfline.app.working import BY_HAND, DrawnJoint
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.model.layout import Reason


def find(joints: Sequence[DrawnJoint], name: str) -> DrawnJoint:
    """The joint of that name.

    Raises:
        InputRefused: There is none.
    """
    joint = next((j for j in joints if j.id == name), None)
    if joint is None:
        raise InputRefused(Mistake(what="there is no such joint", where=name))
    return joint


def renamed(
    joint: DrawnJoint, pieces: Sequence[tuple[Point, ...]], joints: Sequence[DrawnJoint]
) -> list[DrawnJoint]:
    """The pieces as joints; the longest keeps the name, the others take new ones."""
    longest = max(range(len(pieces)), key=lambda i: (length_of(pieces[i]), -i))
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
    """A joint with its first (0) or last (1) point elsewhere; its knees stay."""
    path = (point, *joint.path[1:]) if end == 0 else (*joint.path[:-1], point)
    return replace(joint, path=path)


def tip_of(joint: DrawnJoint, end: int) -> Point:
    """The first (0) or last (1) point."""
    return joint.path[0] if end == 0 else joint.path[-1]


def inner_of(joint: DrawnJoint, end: int) -> Point:
    """Where the stretch that leads to the first (0) or last (1) point begins: a knee, or the other end."""
    return joint.path[1] if end == 0 else joint.path[-2]


def without_end(joint: DrawnJoint, end: int) -> DrawnJoint | None:
    """A bent joint that ends at its knee next to one end; None where it is straight."""
    path = joint.path[1:] if end == 0 else joint.path[:-1]
    return replace(joint, path=path) if len(path) > 1 else None
