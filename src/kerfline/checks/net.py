"""The net of joints and edges: where they meet and in which directions they leave.

Built from the linework alone, so it is the same net whether a joint is drawn whole or in pieces.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import networkx as nx
import numpy as np
import shapely
from shapely import LineString

from kerfline.geometry.arrays import Flags, Integers, Numbers, Shapes
from kerfline.geometry.corners import angle_between, runs_of
from kerfline.geometry.ends import STRAIGHT_ON
from kerfline.geometry.faces import Area, noded
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH

EDGE = -1
"""Stands for the slab's edge where a joint's index is asked."""

LOOK = 25.0
"""How far along a line (mm) its direction at a node is read."""

HALF_TURN = 180.0

Asked = Callable[[Numbers], Flags]


@dataclass(frozen=True, slots=True)
class Arm:
    """A joint or an edge as it leaves a node.

    Attributes:
        joint: Index of the joint, or ``EDGE``.
        way: Unit vector out of the node.
        piece: The piece that it is the beginning of.
    """

    joint: int
    way: Point
    piece: LineString


@dataclass(frozen=True, slots=True, eq=False)
class Node:
    """A place where pieces meet or end; arms anticlockwise from x."""

    at: Point
    arms: tuple[Arm, ...]

    @property
    def joints(self) -> tuple[Arm, ...]:
        """The arms that are joints."""
        return tuple(a for a in self.arms if a.joint != EDGE)

    @property
    def on_edge(self) -> bool:
        """Whether the node lies on the slab's edge."""
        return any(a.joint == EDGE for a in self.arms)

    def through(self) -> list[tuple[int, int]]:
        """Pairs of joint arms (indices in ``joints``) that run straight on, straightest first."""
        arms = self.joints
        pairs = sorted(
            (bend, i, j)
            for i, one in enumerate(arms)
            for j, two in enumerate(arms[:i])
            if (bend := HALF_TURN - angle_between(one.way, two.way)) < STRAIGHT_ON
        )
        taken: set[int] = set()
        kept = []
        for _, i, j in pairs:
            if not taken & {i, j}:
                taken |= {i, j}
                kept.append((i, j))
        return kept


@dataclass(frozen=True)
class Net:
    """Nodes and pieces; pieces outside the concrete are left out.

    Attributes:
        nodes: In no promised order, but the same for the same lines.
        pieces: Lines between nodes.
        owners: For each piece the index of its joint, or ``EDGE``.
    """

    nodes: tuple[Node, ...]
    pieces: tuple[LineString, ...]
    owners: tuple[int, ...]

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Finds pieces by place."""
        return shapely.STRtree(self.pieces)

    @cached_property
    def landing_nodes(self) -> tuple[int, ...]:
        """Indices of the nodes on edges that a joint leaves into the concrete."""
        return tuple(i for i, n in enumerate(self.nodes) if n.on_edge and n.joints)

    @cached_property
    def landings(self) -> shapely.STRtree:
        """Finds ``landing_nodes`` by place, in their order."""
        return shapely.STRtree([shapely.Point(self.nodes[i].at) for i in self.landing_nodes])

    def leaves(self, at: Point) -> bool:
        """Whether a joint leaves a place on an edge into the concrete."""
        return bool(len(self.landings.query(shapely.Point(at), "dwithin", 2 * TOUCH)))


def linework_of(concrete: Area, lines: Sequence[LineString]) -> shapely.Geometry:
    """A slab's edges and joints, cut wherever they meet and at each sharp bend."""
    return noded(concrete, [run for line in lines for run in runs_of(line)])


def net_of(
    concrete: Area,
    lines: Sequence[LineString],
    linework: shapely.Geometry,
    asked: Asked | None = None,
) -> Net:
    """The net of a slab's edges and joints.

    Args:
        concrete: The slab's concrete in mm.
        lines: The joints, their ends ``joined``.
        linework: The same, ``linework_of`` them.
        asked: Which places are asked about, given points in rows; nodes at others may be left out. None asks
            about all.
    """
    pieces = shapely.normalize(shapely.get_parts(linework))  # one way round, whatever else there is
    parts, owners = _owned(concrete, np.asarray(pieces), lines)
    ends = _end_nodes(parts)
    return Net(
        nodes=_nodes(parts, owners, ends, asked),
        pieces=tuple(parts),
        owners=tuple(int(o) for o in owners),
    )


