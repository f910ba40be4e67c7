"""A layout made of the joints that somebody else drew or cut."""

from collections.abc import Sequence

from shapely import LineString

from kerfline.checks.closing import Face
from kerfline.checks.parting import parted
from kerfline.model.layout import Joint, Layout, Panel, Reason, Solution, Status
from kerfline.model.slab import GivenJoint, JointKind, Slab


def given_layout(
    slab: Slab,
    depth: float = 0.0,
    faces: Sequence[Face] | None = None,
    known: Sequence[Panel] = (),
) -> Layout:
    """The slab's given joints and the panels that they close off.

    Args:
        slab: The slab with its joints; forbidden lines are no joints.
        depth: Depth of cut (mm) of control joints that have none noted; 0 leaves it unknown.
        faces: What the joints close off, where it is known already.
        known: Panels of an earlier layout, which stay themselves where nothing changed them.

    Returns:
        The layout. Joints keep their ids and order, panels are numbered in reading order. A joint is kept
        as it is drawn, beyond the slab's edge too.
    """
    joints = tuple(_joint(given, depth, slab) for given in slab.pinned)
    if faces is None:
        faces = parted(slab.concrete, [j.line for j in joints]).faces
    return Layout(
        joints=joints,
        panels=_panels(faces, known),
        solution=Solution(status=Status.GIVEN),
    )


def _panels(faces: Sequence[Face], known: Sequence[Panel]) -> tuple[Panel, ...]:
    before = {id(panel.polygon): panel for panel in known}

    def panel(number: int, face: Face) -> Panel:
        own, name = before.get(id(face.polygon)), f"P{number}"
        return own if own and own.id == name else Panel(id=name, polygon=face.polygon)

    return tuple(panel(number, face) for number, face in enumerate(faces, start=1))


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
