"""What becomes of the joints that ended on one that moves or goes."""

import math
from collections.abc import Sequence

from shapely import Point as ShapelyPoint

from kerfline.app.joint_axis import SHORTEST, Axis, crossings, line_of, next_stop, reach_of
from kerfline.app.joint_parts import inner_of, tip_of, with_end, without_end
from kerfline.app.working import DrawnJoint
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH


def met(others: Sequence[DrawnJoint], spot: Point) -> list[DrawnJoint]:
    """The joints that pass a point or end there."""
    point = ShapelyPoint(spot)
    return [o for o in others if line_of(o).distance(point) <= TOUCH]


def follow(
    concrete: Area,
    others: Sequence[DrawnJoint],
    before: DrawnJoint,
    after: Sequence[DrawnJoint],
) -> dict[str, list[DrawnJoint]]:
    """The joints that ended on the moved one, each carried on or cut back to where it now lies.

    Args:
        concrete: The slab's concrete.
        others: All joints but the moved one.
        before: It, as it was.
        after: What it is now; nothing where it is gone.
    """
    line = line_of(before)
    out: dict[str, list[DrawnJoint]] = {}
    for other in others:
        ends = [line.distance(ShapelyPoint(p)) <= TOUCH for p in (other.path[0], other.path[-1])]
        if not any(ends) or all(ends):
            continue
        free = [o for o in others if o.id != other.id]
        stretched = _stretched(concrete, other, 0 if ends[0] else 1, after, free)
        out[other.id] = [stretched] if stretched else []
    return out


def _stretched(
    concrete: Area,
    joint: DrawnJoint,
    end: int,
    after: Sequence[DrawnJoint],
    others: Sequence[DrawnJoint],
) -> DrawnJoint | None:
    """A joint carried on or cut back along its last stretch; a stretch that is passed over goes."""
    fixed, loose = inner_of(joint, end), tip_of(joint, end)
    axis = Axis(fixed, direction(fixed, loose))
    reach = reach_of(concrete, fixed)
    hits = [t for a in after for t in crossings(axis, line_of(a), reach)]
    ahead = [t for t in hits if t > SHORTEST]
    if hits and not ahead:
        shorter = without_end(joint, end)
        return _stretched(concrete, shorter, end, after, others) if shorter else None
    to = min(ahead) if ahead else next_stop(concrete, axis, math.dist(fixed, loose), others)
    return with_end(joint, end, axis.at(to))