def _owned(concrete: Area, parts: Shapes, lines: Sequence[LineString]) -> tuple[Shapes, Integers]:
    """The pieces on edges and inside the concrete, each with its owner."""
    middles = shapely.line_interpolate_point(parts, 0.5, normalized=True)
    boundary = concrete.boundary
    shapely.prepare(boundary)
    shapely.prepare(concrete)
    on_edge = shapely.dwithin(boundary, middles, SAME)
    inside = shapely.contains_properly(concrete, middles) & ~on_edge
    owners = np.full(len(parts), EDGE, dtype=np.int64)
    if lines and inside.any():
        spots = np.flatnonzero(inside)
        hits = shapely.STRtree(lines).query(middles[spots], "dwithin", SAME)
        first = np.full(len(spots), len(lines), dtype=np.int64)
        np.minimum.at(first, hits[0], hits[1])
        owners[spots] = first
    kept = on_edge | (inside & (owners < len(lines)))
    return parts[kept], owners[kept]


def _end_nodes(parts: Shapes) -> Integers:
    """For each piece the numbers of its two nodes; ends joined by a hair's breadth share a node."""
    keys = np.round(np.concatenate(_first_and_last(parts)) / (SAME / 10)).astype(np.int64)
    _, numbers = np.unique(keys, axis=0, return_inverse=True)
    pairs = numbers.reshape(2, -1).T
    short: nx.Graph[int] = nx.Graph()
    short.add_edges_from(pairs[shapely.length(parts) <= 2 * TOUCH].tolist())
    node = np.arange(int(pairs.max()) + 1)
    for together in nx.connected_components(short):
        node[list(together)] = min(together)
    joined: Integers = node[pairs]
    return joined


def _nodes(
    parts: Shapes,
    owners: Integers,
    ends: Integers,
    asked: Asked | None,
) -> tuple[Node, ...]:
    long = np.flatnonzero(shapely.length(parts) > 2 * TOUCH)
    first, last = _first_and_last(parts[long])
    wanted = ends[long]
    if asked:
        # A node whole or not at all: the pieces that meet there may end a hair's breadth apart.
        near = np.stack([asked(first), asked(last)], axis=1)
        wanted = np.unique(wanted[near])
        kept = np.isin(ends[long], wanted).any(axis=1)
        long, first, last = long[kept], first[kept], last[kept]
    reach = np.minimum(LOOK, shapely.length(parts[long]) / 2)  # a small ring comes back on itself
    ahead = shapely.get_coordinates(shapely.line_interpolate_point(parts[long], reach))
    behind = shapely.get_coordinates(shapely.line_interpolate_point(parts[long], -reach))
    gathered: dict[int, list[tuple[Point, Arm]]] = {}
    for side, (starts, looks) in enumerate(((first, ahead), (last, behind))):
        ways = looks - starts
        ways /= np.hypot(ways[:, 0], ways[:, 1])[:, None]
        rows = zip(long.tolist(), starts.tolist(), ways.tolist(), strict=True)
        for index, (x, y), (dx, dy) in rows:
            arm = Arm(joint=int(owners[index]), way=(dx, dy), piece=parts[index])
            gathered.setdefault(int(ends[index, side]), []).append(((x, y), arm))
    numbers = sorted(set(gathered) & set(np.unique(wanted).tolist()))
    return tuple(_node(gathered[number]) for number in numbers)


def _first_and_last(
    parts: Shapes,
) -> tuple[Numbers, Numbers]:
    """Coordinates of the first and last points of lines."""
    first, last = (shapely.get_coordinates(shapely.get_point(parts, i)) for i in (0, -1))
    return first, last


def _node(arms: list[tuple[Point, Arm]]) -> Node:
    turned = sorted((arm for _, arm in arms), key=lambda a: math.atan2(a.way[1], a.way[0]))
    return Node(at=min(at for at, _ in arms), arms=tuple(turned))
