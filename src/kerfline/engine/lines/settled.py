"""The lines that must be joints (given ones, borders of zones, walls), and walls whose joints are chosen later.

A joint that is settled beforehand runs on across the floor whatever it does to the panels beside it. Under walls along
the axes lie candidate lines instead: their joints are chosen together with the floor's. A panel that runs through
under a wall costs, and where a strip or a row of poor panels would cost more, the wall stays without a joint.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.divisions import ROW
from kerfline.engine.lines.run_on import onto_ends, onto_lines, run_on, wall_paths
from kerfline.engine.measure.shape import FULL
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.region import Cut, Region, drawn_out, given_reason, parts_in
from kerfline.engine.regions.walls import (
    DRIFT,
    STUB,
    clear,
    drift_of,
    off_edge,
    wall_slack,
    why_left,
)
from kerfline.geometry.corners import reentrant_corners, runs_of
from kerfline.geometry.faces import faces, lines_of, points_of, polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall

NEARBY = 2.0
"""Corners within this many spans of a wall draw its joint to their level, where the wall hides it there; what its
joint leaves beside it is looked at as far."""


@dataclass(frozen=True)
class Yielding:
    """Walls whose joints are chosen with the floor's.

    Attributes:
        walls: The walls.
        lines: Where their joints may lie, a line for each straight part.
        cuts: The joints that serve them where no choice can be made.
    """

    walls: tuple[Wall, ...] = ()
    lines: tuple[AskingLine, ...] = ()
    cuts: tuple[Cut, ...] = ()

    def on(self, problem: Problem) -> Problem:
        """A piece with the walls that stand inside it, not along its border."""
        inner = problem.concrete.buffer(-TOUCH)
        shapely.prepare(problem.concrete)
        paths = np.asarray([line.path for line in self.lines], dtype=object)
        met = np.flatnonzero(shapely.intersects(problem.concrete, paths)).tolist()
        lines = [
            replace(line, path=part)
            for line in (self.lines[n] for n in met)
            for part in lines_of(line.path.intersection(problem.concrete))
            if part.intersects(inner) and part.length > STUB
        ]
        cuts = [
            replace(cut, path=points_of(part))
            for cut in self.cuts
            for part in lines_of(cut.line.intersection(problem.concrete))
            if part.intersects(inner)
        ]
        return replace(problem, walls=tuple(lines), under=tuple(cuts))


@dataclass(frozen=True, kw_only=True)
class Settled:
    """The joints that are settled before the floor is divided.

    Attributes:
        cuts: The joints, each from edge or joint to edge or joint.
        walls_left: Id of each wall that gets no joint, and why.
        wall_shifts: Id of each wall whose joint lies off its centre line, and by how much in mm.
        yielding: Walls whose joint is chosen with the floor's instead.
    """

    cuts: tuple[Cut, ...]
    walls_left: dict[str, str]
    wall_shifts: dict[str, float]
    yielding: Yielding


def is_along(wall: Wall) -> bool:
    """Whether every part of a wall runs along an axis and is long enough to draw a line."""
    long = all(LineString(s).length > ROW for s in pairwise(wall.path))
    return wall.takes_joint and long and drift_of(wall.line) <= max(DRIFT, wall.thickness / 4)


def settled_joints(region: Region, yields: Callable[[Wall], bool] = is_along) -> Settled:
    """Settles the joints that the region must have, given ones first, then the borders of zones, then walls.

    Where patterns are wished for, all walls have their joints first: patterns fit in between.

    Args:
        region: The region.
        yields: Walls whose joints need not be settled; those of others may end under them.
    """
    walls = [w for w in region.walls if _stands_in(region, w)]
    hidden = [w for w in walls if not region.patterns and yields(w)]
    firm = _Settling(region, barred_area(region), [*_pinned(region), *_borders(region)])
    sure = [w for w in hidden if not w.line.intersects(firm.barred)]  # where a joint will be
    for wall in _longest_first(w for w in walls if region.patterns or not yields(w)):
        firm.settle(wall, sure)
    soft = _Settling(region, firm.barred, list(firm.cuts))
    ends = shapely.MultiPoint([end for c in firm.cuts for end in (c.path[0], c.path[-1])])
    for wall in _longest_first(hidden):
        soft.settle(wall, needed=wall.line.distance(ends) <= TOUCH)
    served = {wall.id for wall in soft.served}
    left = {k: v for k, v in soft.walls_left.items() if k not in served}
    return Settled(
        cuts=tuple(firm.cuts),
        walls_left={**firm.walls_left, **left},
        wall_shifts=firm.wall_shifts,
        yielding=Yielding(
            walls=tuple(soft.served),
            lines=tuple(_lines(region, soft.served, firm.cuts, ends)),
            cuts=tuple(soft.cuts[len(firm.cuts) :]),
        ),
    )


def _stands_in(region: Region, wall: Wall) -> bool:
    """Whether more than a touch of a wall stands on the concrete, and not along its edge."""
    parts = (part for s in pairwise(wall.path) for part in off_edge(region, wall, s))
    return any(part.length > TOUCH for part in parts)


def _longest_first(walls: Iterable[Wall]) -> list[Wall]:
    return sorted(walls, key=lambda w: -round(w.line.length))


@dataclass
class _Settling:
    """Joints under walls, settled one after another.

    Attributes:
        region: The region.
        barred: Where no joint may lie.
        cuts: The joints so far.
        served: The walls that have a joint, or might have one where others yield.
        walls_left: Id of each wall that cannot have one, and why.
        wall_shifts: Id of each wall whose joint lies off its centre line, and by how much in mm.
        lines: The joints so far as lines.
    """

    region: Region
    barred: shapely.Geometry
    cuts: list[Cut]
    served: list[Wall] = field(default_factory=list)
    walls_left: dict[str, str] = field(default_factory=dict)
    wall_shifts: dict[str, float] = field(default_factory=dict)
    lines: list[LineString] = field(init=False)

    def __post_init__(self) -> None:
        self.lines = [cut.line for cut in self.cuts]

    def settle(self, wall: Wall, hidden: Sequence[Wall] = (), *, needed: bool = False) -> None:
        """Settles the joint of a wall.

        Args:
            wall: The wall.
            hidden: Walls under which its joint may end, though no joint is settled there yet.
            needed: Whether another joint ends under it, so that it has one whatever it leaves beside it.
        """
        if wall.id in self.region.wishes and not is_along(wall):
            self.walls_left[wall.id] = why_left(self.region, wall)
            return
        shared = _shared(wall, self.lines) if wall.takes_joint else None
        if shared is not None:
            self.wall_shifts[wall.id] = shared
            self.served.append(wall)
            return
        wall = onto_lines(wall, [*hidden, *self.served])
        lines = list(self.lines)
        # run on to the far face of a wall that another meets at a corner
        stops = [*lines, *(LineString(drawn_out(w.path, w.thickness / 2)) for w in hidden)]
        found = wall_paths(self.region, wall, stops, self.barred)
        paths = [onto_ends(path, hidden) for path in found]
        reason = _why_not(wall, paths)
        if reason:
            self.walls_left[wall.id] = reason
            return
        self.served.append(wall)
        if not needed and _is_narrow(self.region, lines, [LineString(p) for p in paths]):
            self.walls_left[wall.id] = (
                f"a joint under wall {wall.id} would leave a panel narrower than the least width"
            )
            return
        self.cuts += [Cut(path=path, reason=Reason.WALL) for path in paths]
        self.lines += [LineString(path) for path in paths]


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
        reason, note = given_reason(joint)
        for path in parts_in(region.concrete, joint.path):
            on = run_on(region.concrete, path, others)
            cuts.append(Cut(path=on, reason=reason, note=note, kind=joint.kind, depth=joint.depth))
    return cuts


def _borders(region: Region) -> Iterator[Cut]:
    """The borders of zones that must be joints, and of patterns, as far as they run through the concrete.

    Each side of a zone is a joint of its own: a saw cuts no corner. Around a pattern the one line leaves a corner both
    ways, where its neighbours' bays line up.
    """
    for zone in (z for z in region.zones if z.joint_at_border):
        sides = sides_of(region, zone.area)
        yield from border_cuts(region, sides, Reason.ZONE, f"border of zone {zone.id}")
    for pattern in region.patterns:
        lines = _through(region, pattern.area.polygon)
        yield from border_cuts(region, lines, Reason.PATTERN, f"border of pattern {pattern.id}")


def border_cuts(
    region: Region, sides: Sequence[LineString], reason: Reason, note: str
) -> Iterator[Cut]:
    """Joints along the sides of an area, each run on to the next edge or side."""
    for n, side in enumerate(sides):
        path = run_on(region.concrete, points_of(side), [*sides[:n], *sides[n + 1 :]])
        yield Cut(path=path, reason=reason, note=note)


def sides_of(region: Region, area: Polygon) -> list[LineString]:
    """The sides of an area as far as they run through the concrete."""
    return [side for line in _through(region, area) for side in runs_of(line)]


def _through(region: Region, area: Polygon) -> list[LineString]:
    """The parts of an area's border that run through the concrete."""
    rim = region.concrete.boundary.buffer(TOUCH)
    parts = lines_of(shapely.line_merge(area.boundary.intersection(region.concrete)))
    inner = [x for part in parts for x in lines_of(part.difference(rim)) if x.length > 1.0]
    return [LineString(line.simplify(SAME).coords) for line in inner]


