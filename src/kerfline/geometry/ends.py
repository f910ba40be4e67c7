"""Where joints end: on an edge, on another joint, or inside the concrete."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely
from shapely import LineString

from kerfline.geometry.arrays import Indices, Numbers
from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

STRAIGHT = 2
"""Points of a straight joint."""

PARALLEL = 2e-3
"""Joints whose directions differ by less than this (radians) are parallel."""

STRAIGHT_ON = 30.0
"""A joint goes on beyond another where it turns by less than this (degrees)."""

BEND_REACH = 1000.0
"""The last stretch of a joint that bends square to what it ends on is no longer than this (mm): 0.5 to 1.0 m
(1.5 to 3 ft) in pavement guidance (ACPA)."""

BEND_TURN = 75.0
"""And it turns by no more than this (degrees) there: a joint that comes in flatter is not bent but led away."""


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


def knees(joint: LineString) -> list[Point]:
    """Where a joint bends, within ``BEND_REACH`` of an end, to meet square what it ends on."""
    points = [(float(x), float(y)) for x, y in joint.coords]
    if len(points) <= STRAIGHT:
        return []
    stretches = (points[:3], points[: -STRAIGHT - 2 : -1])
    return [
        knee
        for end, knee, before in stretches
        if math.dist(end, knee) <= BEND_REACH
        and angle_between(direction(before, knee), direction(knee, end)) <= BEND_TURN
    ]


def joint_ends(concrete: Area, joints: Sequence[LineString]) -> list[JointEnd]:
    """Both ends of every joint, in the order of the joints.

    An end is a tee where it stops on the inside of another joint and no joint carries the line on
    from there on the far side (within 30 degrees of straight on).
    """
    if not joints:
        return []
    places, outwards = zip(*(end for joint in joints for end in _two_ends(joint)), strict=True)
    spots = np.asarray(shapely.points(places), dtype=object)
    boundary = concrete.boundary
    shapely.prepare(boundary)
    on_edge = shapely.dwithin(boundary, spots, TOUCH)
    met: list[list[int]] = [[] for _ in spots]
    for spot, joint in sorted(
        zip(*shapely.STRtree(joints).query(spots, "dwithin", TOUCH).tolist(), strict=True)
    ):
        if joint != spot // 2:
            met[spot].append(joint)
    return [
        JointEnd(
            n // 2,
            at,
            outwards[n],
            EndKind.EDGE
            if on_edge[n]
            else _kind_inside(spots[n], outwards[n], [joints[i] for i in met[n]]),
            tuple(met[n]),
        )
        for n, at in enumerate(places)
    ]


def _two_ends(joint: LineString) -> list[tuple[Point, Point]]:
    """Both ends of a joint: place, and direction out of it."""
    points = [(float(x), float(y)) for x, y in joint.coords]
    return [
        (at, direction(inner, at))
        for at, inner in ((points[0], points[1]), (points[-1], points[-2]))
    ]


def _kind_inside(spot: shapely.Point, outward: Point, others: Sequence[LineString]) -> EndKind:
    """The kind of an end inside the concrete, by the joints that it meets."""
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
    straight = [line for line in joints if len(line.coords) == STRAIGHT]
    bent = len(joints) - len(straight)
    if not straight:
        return bent
    ends = shapely.get_coordinates(straight).reshape(-1, STRAIGHT, 2)
    ends -= ends.mean(axis=(0, 1))  # far from the origin a hair's turn would move a line by feet
    way = ends[:, 1] - ends[:, 0]
    angles = np.arctan2(way[:, 1], way[:, 0]) % math.pi
    return bent + sum(
        _offsets_apart(ends[group], way[group], tolerance) for group in _parallel(angles)
    )


def _parallel(angles: Numbers) -> list[Indices]:
    """Groups of lines of one direction, by their angles (radians, 0 to pi)."""
    order = np.argsort(angles, kind="stable")
    gaps = np.diff(angles[order], append=angles[order[0]] + math.pi)
    cuts = np.flatnonzero(gaps > PARALLEL) + 1
    if not len(cuts):
        return [order]
    # The ring of directions is cut open at a gap, so that no group lies across its ends.
    turned = np.roll(order, -cuts[0])
    return list(np.split(turned, cuts[1:] - cuts[0]))


def _offsets_apart(ends: Numbers, way: Numbers, tolerance: float) -> int:
    """How many lines a group of parallel joints lies on."""
    lead = way[np.argmax(np.hypot(way[:, 0], way[:, 1]))]
    normal = np.array([-lead[1], lead[0]]) / np.hypot(*lead)
    offsets = np.sort(ends.mean(axis=1) @ normal)
    return 1 + int((np.diff(offsets) > tolerance).sum())
