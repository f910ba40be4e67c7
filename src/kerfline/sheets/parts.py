"""The parts of a slab that sheets show: where each lies on its sheet, and where one goes on to another."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon, affinity

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.flow import Region
from kerfline.sheets.marks import Bounds
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.spots import heart
from kerfline.sheets.stations import JOINT, PLACE, Station
from kerfline.sheets.view import View
from kerfline.units import MM_PER_METRE

FOOTER = 15.0
"""Room in mm under the plan for its title, scale bar and check bar."""

STACKED_FOOTER = 21.0
SIDE_BY_SIDE = 255.0
"""Width (mm) in which title, bars and arrow stand side by side."""

MATCH_ROOM = 9.0
"""Room in mm beyond the dimensions right of and above a part for the names of the sheets that it goes on to."""

AGAIN = 3
"""How often match lines are set nearer to each other so that whole bays find room beyond them."""

A_BAY = 0.5
"""A bay longer than this share of the room is not shown whole."""

NEAR_EVEN = 0.25
"""How far from an even division a match line may lie to follow a joint, as a share of a part."""


EDGE_SLACK = 2.5
"""Room in mm by which the view of a whole slab goes beyond its edge."""

ASIDE = 6.0
"""Room in mm between the plan with its dimensions and a table beside it."""

Rims = tuple[float, float, float, float]
"""Room in mm that dimension strings take left, below, right and above."""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """Paper, scale and the parts of the slab that the sheets show.

    Attributes:
        paper: The paper.
        scale: Scale denominator.
        views: One view for each part that holds concrete, rows upward, then along.
        parts: What each view shows, in the baselines' coordinates, mm: left, bottom, right, top.
        cells: What of it is the part's own, from match line to match line; beyond them it shows what would not be
            whole on any sheet.
        seats: The sheet that each part stands on, from 0.
        rims: Room in mm that dimensions and the names of match lines take.
    """

    paper: PaperSize
    scale: float
    views: tuple[View, ...]
    parts: tuple[Bounds, ...]
    cells: tuple[Bounds, ...]
    seats: tuple[int, ...]
    rims: Rims

    @property
    def sheets(self) -> list[list[int]]:
        """The parts on each sheet."""
        pairs = enumerate(self.seats)
        return [[part for part, _ in run] for _, run in groupby(pairs, key=lambda pair: pair[1])]

    def on_sheet_of(self, part: int) -> list[int]:
        """The parts on the sheet that one stands on."""
        return [other for other, seat in enumerate(self.seats) if seat == self.seats[part]]

    @property
    def is_stacked(self) -> bool:
        """Whether some sheet holds several parts."""
        return len(set(self.seats)) < len(self.parts)

    def beside(self) -> Region:
        """The part of the plan's area right of the plan, were the plan pushed to the left."""
        x0, y0, x1, y1 = plan_area(self.paper)
        width = (self.parts[0][2] - self.parts[0][0]) / self.scale
        return Region(x0 + self.rims[0] + width + self.rims[2] + ASIDE, y0, x1, y1)

    def above(self) -> Region:
        """The part of the plan's area above the plan, were the plan pushed down."""
        x0, y0, x1, y1 = plan_area(self.paper)
        height = (self.parts[0][3] - self.parts[0][1]) / self.scale
        return Region(x0 + ASIDE, y0 + self.rims[1] + height + self.rims[3] + ASIDE, x1, y1)

    def left_over(self) -> Region:
        """The part of the last sheet that stacked parts leave free: under them, or right of upright ones."""
        x0, y0, x1, y1 = plan_area(self.paper)
        _, b, c, _ = self.views[-1].room
        return Region(x0, y0, x1, b - ASIDE) if b > y0 else Region(c + ASIDE, y0, x1, y1)

    def pushed(self, base: Baselines, *, left: bool = False, down: bool = False) -> "Choice":
        """The same with the plan at the left or the foot of its area."""
        across, up = (0.0 if left else 0.5, 0.0 if down else 0.5)
        area = plan_area(self.paper)
        view = view_of(area, self.scale, self.parts[0], base, self.rims, share=(across, up))
        return replace(self, views=(view,))


