"""The lines that are cut, in cutting order, with all that the crew needs to know of each."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiLineString, MultiPolygon, affinity, box

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import Ledger, SawChoice, SawMethod
from kerfline.model.job import Job
from kerfline.model.layout import Joint, Layout
from kerfline.placement.cut_ends import SawnEnd, blade_of, sawn_ends
from kerfline.sheets.baselines import Baselines, Way, way_of
from kerfline.sheets.cut.areas import SHORTEST, Region
from kerfline.sheets.cut.passes import CutPass
from kerfline.sheets.spots import middle_of
from kerfline.units import Display

ALONG_WALL = 0.25
"""Share of a line that lies under walls from which on it is the wall's; else it only ends there or crosses."""


@dataclass(frozen=True, kw_only=True)
class Saw:
    """The saw that the sheet is written for.

    Attributes:
        method: Its kind.
        blade: Diameter of its blade, mm.
        guard: From the blade's front to the foremost part of the saw, mm.
    """

    method: SawMethod
    blade: float
    guard: float = 0.0

    @classmethod
    def usual(cls, job: Job) -> "Saw":
        """The saw of a job's method of cutting, with its usual blade."""
        method = SawMethod(job.cut.method)
        return cls.planned(method, SawChoice(), job.display)

    @classmethod
    def planned(cls, method: SawMethod, day: SawChoice, display: Display) -> "Saw":
        """The saw of a placement day, its blade and guard as the job gives them."""
        blade, guard = blade_of(day, method, Ledger(display=display))
        return cls(method=method, blade=blade, guard=guard)


@dataclass(frozen=True, kw_only=True)
class CutLine:
    """One pass of the saw.

    Attributes:
        number: Its number in the cutting order.
        joint: Id of the joint.
        line: Its line in mm of the drawing, the start first.
        start: Offsets of the start from the baselines, mm.
        end: Offsets of the end.
        depth: Depth of the cut, mm.
        thickness: Thickness of the slab that the depth comes from, mm.
        covered: How much of it a wall will stand on, mm.
        window: When it may be cut, as text; empty where that is not known.
        ends: What stands at its start and its end and what a round blade leaves there.
        formed: Whether its start and its end lie on a construction joint.
        way: How it runs, seen from the baselines.
        knees: Offsets of the places where it bends, from the start on.
    """

    number: int
    joint: str
    line: LineString
    start: Point
    end: Point
    depth: float
    thickness: float
    covered: float
    window: str
    ends: tuple[SawnEnd, SawnEnd]
    formed: tuple[bool, bool]
    way: Way
    knees: tuple[Point, ...] = ()

    @property
    def start_point(self) -> Point:
        """The start in mm of the drawing."""
        x, y = self.line.coords[0]
        return (float(x), float(y))

    @property
    def end_point(self) -> Point:
        """The end in mm of the drawing."""
        x, y = self.line.coords[-1]
        return (float(x), float(y))

    @property
    def hidden(self) -> bool:
        """Whether a wall will stand on some of it."""
        return self.covered > 0

    @property
    def under_wall(self) -> bool:
        """Whether a wall will stand along it, not only across it or on its end."""
        return self.hidden and self.covered >= ALONG_WALL * self.length

    @property
    def length(self) -> float:
        """Length in mm."""
        return float(self.line.length)


def cut_lines(
    job: Job,
    passes: Sequence[CutPass],
    base: Baselines,
    *,
    saw: Saw | None = None,
    formed: Sequence[Joint] = (),
) -> tuple[CutLine, ...]:
    """The passes of the saw as the sheet shows them, in their order.

    Args:
        job: The slab and how it is cut.
        passes: The lines in the order of cutting.
        base: What offsets are measured from.
        saw: The saw; None takes the usual one of the job's method.
        formed: Construction joints, which a cut may end on.
    """
    with_saw = saw or Saw.usual(job)
    ends = sawn_ends(job.slab, [one.sawn for one in passes], with_saw.blade, with_saw.guard)
    fronts = MultiLineString([joint.line for joint in formed])
    return tuple(
        _cut_line(one, (ends[2 * n], ends[2 * n + 1]), job, base, fronts)
        for n, one in enumerate(passes)
    )