def _why_not(wall: Wall, paths: Sequence[tuple[Point, ...]]) -> str:
    """Why a wall can have no joint; empty where it can."""
    if not wall.takes_joint:
        return (
            f"wall {wall.id} bears load, and a sawn joint under it would be an edge under the load"
        )
    if not paths:
        return crosses_barred(wall)
    return ""


def crosses_barred(wall: Wall) -> str:
    """Why a wall over an area where no saw may go has no joint."""
    return f"a joint under wall {wall.id} would cross an area where no joint may go"


def _is_narrow(region: Region, lines: Sequence[LineString], own: Sequence[LineString]) -> bool:
    """Whether joints leave a panel beside them that is narrower than the least width."""
    joints = shapely.union_all(own)
    window = shapely.box(*joints.buffer(NEARBY * region.working.span).bounds)
    every = np.asarray(lines, dtype=object)
    within = [lines[n] for n in np.flatnonzero(shapely.intersects(window, every)).tolist()]
    return any(
        _holds_strip(panel, joints, region.working.width - MEASURE)
        for piece in polygons_of(region.concrete.intersection(window))
        for panel in faces(piece, [*within, *own])
        if panel.distance(joints) < TOUCH
    )


def _holds_strip(panel: Polygon, joints: shapely.Geometry, least: float) -> bool:
    """Whether a panel, or of one that bends a stretch beside joints, is narrower than a width (mm), sharp corners left out."""
    if panel.area >= FULL * panel.convex_hull.area:
        return enclosing_rectangle(panel).width < least
    wide = panel.buffer(-least / 2, join_style="mitre").buffer(least / 2, join_style="mitre")
    narrow = polygons_of(panel.difference(wide))
    return any(n.area > least * least / 2 and n.distance(joints) < TOUCH for n in narrow)


