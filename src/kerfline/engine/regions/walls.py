"""Walls and their joints: how far off a joint may lie, which walls have theirs and why others have none.

Piers and stubs only wish for a joint, so that a grid need not chase them; pieces of wall in one line with no more than
a doorway between them are one wall, however they were drawn.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import networkx as nx
import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.regions.region import Region
from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.corners import direction, seen_along, sine_between
from kerfline.geometry.faces import lines_of, points_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.slab import Wall
from kerfline.rules.limits import LONG_WALL
from kerfline.units import stored_length

STUB = 152.4
"""A wall may run this far (mm) into a panel without a joint: its end does not reach a line."""

BESIDE_REACH = 457.2
"""A joint within this (mm, 18 in) of a bearing strip counts as the one beside it."""

COVERED = 0.9
"""A wall has its joint when this share of it lies over one."""

AT_EDGE = 152.4
"""A wall that runs along the slab's edge, its face within this (mm, six inches), stands on the edge."""

SQUARE = 0.2
"""Sine of the angle under which a joint counts as along a wall."""

DRIFT = 5.0
"""A line that strays from its axis by no more than this (mm) runs along it: it was drawn, not surveyed."""

DOORWAY = 1500.0
"""Pieces of wall this far apart (mm) in one line are one wall: a double door and its posts (common practice)."""

IN_LINE = 0.02
"""Sine of the angle under which two pieces of wall are parallel."""


def wall_slack(wall: Wall) -> float:
    """How far off a wall's centre line its joint may run: to its face, where corners of the slab often lie."""
    return wall.thickness / 2


def strip_half(wall: Wall) -> float:
    """Half the width that a plain joint must not run along under a bearing wall."""
    return max(wall.strip_width, wall.thickness) / 2


def walls_left(region: Region, joints: Sequence[LineString]) -> dict[str, str]:
    """Id of each wall without a joint, and why, in words with stored lengths."""
    out: dict[str, str] = {}
    for wall in region.walls:
        reach = _reach(wall)
        bare = sum(
            part.length - _covered(part, reach, joints)
            for s in pairwise(wall.path)
            for part in off_edge(region, wall, s)
        )
        if is_bare(wall, bare):
            out[wall.id] = how_far(wall, bare) + why_left(region, wall)
    return out


def is_bare(wall: Wall, bare: float) -> bool:
    """Whether so much of a wall without a joint (mm) is told."""
    return bare > max((1 - COVERED) * wall.line.length, STUB)


def how_far(wall: Wall, bare: float) -> str:
    """Along how much of a wall a reason holds, in words; empty where it holds for all of it."""
    return f"along {stored_length(bare)}, " if bare < COVERED * wall.line.length else ""


def wall_shifts(region: Region, joints: Sequence[LineString]) -> dict[str, float]:
    """Id of each wall whose joint lies off its centre line, and by how much in mm."""
    out: dict[str, float] = {}
    for wall in region.walls:
        for start, end in pairwise(wall.path):
            along = _along((start, end), _reach(wall), joints)
            near = [j for j, length in zip(joints, along, strict=True) if length > STUB]
            middle = shapely.Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            shift = min((float(j.distance(middle)) for j in near), default=0.0)
            if shift > TOUCH:
                out[wall.id] = max(shift, out.get(wall.id, 0.0))
    return out


def _reach(wall: Wall) -> float:
    return wall.thickness / 2 if wall.takes_joint else strip_half(wall) + BESIDE_REACH


def _along(segment: tuple[Point, Point], reach: float, joints: Sequence[LineString]) -> list[float]:
    """Length of each joint, as far as it runs along a segment within a reach of it."""
    way = direction(*segment)
    band = LineString(segment).buffer(reach + TOUCH, cap_style="flat")
    found = [0.0] * len(joints)
    for number in np.flatnonzero(shapely.intersects(band, list(joints))).tolist():
        joint = joints[number]
        start, *_, end = points_of(joint)
        if sine_between(way, direction(start, end)) <= SQUARE:
            found[number] = float(joint.intersection(band).length)
    return found


def _covered(part: LineString, reach: float, joints: Sequence[LineString]) -> float:
    start, *_, end = points_of(part)
    return min(sum(_along((start, end), reach, joints)), part.length)


def off_edge(region: Region, wall: Wall, segment: tuple[Point, Point]) -> list[LineString]:
    """The stretches of a part of a wall that stand on the concrete, not along its edge."""
    line = LineString(segment)
    way = direction(*segment)
    sides = pairwise(points_of(region.gross.exterior))
    edges = [LineString(e) for e in sides if sine_between(direction(*e), way) < SQUARE]
    reach = wall.thickness / 2 + AT_EDGE
    near = [e.buffer(reach, cap_style="flat") for e in edges if e.distance(line) <= reach + TOUCH]
    rest = line.intersection(region.concrete).difference(shapely.union_all(near))
    return lines_of(rest)


def why_left(region: Region, wall: Wall) -> str:
    """Why a wall has no joint, in words with stored lengths."""
    limits = region.working
    if not wall.takes_joint:
        return "no joint fits beside its strip within the limits"
    if is_aslant(wall):
        return "it is short and runs aslant of the joints around it"
    if wall.id in region.wishes:
        return "it is shorter than half the span, and a joint for its sake would cost more than it hides"
    gap = min((clear(region, wall, s) for s in pairwise(wall.path)), default=0.0)
    if gap < limits.width - MEASURE:
        narrow, least = (stored_length(v) for v in (gap, limits.width))
        return (
            f"a joint under it would leave a panel {narrow} wide, under the least width of {least}"
        )
    return (
        "a joint under it would leave poor panels beside it: hooked, too narrow, "
        f"or longer than {limits.aspect:g} times their width"
    )


