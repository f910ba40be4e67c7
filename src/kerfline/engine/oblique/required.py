"""The lines that must be joints: given joints, borders of zones, and walls, run on to the next edge or joint."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import LineString, Polygon

from kerfline.engine.oblique.runs_on import inside, run_on, wall_paths
from kerfline.engine.region import Cut, Region
from kerfline.geometry.faces import faces, lines_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall

STRAIGHT_ON = 0.02
"""Walls whose directions differ by less than this (radians, sine) run side by side."""


@dataclass(frozen=True, kw_only=True)
class Required:
    """The joints that are settled before the floor is divided.

    Attributes:
        cuts: The joints, each from edge or joint to edge or joint.
        walls_left: Id of each wall that gets no joint, and why.
        wall_shifts: Id of each wall whose joint lies off its centre line, and by how much in mm.
    """

    cuts: tuple[Cut, ...]
    walls_left: dict[str, str]
    wall_shifts: dict[str, float]


def required_cuts(region: Region) -> Required:
    """Settles the joints that the region must have, given ones first, then zones, then walls."""
    cuts = [*_pinned(region), *_zone_borders(region), *_pattern_borders(region)]
    walls_left: dict[str, str] = {}
    wall_shifts: dict[str, float] = {}
    barred = barred_area(region)
    walls = sorted(region.walls, key=lambda w: -round(w.line.length))
    for wall in walls:
        reason = _why_not(region, wall, cuts, barred)
        if reason:
            walls_left[wall.id] = reason
            continue
        shared = _shared(wall, cuts)
        if shared is not None:
            wall_shifts[wall.id] = shared
            continue
        lines = [LineString(c.path) for c in cuts]
        note = f"under wall {wall.id}"
        cuts += [
            Cut(path=path, reason=Reason.WALL, note=note)
            for path in wall_paths(region, wall, lines, barred)
        ]
    return Required(cuts=tuple(cuts), walls_left=walls_left, wall_shifts=wall_shifts)


def barred_area(region: Region) -> shapely.Geometry:
    """Where no joint may lie: keep-outs, forbidden lines, the strips of bearing walls."""
    strips = [
        w.line.buffer(w.strip_width / 2, cap_style="flat")
        for w in region.walls
        if not w.takes_joint and w.strip_width
    ]
    lines = [LineString(j.path).buffer(TOUCH, cap_style="flat") for j in region.forbidden]
    return shapely.union_all([k.outline.polygon for k in region.keep_outs] + strips + lines)


def _pinned(region: Region) -> list[Cut]:
    """Given joints as they are, a free end run on to the next edge or joint."""
    cuts: list[Cut] = []
    lines = [LineString(j.path) for j in region.pinned]
    for index, joint in enumerate(region.pinned):
        others = [x for i, x in enumerate(lines) if i != index]
        for path in inside(region.concrete, joint.path):
            falls = joint.reason == Reason.FALL
            cuts.append(
                Cut(
                    path=run_on(region.concrete, path, others),
                    reason=Reason.FALL if falls else Reason.PINNED,
                    note=joint.note if falls else f"given joint {joint.id}",
                    kind=joint.kind,
                    depth=joint.depth,
                )
            )
    return cuts


def _zone_borders(region: Region) -> list[Cut]:
    return [
        cut
        for zone in region.zones
        if zone.joint_at_border
        for cut in _borders(region, zone.area, Reason.ZONE, f"border of zone {zone.id}")
    ]


def _pattern_borders(region: Region) -> list[Cut]:
    return [
        cut
        for pattern in region.patterns
        for cut in _borders(
            region, pattern.area.polygon, Reason.PATTERN, f"border of pattern {pattern.id}"
        )
    ]


def _borders(region: Region, area: Polygon, reason: Reason, note: str) -> list[Cut]:
    """The boundary of an area where it runs through the concrete."""
    rim = region.concrete.boundary.buffer(TOUCH)
    parts = lines_of(shapely.line_merge(area.boundary.intersection(region.concrete)))
    inner = [x for part in parts for x in lines_of(part.difference(rim)) if x.length > 1.0]
    return [
        Cut(path=run_on(region.concrete, straightened(x), []), reason=reason, note=note)
        for x in inner
    ]


def straightened(line: LineString) -> tuple[Point, ...]:
    """The points of a line, those on a straight stretch left out."""
    return tuple((float(x), float(y)) for x, y in line.simplify(SAME).coords)


def _why_not(region: Region, wall: Wall, cuts: Sequence[Cut], barred: shapely.Geometry) -> str:
    """Why a wall gets no joint; empty where it gets one."""
    if not wall.takes_joint:
        return (
            f"wall {wall.id} bears load, and a sawn joint under it would be an edge under the load"
        )
    if not inside(region.concrete, wall.path):
        return f"wall {wall.id} does not stand on this concrete"
    if _shared(wall, cuts) is not None:
        return ""
    lines = [LineString(c.path) for c in cuts]
    own = [LineString(path) for path in wall_paths(region, wall, lines, barred)]
    if not own:
        return f"a joint under wall {wall.id} would cross an area where no joint may go"
    joints = shapely.union_all(own)
    narrow = [
        p
        for p in faces(region.concrete, [*lines, *own])
        if enclosing_rectangle(p).width < region.working.width - MEASURE
        and p.distance(joints) < TOUCH
    ]
    if narrow:
        return f"a joint under wall {wall.id} would leave a panel narrower than the least width"
    return ""


def _shared(wall: Wall, cuts: Iterable[Cut]) -> float | None:
    """How far off its centre line a wall's joint lies where one that is there already serves it."""
    footprint = wall.line.buffer(wall.thickness / 2 + TOUCH, cap_style="flat")
    for cut in cuts:
        under = LineString(cut.path).intersection(footprint)
        if under.length >= wall.line.length - wall.thickness:
            return float(under.hausdorff_distance(wall.line)) if under.length else 0.0
    return None


def moved(cut: Cut, path: tuple[Point, ...]) -> Cut:
    """The same joint on another line."""
    return replace(cut, path=path)