def part_name(index: int) -> str:
    """Name of a part: 1, 2, 3 in reading order."""
    return f"{index + 1}"


def plan_area(size: PaperSize) -> Bounds:
    """The part of the frame left of the column and above the footer."""
    left, bottom, right, top = size.frame
    return (left + 2, bottom + footer(size), right - size.column - 4, top - 2)


def footer(size: PaperSize) -> float:
    """Room in mm under the plan; on small paper the two bars stand one over the other."""
    return STACKED_FOOTER if is_narrow(size) else FOOTER


def is_narrow(size: PaperSize) -> bool:
    """Whether title, scale bar, check bar and north arrow find no room side by side."""
    left, _, right, _ = size.frame
    return right - size.column - left < SIDE_BY_SIDE


def room_of(size: PaperSize, rims: Rims) -> tuple[float, float]:
    """Greatest width and height in mm that the slab may take on the paper."""
    x0, y0, x1, y1 = plan_area(size)
    return (x1 - x0 - rims[0] - rims[2], y1 - y0 - rims[1] - rims[3])


def with_match_lines(rims: Rims) -> Rims:
    """The rims of a part that goes on to another one."""
    left, below, right, above = rims
    return (left, below, right + MATCH_ROOM, above + MATCH_ROOM)


@dataclass(frozen=True)
class Ground:
    """What is parted, in the baselines' coordinates, mm.

    Attributes:
        shape: The slab, or the part of it that is shown.
        bays: Its panels.
        along: Stations along the first baseline.
        across: Stations along the second.
    """

    shape: Polygon | MultiPolygon
    bays: tuple[Polygon, ...]
    along: Sequence[Station]
    across: Sequence[Station]


def parted(ground: Ground, room: tuple[float, float]) -> tuple[list[Bounds], list[Bounds]]:
    """The cells between match lines that hold concrete, rows upward, then along, and what is shown for each.

    Match lines lie on joints where they can. A bay that one cuts all the same is whole in the part of its cell.

    Args:
        ground: What is parted.
        room: The most that one part may show each way, mm of the slab.
    """
    held, bounds = room, shapely.bounds(np.asarray(ground.bays, dtype=object))
    for _ in range(AGAIN):
        cells = _cells(ground, held)
        shown = [_with_whole_bays(cell, ground, bounds, room) for cell in cells]
        over = [_longest(shown, i) - room[i] for i in (0, 1)]
        if max(over) <= SAME:
            return cells, shown
        x, y = (_longest(cells, i) - over[i] if over[i] > SAME else held[i] for i in (0, 1))
        held = (x, y)
    cells = _cells(ground, room)
    return cells, cells


def _longest(parts: Sequence[Bounds], axis: int) -> float:
    return max(part[axis + 2] - part[axis] for part in parts)


def _cells(ground: Ground, room: tuple[float, float]) -> list[Bounds]:
    x0, y0, x1, y1 = ground.shape.bounds
    xs, ys = _cuts((x0, x1), room[0], ground.along), _cuts((y0, y1), room[1], ground.across)
    grid = ((a, b, c, d) for b, d in pairwise(ys) for a, c in pairwise(xs))
    return [cell for cell in grid if ground.shape.intersection(shapely.box(*cell)).area > 0]


