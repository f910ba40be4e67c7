"""Where joints end: on an edge, on another joint, or inside the concrete."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

STRAIGHT = 2
"""Points of a straight joint."""

PARALLEL = 2e-3
"""Joints whose directions differ by less than this (radians) are parallel."""

STRAIGHT_ON = 30.0
"""A joint goes on beyond another where it turns by less than this (degrees)."""


class EndKind(StrEnum):
    """What a joint's end meets."""

    EDGE = "edge"
    TEE = "tee"
    CORNER = "corner"
    FREE = "free"


@dataclass(frozen=True, slots=True)
class JointEnd:
    """One end of a joint.

    Attributes:
        joint: Index of the joint in the list that was given.
        at: Place in mm.
        outward: Unit vector along the joint, out of its end.
        kind: ``edge`` on the boundary of the concrete, ``tee`` on the inside of another joint that
            does not go on beyond it, ``corner`` on another joint's end or on a crossing where a third joint
            goes on, ``free`` inside the concrete.
        others: Indices of the joints that it meets.
    """

    joint: int
    at: Point
    outward: Point
    kind: EndKind
    others: tuple[int, ...]


def joint_ends(concrete: Polygon, joints: Sequence[LineString]) -> list[JointEnd]:
    """Both ends of every joint, in the order of the joints.

    An end is a tee where it stops on the inside of another joint and no joint carries the line on
    from there on the far side (within 30 degrees of straight on).
    """
    tree = shapely.STRtree(joints)
    boundary = concrete.boundary
    shapely.prepare(boundary)
    found = []
    for index, joint in enumerate(joints):
        points = [(float(x), float(y)) for x, y in joint.coords]
        for at, inner in ((points[0], points[1]), (points[-1], points[-2])):
            spot = shapely.Point(at)
            near = sorted(int(i) for i in tree.query(spot.buffer(TOUCH)) if int(i) != index)
            others = tuple(i for i in near if joints[i].distance(spot) <= TOUCH)
            outward = direction(inner, at)
            kind = _kind_of(
                boundary.distance(spot) <= TOUCH, spot, outward, [joints[i] for i in others]
            )
            found.append(JointEnd(index, at, outward, kind, others))
    return found


def _kind_of(
    on_edge: bool,  # noqa: FBT001
    spot: shapely.Point,
    outward: Point,
    others: Sequence[LineString],
) -> EndKind:
    if on_edge:
        return EndKind.EDGE
    if not others:
        return EndKind.FREE
    if any(_carries_on(line, spot, outward) for line in others):
        return EndKind.CORNER
    passing = [line for line in others if line.boundary.distance(spot) > TOUCH]
    return EndKind.TEE if passing else EndKind.CORNER


def _carries_on(line: LineString, spot: shapely.Point, outward: Point) -> bool:
    """Whether a joint leaves a point within 30 degrees of a direction."""
    where = line.project(spot)
    for step in (-10 * TOUCH, 10 * TOUCH):
        reach = where + step
        if 0 <= reach <= line.length:
            next_point = line.interpolate(reach)
            way = direction((spot.x, spot.y), (next_point.x, next_point.y))
            if way[0] * outward[0] + way[1] * outward[1] > math.cos(math.radians(STRAIGHT_ON)):
                return True
    return False


def chalk_lines(joints: Sequence[LineString], tolerance: float = 5.0) -> int:
    """How many lines a crew snaps: straight joints on one line count once, bent ones each.

    Args:
        joints: The joints.
        tolerance: Distance (mm) within which two parallel joints are on one line.
    """
    lines: list[tuple[float, float]] = []
    bent = 0
    for joint in joints:
        if len(joint.coords) != STRAIGHT:
            bent += 1
            continue
        (x0, y0), (x1, y1) = joint.coords
        angle = math.atan2(y1 - y0, x1 - x0) % math.pi
        if math.pi - angle < PARALLEL / 2:
            angle -= math.pi
        offset = x0 * math.sin(angle) - y0 * math.cos(angle)
        lines.append((angle, offset))
    if not lines:
        return bent
    keys = np.asarray(lines)
    rows = np.lexsort((keys[:, 1], np.round(keys[:, 0], 3)))
    ordered = keys[rows]
    new = (np.abs(np.diff(ordered[:, 0])) > PARALLEL) | (np.abs(np.diff(ordered[:, 1])) > tolerance)
    return bent + 1 + int(new.sum())
