"""The lines that must be joints: given joints, borders of zones, and walls, run on to the next edge or joint."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.divisions import ROW
from kerfline.engine.lines.run_on import inside, run_on, wall_paths
from kerfline.engine.regions.region import Cut, Region, given_reason
from kerfline.engine.regions.walls import DRIFT, drift_of, off_edge, segments, why_left
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import faces, lines_of, polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import Wall

ABUTS = 25.4
"""A wall that ends this close (mm, an inch) to the face of another abuts it."""


MANY = 200
"""With more joints than this only those near a wall are looked at for what its joint leaves beside it."""


@dataclass(frozen=True, kw_only=True)
class Required:
    """The joints that are settled before the floor is divided.

    Attributes:
        cuts: The joints, each from edge or joint to edge or joint.
        walls_left: Id of each wall that gets no joint, and why.
        wall_shifts: Id of each wall whose joint lies off its centre line, and by how much in mm.
        yielding: Walls whose joint may be chosen with the floor's instead.
        under: The joints of those walls, where no choice is made: each may end on one of ``cuts``.
    """

    cuts: tuple[Cut, ...]
    walls_left: dict[str, str]
    wall_shifts: dict[str, float]
    yielding: tuple[Wall, ...] = ()
    under: tuple[Cut, ...] = ()


def is_along(wall: Wall) -> bool:
    """Whether every part of a wall runs along an axis and is long enough to draw a line."""
    long = all(LineString(s).length > ROW for s in segments(wall.path))
    return wall.takes_joint and long and drift_of(wall.line) <= max(DRIFT, wall.thickness / 4)


def nobody(_: Wall) -> bool:
    """No wall yields."""
    return False


def required_cuts(region: Region, yields: Callable[[Wall], bool] = nobody) -> Required:
    """Settles the joints that the region must have, given ones first, then zones, then walls.

    Args:
        region: The region.
        yields: Walls whose joints need not be settled; those of others may end under them.
    """
    cuts = [*_pinned(region), *_zone_borders(region), *_pattern_borders(region)]
    walls = [w for w in region.walls if any(off_edge(region, w, s) for s in segments(w.path))]
    firm = _Settling(region, barred_area(region), cuts)
    hidden = [w for w in walls if yields(w)]
    for wall in _longest_first(w for w in walls if not yields(w)):
        firm.settle(wall, hidden)
    soft = _Settling(region, firm.barred, list(firm.cuts))
    ends = shapely.MultiPoint([end for c in firm.cuts for end in (c.path[0], c.path[-1])])
    for wall in _longest_first(hidden):
        soft.settle(wall, needed=wall.line.distance(ends) <= TOUCH)
    return Required(
        cuts=tuple(firm.cuts),
        walls_left={**firm.walls_left, **soft.walls_left},
        wall_shifts=firm.wall_shifts,
        yielding=tuple(soft.served),
        under=tuple(soft.cuts[len(firm.cuts) :]),
    )


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
        self.lines = [LineString(cut.path) for cut in self.cuts]

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
        wall = _onto_lines(wall, [*hidden, *self.served])
        lines = list(self.lines)
        stops = [*lines, *(_drawn_out(other) for other in hidden)]
        found = wall_paths(self.region, wall, stops, self.barred)
        paths = [_onto_ends(path, hidden) for path in found]
        reason = _why_not(self.region, wall, paths)
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
        for path in inside(region.concrete, joint.path):
            on = run_on(region.concrete, path, others)
            cuts.append(Cut(path=on, reason=reason, note=note, kind=joint.kind, depth=joint.depth))
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


def _onto_lines(wall: Wall, others: Sequence[Wall]) -> Wall:
    """A wall whose ends that abut the faces of others are drawn on to their centre lines."""
    first, second, *_ = wall.path
    *_, before, last = wall.path
    half = wall.thickness / 2
    head, foot = _onto_line(second, first, half, others), _onto_line(before, last, half, others)
    return replace(wall, path=(head, *wall.path[1:-1], foot))


def _onto_line(inner: Point, end: Point, half: float, others: Sequence[Wall]) -> Point:
    way, spot = direction(inner, end), shapely.Point(end)
    hits = []
    for other in others:
        if SAME < other.line.distance(spot) <= other.thickness / 2 + half + ABUTS:
            reach = 2 * (other.thickness + half + ABUTS)
            ray = LineString([end, (end[0] + way[0] * reach, end[1] + way[1] * reach)])
            hits += shapely.get_coordinates(ray.intersection(other.line)).tolist()
    x, y = min(hits, key=lambda p: (round(math.dist(p, end), 6), p), default=end)
    return (float(x), float(y))


def _drawn_out(wall: Wall) -> LineString:
    """The line of a wall, run on by half its thickness: to the far face of a wall that it meets at a corner."""
    first, second, *_ = wall.path
    *_, before, last = wall.path
    reach = wall.thickness / 2
    a, b = direction(second, first), direction(before, last)
    head = (first[0] + a[0] * reach, first[1] + a[1] * reach)
    foot = (last[0] + b[0] * reach, last[1] + b[1] * reach)
    return LineString([head, *wall.path, foot])


def _onto_ends(path: tuple[Point, ...], walls: Sequence[Wall]) -> tuple[Point, ...]:
    """A joint whose ends lie on the ends of walls that they all but meet."""
    return (_onto_end(path[0], walls), *path[1:-1], _onto_end(path[-1], walls))


def _onto_end(at: Point, walls: Sequence[Wall]) -> Point:
    near = [
        end
        for wall in walls
        for end in (wall.path[0], wall.path[-1])
        if TOUCH < math.dist(at, end) <= wall.thickness / 2
    ]
    return min(near, key=lambda end: (round(math.dist(at, end), 6), end), default=at)


def _why_not(region: Region, wall: Wall, paths: Sequence[tuple[Point, ...]]) -> str:
    """Why a wall can have no joint; empty where it can."""
    if not wall.takes_joint:
        return (
            f"wall {wall.id} bears load, and a sawn joint under it would be an edge under the load"
        )
    if not inside(region.concrete, wall.path):
        return f"wall {wall.id} does not stand on this concrete"
    if not paths:
        return f"a joint under wall {wall.id} would cross an area where no joint may go"
    return ""


def _is_narrow(region: Region, lines: Sequence[LineString], own: Sequence[LineString]) -> bool:
    """Whether joints leave a panel beside them that is narrower than the least width."""
    joints = shapely.union_all(own)
    near = (
        faces(region.concrete, [*lines, *own])
        if len(lines) <= MANY
        else _nearby(region, lines, own)
    )
    return any(
        enclosing_rectangle(p).width < region.working.width - MEASURE
        for p in near
        if p.distance(joints) < TOUCH
    )


def _nearby(
    region: Region, lines: Sequence[LineString], own: Sequence[LineString]
) -> list[Polygon]:
    """The panels beside some joints, as far as they lie within two spans of those."""
    x0, y0, x1, y1 = shapely.union_all(own).buffer(2 * region.working.span).bounds
    window = shapely.box(x0, y0, x1, y1)
    every = np.asarray(lines, dtype=object)
    within = [lines[n] for n in np.flatnonzero(shapely.intersects(window, every)).tolist()]
    return [
        panel
        for piece in polygons_of(region.concrete.intersection(window))
        for panel in faces(piece, [*within, *own])
    ]


def _shared(wall: Wall, lines: Sequence[LineString]) -> float | None:
    """How far off its centre line a wall's joint lies where one that is there already serves it."""
    footprint = wall.line.buffer(wall.thickness / 2 + TOUCH, cap_style="flat")
    near = np.flatnonzero(shapely.intersects(footprint, np.asarray(lines, dtype=object)))
    for number in near.tolist():
        under = lines[number].intersection(footprint)
        if under.length >= wall.line.length - wall.thickness:
            return float(under.hausdorff_distance(wall.line)) if under.length else 0.0
    return None