def _cut_line(
    one: CutPass,
    ends: tuple[SawnEnd, SawnEnd],
    job: Job,
    base: Baselines,
    fronts: MultiLineString,
) -> CutLine:
    points = [(float(x), float(y)) for x, y in one.sawn.line.coords]
    start, end = base.local(points[0]), base.local(points[-1])
    if (round(end[0] + end[1]), round(end[0])) < (round(start[0] + start[1]), round(start[0])):
        points, start, end, ends = points[::-1], end, start, (ends[1], ends[0])
    return CutLine(
        number=one.number,
        joint=one.sawn.joint,
        line=LineString(points),
        start=start,
        end=end,
        depth=one.sawn.depth,
        thickness=_thickest(one.sawn.line, job),
        covered=_under_walls(one.sawn.line, job) if one.sawn.hidden else 0.0,
        window=one.window,
        ends=ends,
        formed=(_on(points[0], fronts), _on(points[-1], fronts)),
        way=way_of(base.line(points)),
        knees=tuple(base.local(point) for point in points[1:-1]),
    )


def _under_walls(line: LineString, job: Job) -> float:
    """How much of a line walls will stand on, mm: of a joint in several placements not on every part."""
    shares = (float(line.intersection(wall.footprint).length) for wall in job.slab.walls)
    return sum(share for share in shares if share > SHORTEST)


def _thickest(line: LineString, job: Job) -> float:
    """Thickness (mm) that the depth of a cut comes from: on the border of a zone that of the thicker side."""
    x, y = middle_of(line)
    reach = 2 * TOUCH
    beside = ((x, y), (x - reach, y), (x + reach, y), (x, y - reach), (x, y + reach))
    return max(job.slab.thickness_at(*at) for at in beside)


def _on(point: Point, fronts: MultiLineString) -> bool:
    """Whether a point lies on a construction joint."""
    return not fronts.is_empty and bool(fronts.distance(shapely.Point(point)) <= TOUCH)


def square_check(
    job: Job, layout: Layout, base: Baselines, region: Region | None = None
) -> tuple[float, float] | None:
    """Sides (mm) of the largest rectangle from the baselines' corner that lies in the slab or a part of it.

    Its sides end at joints or at the edge; its diagonals prove the layout square.
    """
    whole = job.slab.outline.polygon if region is None else _filled(job, region)
    outline = affinity.rotate(
        affinity.translate(whole, -base.origin[0], -base.origin[1]),
        -base.turn,
        origin=(0, 0),
    ).buffer(1.0, join_style="mitre")
    x1, y1 = outline.bounds[2] - 1.0, outline.bounds[3] - 1.0
    xs, ys = {x1}, {y1}
    for joint in layout.joints:
        line = base.line(joint.path)
        a, b, c, d = line.bounds
        way = way_of(line)
        if way is Way.UPRIGHT:
            xs.add((a + c) / 2)
        elif way is Way.LEVEL:
            ys.add((b + d) / 2)
    fitting = [
        (x * y, x, y)
        for x in _outermost(xs)
        for y in _outermost(ys)
        if x > 1.0 and y > 1.0 and outline.covers(box(0, 0, x, y))
    ]
    if not fitting:
        return None
    _, x, y = max(fitting)
    return (x, y)


MOST_TRIES = 40
"""Most places along one baseline that the corner of the check rectangle is tried at."""


def _outermost(places: set[float]) -> list[float]:
    return sorted(places, reverse=True)[:MOST_TRIES]


def _filled(job: Job, region: Region) -> Region:
    """A region with its openings, and the boxouts in it and on its edge, filled: a tape reaches across them."""
    solid = [shapely.Polygon(part.exterior) for part in polygons_of(region)]
    boxouts = [box for box in job.slab.boxouts if box.intersects(region)]
    parts = polygons_of(shapely.union_all([*solid, *boxouts]))
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def diagonal(sides: tuple[float, float]) -> float:
    """Diagonal of a rectangle, mm."""
    return math.hypot(*sides)
