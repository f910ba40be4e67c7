"""The panel graph: which panels meet along which planned line.

Joints that lie on one straight line and touch end to end are one chain; a pour can end at a chain and
nowhere else.
"""

import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, TypeAlias

import networkx as nx
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.ends import STRAIGHT
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind

GAP = 2000.0
"""Joints on one line that stop at both sides of a boxout up to this wide (mm) are one chain."""

HAIR = 5 * SAME
"""Panels are grown by this (mm) to find where they meet: more than rounding, less than a kerf."""

PARALLEL = 0.2
"""Directions within this (degrees) are one direction."""


PanelGraph: TypeAlias = "nx.Graph[int]"
"""Panels by their index, and which of them meet."""

Edges: TypeAlias = Sequence[tuple[int, int]]
"""Pairs of panels that meet."""


@dataclass(frozen=True, kw_only=True)
class Border:
    """What two panels share.

    Attributes:
        first: Index of a panel.
        second: Index of the other, higher.
        chain: Number of the chain of joints that it lies on.
        formed: Whether it is a construction joint already.
        lines: The shared stretch.
    """

    first: int
    second: int
    chain: int
    formed: bool
    lines: tuple[LineString, ...]

    @cached_property
    def length(self) -> float:
        """Length in mm."""
        return sum(float(line.length) for line in self.lines)


def borders(layout: Layout) -> list[Border]:
    """Every stretch of joint between two panels, in the order of the panels."""
    lines = [j.line for j in layout.joints]
    numbers = chains(lines)
    formed = [joint.kind is JointKind.CONSTRUCTION for joint in layout.joints]
    grown = [p.polygon.buffer(HAIR, join_style="mitre") for p in layout.panels]
    tree, joint_tree = shapely.STRtree(grown), shapely.STRtree(lines)
    out: list[Border] = []
    for i, polygon in enumerate(grown):
        for j in sorted(int(k) for k in tree.query(polygon)):
            both = shapely.intersection(polygon, grown[j]) if j > i else Polygon()
            stretches = _stretches(both, lines, joint_tree)
            found: dict[tuple[int, bool], list[LineString]] = {}
            for k in sorted(stretches):
                found.setdefault((numbers[k], formed[k]), []).extend(stretches[k])
            out.extend(
                Border(first=i, second=j, chain=chain, formed=done, lines=tuple(found[chain, done]))
                for chain, done in sorted(found)
            )
    return out


def panel_graph(count: int, borders: Sequence[Border]) -> PanelGraph:
    """The panels in their order, an edge between two that meet along joints that are not formed.

    An edge has ``chains``, a mapping of the chains that the two panels share to the shared length in mm.

    Args:
        count: How many panels there are.
        borders: Where they meet.
    """
    graph: PanelGraph = nx.Graph()
    graph.add_nodes_from(range(count))
    for border in borders:
        if not border.formed:
            graph.add_edge(border.first, border.second)
            shared = graph.edges[border.first, border.second].setdefault("chains", {})
            shared[border.chain] = border.length
    return graph


def within(graph: PanelGraph, panels: Sequence[int]) -> PanelGraph:
    """A copy of some panels, in the order given, and of the edges between them.

    Not ``Graph.subgraph``: its view goes through a set, and lengths must be summed in the panels' order.
    """
    kept: PanelGraph = nx.Graph()
    kept.add_nodes_from(panels)
    kept.add_edges_from(
        (i, j, data) for i in panels for j, data in graph.adj[i].items() if i < j and j in kept
    )
    return kept


class Run(NamedTuple):
    """What a chain is among some panels.

    Attributes:
        length: Its length between them, mm.
        edges: The pairs of panels that it alone holds together.
    """

    length: float
    edges: Edges


def runs(graph: PanelGraph) -> dict[int, Run]:
    """The chains between the panels of a graph, in the order of their numbers."""
    lengths: dict[int, list[float]] = {}
    edges: dict[int, list[tuple[int, int]]] = {}
    for i, j, data in graph.edges(data=True):
        shared: dict[int, float] = data["chains"]
        for chain, length in shared.items():
            lengths.setdefault(chain, []).append(length)
            if len(shared) == 1:
                edges.setdefault(chain, []).append((i, j))
    return {c: Run(sum(lengths[c]), tuple(edges.get(c, ()))) for c in sorted(lengths)}


def pieces(graph: PanelGraph, cut: Edges = ()) -> list[list[int]]:
    """The panels that hang together but for some edges: each piece sorted, by its least panel."""
    with _without(graph, cut):
        return sorted(sorted(piece) for piece in nx.connected_components(graph))


def is_parted(graph: PanelGraph, cut: Edges) -> bool:
    """Whether a graph that hangs together falls apart without some edges.

    Each edge is asked from both its ends at once, which soon meet around the end of a chain that stops on another: on a
    floor of 1,000 walls aslant hardly one chain of sixty parts a region, and all panels of it were gone through for each.
    """
    with _without(graph, cut):
        return not all(nx.has_path(graph, first, second) for first, second in cut)


@contextmanager
def _without(graph: PanelGraph, cut: Edges) -> Iterator[None]:
    """Takes edges out and puts them back.

    With a copy of the graph for each cut that is tried, a floor of 150 panels in brick bond took 2.0 s to divide and
    not 0.2 s.
    """
    taken = [(first, second, graph.edges[first, second]) for first, second in cut]
    graph.remove_edges_from(cut)
    try:
        yield
    finally:
        graph.add_edges_from(taken)


def _stretches(
    both: shapely.Geometry, lines: Sequence[LineString], tree: shapely.STRtree
) -> dict[int, list[LineString]]:
    """The parts of joints between two panels, by the joint's index."""
    out: dict[int, list[LineString]] = {}
    for k in sorted(int(k) for k in tree.query(both)):
        parts = lines_of(shapely.intersection(lines[k], both))
        long = [part for part in parts if part.length > TOUCH]
        if long:
            out[k] = long
    return out


def chains(lines: Sequence[LineString]) -> list[int]:
    """For each joint the number of its chain; bent joints are chains of their own."""
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(lines)))
    graph.add_edges_from(_following(lines))
    number = {i: min(row) for row in nx.connected_components(graph) for i in row}
    return [number[i] for i in range(len(lines))]


def _following(lines: Sequence[LineString]) -> Iterator[tuple[int, int]]:
    """The pairs of straight joints that are of one chain."""
    straight = [i for i, line in enumerate(lines) if len(line.coords) == STRAIGHT]
    tree = shapely.STRtree([lines[i] for i in straight])
    for i in straight:
        for position in sorted(int(k) for k in tree.query(lines[i].buffer(GAP))):
            j = straight[position]
            if j > i and _in_line(lines[i], lines[j]):
                yield i, j


def _in_line(first: LineString, second: LineString) -> bool:
    """Whether two straight joints lie on one line and touch, or part at a boxout only."""
    a, b = ends_of(first)
    c, d = ends_of(second)
    turn = angle_between(direction(a, b), direction(c, d))
    if min(turn, 180.0 - turn) > PARALLEL or first.distance(second) > GAP:
        return False
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    return all(
        abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length <= 2 * TOUCH
        for p in (c, d)
    )


def ends_of(line: LineString) -> tuple[Point, Point]:
    """First and last point of a line."""
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    return (float(x0), float(y0)), (float(x1), float(y1))
