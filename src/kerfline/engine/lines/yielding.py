"""Walls along the axes: their joints are chosen together with the floor's, so that one may yield.

A joint that is settled beforehand runs on across the floor whatever it does to the panels beside it. Under
these walls lie candidate lines instead; a panel that runs through under a wall costs, and where a strip or
a row of poor panels would cost more, the wall stays without a joint.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import shapely
from shapely import LineString

from kerfline.engine.lines.settled import Required, is_along, required_cuts
from kerfline.engine.problem import Problem
from kerfline.engine.regions.asking import AskingLine
from kerfline.engine.regions.region import Cut, Region
from kerfline.engine.regions.walls import (
    STUB,
    clear,
    off_edge,
    segments,
    wall_slack,
)
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import Wall

NEARBY = 2.0
"""Corners within this many spans of a wall draw its joint to their level, where the wall hides it there."""


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
        lines = [
            replace(line, path=part)
            for line in self.lines
            for part in lines_of(line.path.intersection(problem.concrete))
            if part.intersects(inner) and part.length > STUB
        ]
        cuts = [
            replace(cut, path=tuple((float(x), float(y)) for x, y in part.coords))
            for cut in self.cuts
            for part in lines_of(LineString(cut.path).intersection(problem.concrete))
            if part.intersects(inner)
        ]
        return replace(problem, walls=tuple(lines), under=tuple(cuts))


def required_on(region: Region) -> tuple[Required, Yielding]:
    """What must be settled first, and the walls whose joints are chosen with the floor's.

    Where patterns are wished for, all walls have their joints first: patterns fit in between.
    """
    if region.patterns:
        return required_cuts(region), Yielding()
    required = required_cuts(region, is_along)
    names = {wall.id for wall in required.yielding}
    settled = replace(
        required, walls_left={k: v for k, v in required.walls_left.items() if k not in names}
    )
    lines = tuple(_lines(region, required))
    return settled, Yielding(required.yielding, lines, required.under)


def _lines(region: Region, required: Required) -> Iterator[AskingLine]:
    """Where the joints of walls may lie: on a line that serves more than one of them, or a corner too."""
    taken = [s for cut in required.cuts for s in pairwise(cut.path)]
    ends = shapely.MultiPoint([end for c in required.cuts for end in (c.path[0], c.path[-1])])
    corners = [c.at for c in reentrant_corners(region.concrete)]
    parts = [(wall, part) for wall in required.yielding for part in segments(wall.path)]
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
