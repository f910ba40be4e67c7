"""Rules on where joints end: none inside the concrete, and few on another joint."""

from collections.abc import Iterator

import shapely
from shapely import LineString

from kerfline.checks.measures import Measures
from kerfline.checks.net import EDGE, Arm, Node
from kerfline.checks.sources import CONTINUITY
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import JointKind


def free_ends(measures: Measures) -> Iterator[Finding]:
    """No joint stops inside the concrete."""
    for node in measures.net.nodes:
        if len(node.arms) == 1 and node.joints:
            yield _free_end(measures, node, node.joints[0])


def tee_ends(measures: Measures, node: Node) -> Iterator[Finding]:
    """Joints go on across the joints that they meet; ends on isolation joints are as good as on an edge."""
    if node.on_edge:
        return
    arms = node.joints
    pairs = node.through()
    passing = {measures.joints[arms[i].joint].kind for pair in pairs for i in pair}
    if not pairs or JointKind.ISOLATION in passing:
        return
    crossed = arms[pairs[0][0]]
    paired = {i for pair in pairs for i in pair}
    for index, arm in enumerate(arms):
        if index not in paired:
            yield _tee_end(measures, node, arm, crossed)


CHECKS = (free_ends,)
NODE_CHECKS = (tee_ends,)


def _free_end(measures: Measures, node: Node, arm: Arm) -> Finding:
    words = measures.words
    joint = measures.joints[arm.joint]
    at = (node.at[0] + arm.way[0] * TOUCH, node.at[1] + arm.way[1] * TOUCH)  # as drawn
    drain = _penetration_at(measures, at)
    goal, short = _ahead(measures, at, arm)
    target = (
        f"{words.length(short)} short of {goal}"
        if short is not None
        else "with nothing near ahead of it"
    )
    where = f"at {drain}" if drain else "inside the concrete"
    return Finding(
        rule=Rule.FREE_END,
        severity=Severity.WARNING if drain else Severity.ERROR,
        at=at,
        subject=joint.id,
        measured=short,
        limit=0.0,
        message=f"{joint.id} stops {where} at {words.place(at)}, {target}.",
        source=str(CONTINUITY),
        remedy=(f"Carry it on to {goal}" if goal else "Carry it on to the next edge or joint")
        + f", or place bars ahead of its end ({ahead_bars(measures)}).",
    )


def _tee_end(measures: Measures, node: Node, arm: Arm, crossed: Arm) -> Finding:
    words = measures.words
    joint, other = measures.joints[arm.joint], measures.joints[crossed.joint]
    return Finding(
        rule=Rule.TEE_END,
        severity=Severity.ADVICE,
        at=node.at,
        subject=joint.id,
        measured=None,
        limit=None,
        message=f"{joint.id} stops on {other.id} at {words.place(node.at)} and does not go on beyond it.",
        source=str(CONTINUITY),
        remedy=f"Line it up with a joint on the far side, or place bars there ({ahead_bars(measures)}).",
    )


def ahead_bars(measures: Measures) -> str:
    """The bars that are usual in the panel ahead of a stopped joint."""
    return measures.words.either(
        "2 or 3 No. 4 bars, 3 ft long, in the top third",
        "2 or 3 bars of 12 mm, 0.9 m long, in the top third",
    )


def _ahead(measures: Measures, at: Point, arm: Arm) -> tuple[str, float | None]:
    """The first edge or joint straight ahead of an end, within the span, and how far it is."""
    reach = measures.slab_limits.span.bound
    ray = LineString([at, (at[0] - arm.way[0] * reach, at[1] - arm.way[1] * reach)])
    net = measures.net
    hits = [
        (float(shapely.Point(at).distance(net.pieces[i].intersection(ray))), net.owners[i], i)
        for i in sorted(net.tree.query(ray, "intersects").tolist())
        if not net.pieces[i].equals(arm.piece)
    ]
    if not hits:
        return "", None
    short, owner, _ = min(hits)
    return ("the edge" if owner == EDGE else measures.joints[owner].id), short


def _penetration_at(measures: Measures, at: Point) -> str:
    """Id of the penetration whose edge or inside a place is on; empty where there is none."""
    near = sorted(measures.drain_tree.query(shapely.Point(at), "dwithin", TOUCH).tolist())
    return measures.drains[near[0]].id if near else ""
