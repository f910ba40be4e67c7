"""The lines that are cut, in cutting order, with all that the crew needs to know of each."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely import LineString, affinity, box

from kerfline.geometry.ring import Point
from kerfline.model.day import SawMethod
from kerfline.model.job import Job
from kerfline.model.joint_lines import SawnLine, joint_lines
from kerfline.model.layout import Layout
from kerfline.placement.cut_ends import BLADES, SawnEnd, sawn_ends
from kerfline.sheets.baselines import SQUARE_ON, Baselines
from kerfline.sheets.spots import middle_of


@dataclass(frozen=True, kw_only=True)
class CutLine:
    """One pass of the saw.

    Attributes:
        number: Its place in the cutting order, from 1.
        joint: Id of the joint.
        line: Its line in mm of the drawing, the start first.
        start: Offsets of the start from the baselines, mm.
        end: Offsets of the end.
        depth: Depth of the cut, mm.
        thickness: Thickness of the slab that the depth comes from, mm.
        hidden: Whether a wall will stand on some of it.
        ends: What stands at its start and its end and what a round blade leaves there.
    """

    number: int
    joint: str
    line: LineString
    start: Point
    end: Point
    depth: float
    thickness: float
    hidden: bool
    ends: tuple[SawnEnd, SawnEnd]

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
    def length(self) -> float:
        """Length in mm."""
        return float(self.line.length)

    @property
    def upright(self) -> bool:
        """Whether it runs along the second baseline."""
        return abs(self.start[0] - self.end[0]) <= SQUARE_ON * max(self.length, 1.0)

    @property
    def level(self) -> bool:
        """Whether it runs along the first baseline."""
        return abs(self.start[1] - self.end[1]) <= SQUARE_ON * max(self.length, 1.0)


def cut_lines(
    job: Job,
    layout: Layout,
    base: Baselines,
    *,
    order: Sequence[str] = (),
    blade: float = 0.0,
    guard: float = 0.0,
) -> tuple[CutLine, ...]:
    """The sawn lines in cutting order.

    Args:
        job: The slab and how it is cut.
        layout: The joints.
        base: What offsets are measured from.
        order: Ids of joints, first cut first; those not named follow in the order of placing.
        blade: Diameter of the blade in mm; 0 takes the usual one of the job's kind of saw.
        guard: From the blade's front to the foremost part of the saw, mm.
    """
    sawn = in_order(joint_lines(layout).sawn, base, order)
    diameter = blade or BLADES[SawMethod(job.cut.method)][0]
    ends = sawn_ends(job.slab, sawn, diameter, guard)
    return tuple(
        _cut_line(number, part, (ends[2 * number - 2], ends[2 * number - 1]), job, base)
        for number, part in enumerate(sawn, 1)
    )


def in_order(
    sawn: Iterable[SawnLine], base: Baselines, order: Sequence[str]
) -> tuple[SawnLine, ...]:
    """Sorts lines by a given order of joints, the rest by their middle along the longer way of the slab.

    Joints are cut one after another in the order in which the concrete was placed (TM 5-822-7).
    """
    parts = list(sawn)
    middles = [base.local(middle_of(p.line)) for p in parts]
    along = _longer_way(middles)
    rank = {joint: i for i, joint in enumerate(order)}

    def key(index: int) -> tuple[int, int, int, int]:
        first, second = middles[index][along], middles[index][1 - along]
        return (rank.get(parts[index].joint, len(rank)), round(first), round(second), index)

    return tuple(parts[i] for i in sorted(range(len(parts)), key=key))


def _longer_way(middles: Sequence[Point]) -> int:
    """0 where the lines are spread along the first baseline, 1 along the second."""
    if not middles:
        return 0
    spreads = [max(m[i] for m in middles) - min(m[i] for m in middles) for i in (0, 1)]
    return 0 if spreads[0] >= spreads[1] else 1


def _cut_line(
    number: int, part: SawnLine, ends: tuple[SawnEnd, SawnEnd], job: Job, base: Baselines
) -> CutLine:
    points = [(float(x), float(y)) for x, y in part.line.coords]
    start, end = base.local(points[0]), base.local(points[-1])
    if (round(end[0] + end[1]), round(end[0])) < (round(start[0] + start[1]), round(start[0])):
        points, start, end, ends = points[::-1], end, start, (ends[1], ends[0])
    return CutLine(
        number=number,
        joint=part.joint,
        line=LineString(points),
        start=start,
        end=end,
        depth=part.depth,
        thickness=job.slab.thickness_at(*middle_of(part.line)),
        hidden=part.hidden,
        ends=ends,
    )


def square_check(job: Job, layout: Layout, base: Baselines) -> tuple[float, float] | None:
    """Sides (mm) of the largest rectangle from the baselines' corner that lies in the slab's outline.

    Its sides end at joints or at the slab's edge; its diagonals prove the layout square.
    """
    outline = affinity.rotate(
        affinity.translate(job.slab.outline.polygon, -base.origin[0], -base.origin[1]),
        -base.turn,
        origin=(0, 0),
    ).buffer(1.0, join_style="mitre")
    x1, y1 = outline.bounds[2] - 1.0, outline.bounds[3] - 1.0
    xs, ys = {x1}, {y1}
    for joint in layout.joints:
        line = base.line(joint.path)
        a, b, c, d = line.bounds
        if c - a <= SQUARE_ON * line.length:
            xs.add((a + c) / 2)
        elif d - b <= SQUARE_ON * line.length:
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


def diagonal(sides: tuple[float, float]) -> float:
    """Diagonal of a rectangle, mm."""
    return math.hypot(*sides)
