"""The joints of a slab that comes in several placements: formed between them, sawn within each.

A joint is one saw pass or one bulkhead. So a line along which two placements meet becomes a construction
joint there and stays a sawn one elsewhere, and a sawn line that goes on beyond a construction joint is
another joint there: its concrete is of another age.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby, pairwise

import shapely
from shapely import LineString

from kerfline.geometry.lines import line_order, stretch_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import JointKind, Slab

ASIDE = 4 * TOUCH
"""How far (mm) beside a line the panels on its two sides are looked for."""

FORMED = "between placements"
"""Why a joint is a construction joint; the reason it had as a line stands behind."""


@dataclass(frozen=True, kw_only=True)
class _Piece:
    """A stretch of a joint in one placement, or one where placements meet."""

    joint: Joint
    line: LineString
    formed: bool


@dataclass(frozen=True)
class _Ground:
    """A layout with what is asked of it by place."""

    layout: Layout
    homes: Sequence[int]

    @cached_property
    def lines(self) -> list[LineString]:
        """The joints as lines."""
        return [joint.line for joint in self.layout.joints]

    @cached_property
    def line_tree(self) -> shapely.STRtree:
        """The joints by place."""
        return shapely.STRtree(self.lines)

    @cached_property
    def panel_tree(self) -> shapely.STRtree:
        """The panels by place."""
        return shapely.STRtree([panel.polygon for panel in self.layout.panels])

    def beside(self, line: LineString) -> list[LineString]:
        """The joints that meet a joint."""
        near = sorted(int(k) for k in self.line_tree.query(line, "dwithin", TOUCH))
        return [self.lines[k] for k in near if self.lines[k] is not line]

    def home(self, at: Point) -> int:
        """The placement at a point."""
        return self.homes[int(self.panel_tree.nearest(shapely.Point(at)))]


def in_placements(layout: Layout, slab: Slab, homes: Sequence[int], *, renumber: bool) -> Layout:
    """A layout whose joints between placements are construction joints.

    Args:
        layout: Joints and panels.
        slab: Whose walls hide joints.
        homes: For each panel the number of its placement.
        renumber: Whether joints are numbered anew, ``J1`` on for those that are sawn and ``CNTJ1`` on for
            construction joints; else they keep their names, and only what is new gets one.
    """
    if len(set(homes)) <= 1:
        return layout
    ground = _Ground(layout, homes)
    joints = [_joint(piece, slab) for joint in layout.joints for piece in _pieces(joint, ground)]
    return replace(layout, joints=_numbered(joints) if renumber else _kept(joints, layout))


def _pieces(joint: Joint, ground: _Ground) -> Iterator[_Piece]:
    """A joint in stretches, each in one placement or a bulkhead from end to end; others stay whole."""
    if joint.kind is not JointKind.CONTROL:
        yield _Piece(joint=joint, line=joint.line, formed=joint.kind is JointKind.CONSTRUCTION)
        return
    stretches = list(pairwise(_nodes(joint.line, ground)))
    homes = [_home(joint.line, (a + b) / 2, ground) for a, b in stretches]
    for home, group in groupby(zip(homes, stretches, strict=True), key=lambda each: each[0]):
        run = [stretch for _, stretch in group]
        whole = len(run) == len(stretches)
        line = joint.line if whole else stretch_of(joint.line, run[0][0], run[-1][1])
        yield _Piece(joint=joint, line=line, formed=home is None)


def _nodes(line: LineString, ground: _Ground) -> list[float]:
    """Where along a joint other joints meet it, its own ends with them, mm."""
    spots = []
    for other in ground.beside(line):
        met = shapely.intersection(line, other)
        spots += [*shapely.get_coordinates(met), other.coords[0], other.coords[-1]]
    points = [shapely.Point(spot) for spot in spots]
    near = sorted(line.project(p) for p in points if line.distance(p) <= TOUCH)
    out = [0.0]
    for place in near:
        if place - out[-1] > 2 * TOUCH and line.length - place > 2 * TOUCH:
            out.append(place)
    return [*out, line.length]


def _home(line: LineString, place: float, ground: _Ground) -> int | None:
    """The placement that a place on a line lies in; None where it lies between two."""
    spot = line.interpolate(place)
    ahead, behind = (line.interpolate(place + step) for step in (TOUCH, -TOUCH))
    x, y = ahead.x - behind.x, ahead.y - behind.y
    reach = ASIDE / math.hypot(x, y)
    left, right = (
        ground.home((spot.x - side * y * reach, spot.y + side * x * reach)) for side in (1, -1)
    )
    return left if left == right else None


def _joint(piece: _Piece, slab: Slab) -> Joint:
    joint = piece.joint
    new = piece.formed and joint.kind is not JointKind.CONSTRUCTION
    if piece.line is joint.line and not new:
        return joint
    return replace(
        joint,
        kind=JointKind.CONSTRUCTION if piece.formed else joint.kind,
        path=tuple((float(x), float(y)) for x, y in piece.line.coords),
        depth=0.0 if piece.formed else joint.depth,
        note=f"{FORMED}; {joint.note}" if new and joint.note else FORMED if new else joint.note,
        hidden=slab.under_walls(piece.line),
    )


def _numbered(joints: Sequence[Joint]) -> tuple[Joint, ...]:
    """Joints in reading order with new numbers, construction joints apart."""
    counts = {"J": 0, "CNTJ": 0}
    out = []
    for joint in sorted(joints, key=lambda j: line_order(j.path)):
        head = _head(joint)
        counts[head] += 1
        out.append(replace(joint, id=f"{head}{counts[head]}"))
    return tuple(out)


def _kept(joints: Sequence[Joint], layout: Layout) -> tuple[Joint, ...]:
    """Joints under their own names; what is formed only now, or cut off, takes the next free one."""
    kinds: Mapping[str, JointKind] = {joint.id: joint.kind for joint in layout.joints}
    taken: set[str] = set(kinds)
    used: set[str] = set()
    out = []
    for joint in joints:
        if joint.id in used or joint.kind is not kinds[joint.id]:
            name = next(
                n for i in range(1, 2 + len(taken)) if (n := f"{_head(joint)}{i}") not in taken
            )
            taken.add(name)
            joint = replace(joint, id=name)  # noqa: PLW2901 - the same joint under its name
        used.add(joint.id)
        out.append(joint)
    return tuple(out)


def _head(joint: Joint) -> str:
    return "CNTJ" if joint.kind is JointKind.CONSTRUCTION else "J"
