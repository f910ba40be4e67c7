"""The rule on angles: between joints, and between a joint and the edge that it meets."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import starmap

import shapely
from shapely import LineString

from kerfline.checks.grading import Grade, below
from kerfline.checks.measures import Measures
from kerfline.checks.net import EDGE, Arm, Node
from kerfline.checks.wording import apart, degrees, fine
from kerfline.geometry.corners import angle_between
from kerfline.geometry.ring import Arc, Point, arc_of, flatten_arc, tangent_at
from kerfline.geometry.tolerance import DEGREES, TOUCH
from kerfline.model.finding import Finding, Rule
from kerfline.model.slab import Slab

HALF_TURN = 180.0


@dataclass(frozen=True)
class Curves:
    """The arcs in a slab's edges, which a joint is held against by their tangent."""

    arcs: tuple[Arc, ...]
    tree: shapely.STRtree

    def tangent(self, at: Point, way: Point) -> Point:
        """The direction of an edge at a place, which the chord there runs in roughly."""
        if not self.arcs:
            return way
        for index in sorted(self.tree.query(shapely.Point(at), "dwithin", TOUCH).tolist()):
            arc = self.arcs[index]
            tangent = tangent_at(arc.centre, arc.radius, at, way)
            if tangent is not None:
                return tangent
        return way


def angles(measures: Measures, node: Node) -> Iterator[Finding]:
    """No joint meets another, or an edge, at less than the least angle."""
    sharpest = sharpest_angle(measures, node)
    grade = below(sharpest[0], measures.slab_limits.angle, DEGREES) if sharpest else None
    if sharpest and grade:
        yield _finding(measures, node.at, sharpest[0], grade, sharpest[1])


def sharpest_angle(measures: Measures, node: Node) -> tuple[float, tuple[Arm, Arm]] | None:
    """The least angle where a joint meets a joint or an edge: degrees and arms; None where none does.

    Round boxouts are left out: the rule on columns has them, where a tangent joint is as good.
    """
    sharpest = _sharpest(node, measures.of_slab(_curves))
    if sharpest and not (node.on_edge and _on_any(measures.of_slab(_round_boxes), node.at)):
        return sharpest
    return None


NODE_CHECKS = (angles,)


def _finding(
    measures: Measures, at: Point, angle: float, grade: Grade, arms: tuple[Arm, Arm]
) -> Finding:
    owners = sorted({a.joint for a in arms})
    names = [measures.joints[o].id for o in owners if o != EDGE]
    what = (
        f"{names[0]} and {names[1]} meet" if len(names) > 1 else f"{names[0]} meets {_other(arms)}"
    )
    turn, limit = apart(angle, grade.limit, degrees, fine)
    step = "allowed" if grade.error else "advised"
    return Finding(
        rule=Rule.ANGLE,
        severity=grade.severity,
        at=at,
        subject=names[0],
        measured=angle,
        limit=grade.limit,
        message=f"{what} at {turn} degrees at {measures.words.place(at)}; the least {step} is "
        f"{limit} degrees.",
        source=str(grade.source),
        remedy="Bend the last two feet or so of the joint to meet it square, or move its end."
        if not measures.words.metric
        else "Bend the last 0.6 m or so of the joint to meet it square, or move its end.",
    )


def _other(arms: tuple[Arm, Arm]) -> str:
    return "the edge" if EDGE in (arms[0].joint, arms[1].joint) else "itself"


def _sharpest(node: Node, curves: Curves) -> tuple[float, tuple[Arm, Arm]] | None:
    """The least angle between neighbouring arms of which one at least is a joint."""
    arms = node.arms
    if len(arms) < 2 or not node.joints:  # noqa: PLR2004 - an angle has two sides
        return None
    found = []
    for index, arm in enumerate(arms):
        other = arms[index - 1]
        if arm.joint == EDGE and other.joint == EDGE:
            continue
        ways = [curves.tangent(node.at, a.way) if a.joint == EDGE else a.way for a in (other, arm)]
        found.append((angle_between(ways[0], ways[1]), index))
    angle, index = min(found)
    return angle, (arms[index - 1], arms[index])


def _curves(slab: Slab) -> Curves:
    bulged = list(arcs_of(slab))
    lines = [LineString(flatten_arc(start, end, bulge)) for start, end, bulge in bulged]
    return Curves(tuple(starmap(arc_of, bulged)), shapely.STRtree(lines))


def arcs_of(slab: Slab) -> Iterator[tuple[Point, Point, float]]:
    """The arcs in a slab's edges: their ends and bulges."""
    boxes = [c.outline for c in slab.columns if c.outline]
    for ring in (slab.outline, *slab.openings, *boxes):
        count = len(ring.points)
        for index, start in enumerate(ring.points):
            if ring.bulge(index):
                yield start, ring.points[(index + 1) % count], ring.bulge(index)


def _round_boxes(slab: Slab) -> shapely.STRtree:
    """The edges of round boxouts, which the rule on columns holds joints against."""
    return shapely.STRtree(
        [c.outline.polygon.exterior for c in slab.columns if c.outline and c.is_round]
    )


def _on_any(tree: shapely.STRtree, at: Point) -> bool:
    return bool(len(tree)) and bool(len(tree.query(shapely.Point(at), "dwithin", 2 * TOUCH)))
