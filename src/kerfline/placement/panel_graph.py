"""Which panels meet along which planned line.

Joints that lie on one straight line and touch end to end are one chain; a pour can end at a chain and
nowhere else.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

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
    numbers = list(range(len(lines)))
    straight = [i for i, line in enumerate(lines) if len(line.coords) == STRAIGHT]
    tree = shapely.STRtree([lines[i] for i in straight])
    for i in straight:
        for position in sorted(int(k) for k in tree.query(lines[i].buffer(GAP))):
            j = straight[position]
            if j > i and numbers[i] != numbers[j] and _in_line(lines[i], lines[j]):
                old, new = sorted((numbers[i], numbers[j]), reverse=True)
                numbers = [new if n == old else n for n in numbers]
    return numbers


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
