"""A layout made of the joints that somebody else drew or cut."""

from shapely import LineString

from kerfline.model.layout import Joint, Layout, Reason, Solution, Status
from kerfline.model.panelling import panels_of
from kerfline.model.slab import GivenJoint, JointKind, Slab


def given_layout(slab: Slab, depth: float = 0.0) -> Layout:
    """The slab's given joints and the panels that they close off.

    Args:
        slab: The slab with its joints; forbidden lines are no joints.
        depth: Depth of cut (mm) of control joints that have none noted; 0 leaves it unknown.

    Returns:
        The layout. Joints keep their ids and order, panels are numbered in reading order. A joint is kept
        as it is drawn, beyond the slab's edge too.
    """
    joints = tuple(_joint(given, depth, slab) for given in slab.pinned)
    lines = [j.line for j in joints]
    return Layout(
        joints=joints,
        panels=panels_of(slab.concrete, lines),
        solution=Solution(status=Status.GIVEN),
    )


def _joint(given: GivenJoint, depth: float, slab: Slab) -> Joint:
    line = LineString(given.path)
    noted = depth if given.depth is None else given.depth
    return Joint(
        id=given.id,
        kind=given.kind,
        path=given.path,
        depth=noted if given.kind is JointKind.CONTROL else 0.0,
        reason=Reason.FOUND if given.existing else Reason.PINNED,
        note="as found in the concrete" if given.existing else "as drawn",
        hidden=slab.under_walls(line),
    )