def _with_whole_bays(
    cell: Bounds, ground: Ground, bounds: Numbers, room: tuple[float, float]
) -> Bounds:
    """A cell with all of the bays (with their bounds, a row each) that belong to it and that its border cuts."""
    x0, y0, x1, y1 = cell
    if not ground.bays:
        return cell
    left, low, right, high = bounds.T
    over = (right > x0 + PLACE) & (left < x1 - PLACE) & (high > y0 + PLACE) & (low < y1 - PLACE)
    inside = (
        (left >= x0 - PLACE) & (right <= x1 + PLACE) & (low >= y0 - PLACE) & (high <= y1 + PLACE)
    )
    for i in np.flatnonzero(over & ~inside):
        bay = ground.bays[int(i)]
        x, y = heart(bay)
        a, b, c, d = bay.bounds
        small = c - a <= A_BAY * room[0] and d - b <= A_BAY * room[1]
        if small and cell[0] <= x < cell[2] and cell[1] <= y < cell[3]:
            x0, y0, x1, y1 = min(x0, a), min(y0, b), max(x1, c), max(y1, d)
    return (x0, y0, x1, y1)


def _cuts(ends: tuple[float, float], room: float, found: Sequence[Station]) -> list[float]:
    """Where the parts along one way begin and end, mm: on joints, the longest near an even division.

    Args:
        ends: Start and end of the slab.
        room: The most that one sheet holds.
        found: Stations along this way.
    """
    start, end = ends
    joints = [s for s in found if s.rank == JOINT and not s.here and start < s.offset < end]
    count = max(1, math.ceil((end - start) / room - 1e-9))
    for parts in (count, count + 1):
        cuts = [start]
        for k in range(1, parts):
            even = start + (end - start) * k / parts
            near = [s for s in joints if abs(s.offset - even) <= NEAR_EVEN * (end - start) / parts]
            fitting = [s for s in near if cuts[-1] < s.offset <= cuts[-1] + room]
            best = max(fitting, key=lambda s: (_length(s), -abs(s.offset - even)), default=None)
            cuts.append(best.offset if best else even)
        cuts.append(end)
        if max(b - a for a, b in pairwise(cuts)) <= room + SAME:
            return cuts
    return [start + (end - start) * k / count for k in range(count + 1)]


def _length(station: Station) -> float:
    """How much joint lies at a station, to the nearest metre: a little more does not outweigh evenness."""
    return round(sum(b - a for a, b in station.spans) / MM_PER_METRE)


def view_of(
    area: Bounds,
    scale: float,
    part: Bounds,
    base: Baselines,
    rims: Rims,
    *,
    own: Bounds | None = None,
    share: tuple[float, float] = (0.5, 0.5),
) -> View:
    """A view of a part in an area of the paper: in the middle of what its dimensions leave, or where the shares say.

    Args:
        area: Where it and its dimensions stand, mm of paper.
        scale: Scale denominator.
        part: What it shows, in the baselines' coordinates, mm.
        base: The baselines.
        rims: Room for the dimensions.
        own: What of the part lies between its match lines; None for a slab that goes on nowhere.
        share: Where in the room it stands, across and up.
    """
    x0, y0, x1, y1 = area
    x0, y0, x1, y1 = x0 + rims[0], y0 + rims[1], x1 - rims[2], y1 - rims[3]
    slack = EDGE_SLACK if own is None else 0.0
    width, height = (part[2] - part[0]) / scale, (part[3] - part[1]) / scale
    left, foot = x0 + share[0] * (x1 - x0 - width), y0 + share[1] * (y1 - y0 - height)
    window = (left - slack, foot - slack, left + width + slack, foot + height + slack)
    origin = affinity.rotate(shapely.Point(part[0], part[1]), base.turn, origin=(0, 0))
    world = (base.origin[0] + float(origin.x), base.origin[1] + float(origin.y))
    return View(
        scale=scale,
        turn=-base.turn,
        world=world,
        at=(left, foot),
        window=window,
        own=window if own is None else _on_paper(own, part, (left, foot), scale),
        room=area,
    )


def _on_paper(cell: Bounds, part: Bounds, at: Point, scale: float) -> Bounds:
    """A cell of a part whose lower left corner lies at a point of the paper."""
    x, y = at[0] - part[0] / scale, at[1] - part[1] / scale
    x0, y0, x1, y1 = cell
    return (x + x0 / scale, y + y0 / scale, x + x1 / scale, y + y1 / scale)
