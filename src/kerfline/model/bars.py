"""Bars that hold cracks shut: across the corners that no joint leaves, and ahead of joints that stop on another."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import shapely
from shapely import LineString

from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import SteelChoice
from kerfline.model.layout import Joint, Layout, Panel
from kerfline.model.slab import JointKind, Slab
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

CORNER_BARS = 2
TEE_BARS = 3
BAR_LENGTH = 3 * MM_PER_FOOT
BAR_NUMBER = 4
"""Bars at a corner and at a tee, their length (mm) and their size in eighths of an inch where the job does
not say it (common practice)."""

BAR_FIRST = 2 * MM_PER_INCH
BAR_PITCH = 3 * MM_PER_INCH
"""From the corner, or from the joint that is met, to the first bar, and from one to the next, mm (common practice)."""


class BarPlace(StrEnum):
    """Where bars lie."""

    CORNER = "corner"
    TEE = "tee"


@dataclass(frozen=True, kw_only=True)
class Bars:
    """The bars at one place.

    Attributes:
        place: Whether across a corner or ahead of a joint.
        at: The corner, or where the joint stops, mm.
        into: Unit vector from there into the concrete that would crack.
        lines: The bars as they lie, cut back to the concrete and to the panel that they lie in, for a bar across
            another joint would hold that shut.
    """

    place: BarPlace
    at: Point
    into: Point
    lines: tuple[LineString, ...]


def bars(slab: Slab, layout: Layout, steel: SteelChoice) -> tuple[Bars, ...]:
    """The bars that a layout asks for, at corners and then at tees: those that are drawn, counted and told.

    Args:
        slab: What is given.
        layout: Its joints.
        steel: How many bars lie at a place and how long they are, where the job says it.
    """
    at_corner = CORNER_BARS if steel.corner_bars is None else steel.corner_bars
    at_tee = TEE_BARS if steel.tee_bars is None else steel.tee_bars
    length = steel.bar_length or BAR_LENGTH
    corners = _corners(slab, layout.joints) if at_corner else []
    tees = _tees(slab, layout.joints) if at_tee else []
    room = _Room(slab, layout.panels)
    return (
        *(_laid(room, BarPlace.CORNER, *spot, at_corner, length) for spot in corners),
        *(_laid(room, BarPlace.TEE, *spot, at_tee, length) for spot in tees),
    )


class _Room:
    """Where a bar may lie: in the panel around its middle, or in the concrete where there are no panels."""

    def __init__(self, slab: Slab, panels: Sequence[Panel]) -> None:
        self.concrete = slab.concrete
        self.panels = [panel.polygon for panel in panels]
        self.tree = shapely.STRtree(self.panels)

    def around(self, middle: shapely.Point) -> shapely.Polygon | shapely.MultiPolygon:
        """The panel around a point; the concrete where it lies in none."""
        found = self.tree.query(middle, predicate="within")
        return self.panels[int(found.min())] if len(found) else self.concrete


def _laid(room: _Room, place: BarPlace, at: Point, into: Point, count: int, length: float) -> Bars:
    """The bars at a place, square to the way into the concrete."""
    (x, y), half = at, length / 2
    across = (-into[1] * half, into[0] * half)
    lines = []
    for i in range(count):
        off = BAR_FIRST + i * BAR_PITCH
        cx, cy = x + into[0] * off, y + into[1] * off
        bar = LineString([(cx - across[0], cy - across[1]), (cx + across[0], cy + across[1])])
        middle = shapely.Point(cx, cy)
        inside = lines_of(bar.intersection(room.around(middle)))
        if inside:
            lines.append(min(inside, key=middle.distance))
    return Bars(place=place, at=at, into=into, lines=tuple(lines))


def _corners(slab: Slab, joints: Sequence[Joint]) -> list[tuple[Point, Point]]:
    """The re-entrant corners that no joint leaves, and the way into the concrete at each."""
    groups = slab.corner_groups
    tree = shapely.STRtree([j.line for j in joints])
    found = []
    for group in groups:
        spots = [shapely.Point(c.at) for c in group.corners]
        if not joints or not len(tree.query(spots, predicate="dwithin", distance=TOUCH)[0]):
            corner = group.whole
            x, y = corner.before[0] + corner.after[0], corner.before[1] + corner.after[1]
            size = math.hypot(x, y)
            # The edges' directions point along the void; the concrete lies opposite.
            into = (-x / size, -y / size) if size else (corner.before[1], -corner.before[0])
            found.append((corner.at, into))
    return found


def _tees(slab: Slab, joints: Sequence[Joint]) -> list[tuple[Point, Point]]:
    """Where joints stop on another one, and the way on; an isolation joint is as good as an edge."""
    return [
        (end.at, end.outward)
        for end in joint_ends(slab.concrete, [j.line for j in joints])
        if end.kind is EndKind.TEE
        and not any(joints[i].kind is JointKind.ISOLATION for i in end.others)
    ]
