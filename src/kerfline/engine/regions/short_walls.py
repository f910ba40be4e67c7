"""Walls that only wish for a joint: piers and stubs, which a grid need not chase.

PieceLayout of wall in one line with no more than a doorway between them are one wall, however they were drawn.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import networkx as nx
import numpy as np
import shapely

from kerfline.engine.regions.region import Region
from kerfline.engine.regions.walls import wall_slack
from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.model.slab import Wall
from kerfline.rules.limits import LONG_WALL

DOORWAY = 1500.0
"""PieceLayout of wall this far apart (mm) in one line are one wall: a double door and its posts (common practice)."""

STRAIGHT = 2
"""Points of a straight wall."""

IN_LINE = 0.02
"""Sine of the angle under which two pieces of wall are parallel."""


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
    if len(one.path) > STRAIGHT or len(other.path) > STRAIGHT:
        return False
    way, own = direction(one.path[0], one.path[-1]), direction(other.path[0], other.path[-1])
    if abs(way[0] * own[1] - way[1] * own[0]) > IN_LINE:
        return False
    start = one.path[0]
    off = max(abs(_across(way, start, p)) for p in other.path)
    if off > max(wall_slack(one), wall_slack(other)):
        return False
    low, high = sorted(_along(way, start, p) for p in one.path)
    first, last = sorted(_along(way, start, p) for p in other.path)
    return max(first - high, low - last) <= DOORWAY


def _along(way: Point, start: Point, at: Point) -> float:
    return math.fsum(((at[0] - start[0]) * way[0], (at[1] - start[1]) * way[1]))


def _across(way: Point, start: Point, at: Point) -> float:
    return math.fsum(((at[0] - start[0]) * way[1], -(at[1] - start[1]) * way[0]))


def without_crowd(region: Region) -> tuple[Region, dict[str, str]]:
    """A region with no more walls than can have joints, the longest, and why each of the others has none.

    Joints as far apart as the least width, one beside the other, are as long as the area divided by that width:
    where there are more walls than that, panels between them would be too narrow whatever is done.
    """
    most = region.concrete.area / region.working.width
    room, kept, left = most, set(), {}
    for number in sorted(
        range(len(region.walls)), key=lambda n: (-round(region.walls[n].line.length), n)
    ):
        wall = region.walls[number]
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