def clear(region: Region, wall: Wall, segment: tuple[Point, Point]) -> float:
    """Distance (mm) from a part of a wall to the nearest edge or other wall that runs beside it."""
    sides = region.sides
    beside = (sides.walls != wall.id) & _runs_beside(segment, sides.ends)
    gaps = shapely.distance(LineString(segment), sides.lines[beside])
    return float(min(gaps[gaps > wall_slack(wall)], default=math.inf))


def _runs_beside(segment: tuple[Point, Point], ends: Numbers) -> Flags:
    """Which of many segments, (n, 2, 2), are parallel to one and beside more than a stub of it."""
    way = direction(*segment)
    run = ends[:, 1] - ends[:, 0]
    across = np.abs(way[0] * run[:, 1] - way[1] * run[:, 0])
    parallel = across < SQUARE * np.hypot(run[:, 0], run[:, 1])
    low, high = sorted(p[0] * way[0] + p[1] * way[1] for p in segment)
    along = ends[:, :, 0] * way[0] + ends[:, :, 1] * way[1]
    overlap = np.minimum(along.max(axis=1), high) - np.maximum(along.min(axis=1), low)
    return np.asarray(parallel & (overlap > STUB), dtype=bool)


def asks_aslant(region: Region) -> bool:
    """Whether a wall, a given joint or the border of a zone asks for a joint aslant of both axes."""
    return must_slant(region) or any(is_aslant(w) for w in _walls(region))


def must_slant(region: Region) -> bool:
    """The same for what can not be left without its joint: given joints, borders, long walls."""
    return any(drift_of(line) > DRIFT for line in _settled(region)) or any(
        is_aslant(w) and w.id not in region.wishes for w in _walls(region)
    )


def is_aslant(wall: Wall) -> bool:
    """Whether no joint along an axis lies under a wall."""
    return drift_of(wall.line) > max(wall.thickness, DRIFT)


def drift_of(line: LineString) -> float:
    """How far the straight pieces of a line stray from the nearer axis, mm."""
    steps = np.abs(np.diff(shapely.get_coordinates(line), axis=0))
    return float(steps.min(axis=1).max()) if len(steps) else 0.0


def _walls(region: Region) -> list[Wall]:
    return [w for w in region.walls if w.takes_joint]


def _settled(region: Region) -> Iterator[LineString]:
    for joint in region.pinned:
        yield LineString(joint.path)
    for zone in region.zones:
        if zone.joint_at_border:
            yield from lines_of(zone.area.exterior.intersection(region.gross))


def short_walls(walls: Sequence[Wall], span: float) -> frozenset[str]:
    """The ids of walls that are shorter than half the span, those in one line with them counted in.

    Args:
        walls: All walls of a slab.
        span: The span that is worked to, mm.
    """
    rows: nx.Graph[int] = nx.Graph()
    rows.add_nodes_from(range(len(walls)))
    rows.add_edges_from(_in_line(walls))
    return frozenset(
        walls[n].id
        for row in nx.connected_components(rows)
        if sum(float(walls[n].line.length) for n in sorted(row)) < LONG_WALL * span
        for n in sorted(row)
    )


def _in_line(walls: Sequence[Wall]) -> Iterator[tuple[int, int]]:
    """The pairs of walls that are one wall with a doorway in it."""
    lines = np.array([wall.line for wall in walls], dtype=object)
    tree = shapely.STRtree(lines)
    for one, other in tree.query(lines, predicate="dwithin", distance=DOORWAY).T.tolist():
        if one < other and _is_in_line(walls[one], walls[other]):
            yield one, other


def _is_in_line(one: Wall, other: Wall) -> bool:
    """Whether two straight walls lie within one another's thickness and no more than a doorway apart."""
    if one.path[1:-1] or other.path[1:-1]:
        return False
    way, own = direction(one.path[0], one.path[-1]), direction(other.path[0], other.path[-1])
    if sine_between(way, own) > IN_LINE:
        return False
    (low, high), (first, last) = (
        sorted(seen_along(one.path[0], way, at) for at in wall.path) for wall in (one, other)
    )
    if max(abs(first[1]), abs(last[1])) > max(wall_slack(one), wall_slack(other)):
        return False
    return max(first[0] - high[0], low[0] - last[0]) <= DOORWAY


def without_crowd(region: Region) -> tuple[Region, dict[str, str]]:
    """A region with no more walls than can have joints, the longest, and why each of the others has none.

    Joints as far apart as the least width, one beside the other, are as long as the area divided by that width:
    where there are more walls than that, panels between them would be too narrow whatever is done.
    """
    room = region.concrete.area / region.working.width
    kept, left = set(), {}
    for number, wall in sorted(enumerate(region.walls), key=lambda w: -round(w[1].line.length)):
        room -= wall.line.length
        if room >= 0.0:
            kept.add(number)
        else:
            left[wall.id] = (
                "so many walls stand here that joints under all of them would leave no room for panels"
            )
    if not left:
        return region, {}
    walls = tuple(wall for number, wall in enumerate(region.walls) if number in kept)
    return replace(region, walls=walls), left