def _shared(wall: Wall, lines: Sequence[LineString]) -> float | None:
    """How far off its centre line a wall's joint lies where one that is there already serves it."""
    footprint = wall.line.buffer(wall.thickness / 2 + TOUCH, cap_style="flat")
    near = np.flatnonzero(shapely.intersects(footprint, np.asarray(lines, dtype=object)))
    for number in near.tolist():
        under = lines[number].intersection(footprint)
        if under.length >= wall.line.length - wall.thickness:
            return float(under.hausdorff_distance(wall.line)) if under.length else 0.0
    return None


def _lines(
    region: Region, walls: Sequence[Wall], cuts: Sequence[Cut], ends: shapely.MultiPoint
) -> Iterator[AskingLine]:
    """Where the joints of walls may lie: on a line that serves more than one of them, or a corner too.

    Args:
        region: The region.
        walls: The walls.
        cuts: The joints that are settled.
        ends: Their ends.
    """
    taken = [s for cut in cuts for s in pairwise(cut.path)]
    corners = [c.at for c in reentrant_corners(region.concrete)]
    parts = [(wall, part) for wall in walls for part in pairwise(wall.path)]
    met = [LineString(part).distance(ends) <= TOUCH for _, part in parts]
    order = sorted(zip(met, parts, strict=True), key=_order)
    for needed, (wall, part) in order:
        level = None if needed else _level(region, wall, part, taken, corners)
        axis = _axis(part)
        ready = part if level is None else (_at(part[0], axis, level), _at(part[1], axis, level))
        taken.append(ready)
        stretches = [LineString(part)] if needed else off_edge(region, wall, part)
        for stretch in (x for x in stretches if x.length > STUB):
            a, b = ((float(x), float(y)) for x, y in stretch.coords)
            path = (a, b) if level is None else (_at(a, axis, level), _at(b, axis, level))
            yield AskingLine(
                name=wall.id,
                path=LineString(path),
                slack=wall_slack(wall),
                needed=needed or _is_sure(region, wall, part),
                short=wall.id in region.wishes,
            )


def _order(item: tuple[bool, tuple[Wall, tuple[Point, Point]]]) -> tuple[bool, int, object]:
    """Those first on which settled joints end, as they cannot move; then the longest."""
    needed, (_, part) = item
    return not needed, -round(LineString(part).length), part


def _is_sure(region: Region, wall: Wall, part: tuple[Point, Point]) -> bool:
    """Whether a part of a wall is long, and its joint leaves room for panels on both sides."""
    return wall.id not in region.wishes and clear(region, wall, part) >= region.working.width


def _level(
    region: Region,
    wall: Wall,
    part: tuple[Point, Point],
    taken: Sequence[tuple[Point, Point]],
    corners: Sequence[Point],
) -> float | None:
    """The place of a line or a corner that the joint of a part of a wall can share, within the wall."""
    axis = _axis(part)
    at = (part[0][axis] + part[1][axis]) / 2
    levels = [s[0][axis] for s in taken if _axis(s) == axis and _is_level(s, axis)]
    level = _nearest(at, levels, wall_slack(wall))
    if level is not None:
        return level
    near = [c[axis] for c in corners if _apart(part, c) <= NEARBY * region.working.span]
    return _nearest(at, near, wall_slack(wall))


def _axis(part: tuple[Point, Point]) -> int:
    """The axis on which a line along the other one has one place."""
    return 0 if abs(part[1][0] - part[0][0]) < abs(part[1][1] - part[0][1]) else 1


def _is_level(part: tuple[Point, Point], axis: int) -> bool:
    return abs(part[0][axis] - part[1][axis]) <= SAME


def _apart(part: tuple[Point, Point], at: Point) -> float:
    return float(LineString(part).distance(shapely.Point(at)))


def _nearest(at: float, levels: Sequence[float], reach: float) -> float | None:
    near = [level for level in levels if abs(level - at) <= reach]
    return min(near, key=lambda level: (round(abs(level - at), 6), level)) if near else None


def _at(at: Point, axis: int, level: float) -> Point:
    return (level, at[1]) if axis == 0 else (at[0], level)
