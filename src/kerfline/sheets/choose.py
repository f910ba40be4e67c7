"""Chooses paper, scale and parts so that the slab fits and can be read."""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import shapely
from shapely import affinity

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.tolerance import SAME
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.column_grid import column_grid, grid_room
from kerfline.sheets.dimension_marks import margins
from kerfline.sheets.flow import Region
from kerfline.sheets.marks import Bounds
from kerfline.sheets.paper import AUTOMATIC, READABLE, SCALES, PaperSize, paper, scale_words
from kerfline.sheets.stations import JOINT, Station
from kerfline.sheets.view import View
from kerfline.units import MM_PER_METRE

FOOTER = 15.0
"""Room in mm under the plan for its title, scale bar and check bar."""

STACKED_FOOTER = 21.0
SIDE_BY_SIDE = 255.0
"""Width (mm) in which title, bars and arrow stand side by side."""

MATCH_ROOM = 9.0
"""Room in mm beyond the dimensions right of and above a part for the names of the sheets that it goes on to."""

NEAR_EVEN = 0.25
"""How far from an even division a match line may lie to follow a joint, as a share of a part."""

MOST_PARTS = 100
"""Most sheets that one plan may be parted into."""

LEAST_PANEL = 17.0
"""Width on paper (mm) that the common panel must have at a scale smaller than a floor plan's."""


EDGE_SLACK = 2.5
"""Room in mm by which the view of a whole slab goes beyond its edge."""

ASIDE = 6.0
"""Room in mm between the plan with its dimensions and a table beside it."""

Rims = tuple[float, float, float, float]
"""Room in mm that dimension strings take left, below, right and above."""

Part = shapely.Polygon | shapely.MultiPolygon


@dataclass(frozen=True, kw_only=True)
class Choice:
    """Paper, scale and the windows of the slab that the sheets show.

    Attributes:
        paper: The paper.
        scale: Scale denominator.
        views: One view for each part that holds concrete, rows upward, then along.
        parts: The parts in the baselines' coordinates, mm: left, bottom, right, top.
    """

    paper: PaperSize
    scale: float
    views: tuple[View, ...]
    parts: tuple[Bounds, ...]
    rims: Rims

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

    def pushed(self, base: Baselines, *, left: bool = False, down: bool = False) -> "Choice":
        """The same with the plan at the left or the foot of its area."""
        across, up = (0.0 if left else 0.5, 0.0 if down else 0.5)
        view = _view(self.paper, self.scale, self.parts[0], base, self.rims, share=(across, up))
        return replace(self, views=(view,))


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


def choose(
    job: Job,
    layout: Layout,
    base: Baselines,
    along: list[Station],
    across: list[Station],
    *,
    handy: bool = False,
    region: Part | None = None,
    finer: float | None = None,
) -> Choice:
    """The smallest paper that holds the slab at a readable scale, else the largest, in parts.

    Args:
        job: The slab, and the paper and scale that the user wants.
        layout: Its panels, whose size tells how small a scale is still legible.
        base: What offsets are measured from.
        along: Stations along the first baseline.
        across: Stations along the second.
        handy: Whether the sheet is carried about, so that only the small paper will do.
        region: The part of the slab that is shown; None for all of it.
        finer: The scale that is not to be passed, where a readable one has left no room for words.
    """
    extent = slab_extent(job, base, region)
    grid = column_grid(job.slab, base)
    sizes = _sizes(job)[:1] if handy else _sizes(job)
    smallest = finer or _smallest_scale(job, layout)
    tries = [
        *((size, finer or READABLE[job.display]) for size in sizes), (sizes[-1], smallest)
    ]  # fmt: skip

    def rims(size: PaperSize, scale: float) -> Rims:
        left, below, right, above = margins(along, across, job.display, size.text, scale)
        rooms = (grid_room(lines, size.text) for lines in (grid.across, grid.along))
        return (left, below, right + next(rooms), above + next(rooms))

    for size, least in tries:
        fitting = next(
            (s for s in _scales(job) if _fits(extent, s, _room(size, rims(size, s)))), None
        )
        if fitting is not None and (job.sheet.scale or fitting <= least):
            room = rims(size, fitting)
            view = _view(size, fitting, extent, base, room)
            return Choice(paper=size, scale=fitting, views=(view,), parts=(extent,), rims=room)
    coarser = [s for s in _scales(job) if job.sheet.scale or s >= smallest]
    scale = next(
        (s for s in coarser if _count(sizes[-1], s, extent, rims(sizes[-1], s)) <= MOST_PARTS),
        coarser[-1],
    )
    ground = slab_shape(job, base, region)
    return _many(sizes[-1], scale, ground, base, rims(sizes[-1], scale), (along, across))


def next_scale(job: Job, scale: float) -> float | None:
    """The next larger scale than one that was chosen; None where there is none or the user has chosen."""
    return max((s for s in _scales(job) if s < scale), default=None)


def _smallest_scale(job: Job, layout: Layout) -> float:
    """The smallest scale at which the common panel still holds its number with room to spare."""
    readable = READABLE[job.display]
    if not layout.panels:
        return readable
    width = statistics.median(p.width for p in layout.panels)
    legible = [s for s in SCALES[job.display] if s <= 2 * readable and width / s >= LEAST_PANEL]
    return max([readable, *legible])


def slab_extent(job: Job, base: Baselines, region: Part | None = None) -> Bounds:
    """Bounds of the slab or of a part of it in the baselines' coordinates, mm."""
    x0, y0, x1, y1 = slab_shape(job, base, region).bounds
    return (x0, y0, x1, y1)


def slab_shape(job: Job, base: Baselines, region: Part | None = None) -> Part:
    """The slab or a part of it in the baselines' coordinates, mm."""
    shown = job.slab.outline.polygon if region is None else region
    outline = affinity.translate(shown, -base.origin[0], -base.origin[1])
    return affinity.rotate(outline, -base.turn, origin=(0, 0))


def _sizes(job: Job) -> list[PaperSize]:
    if job.sheet.size:
        return [paper(job.sheet.size)]
    return [paper(name) for name in AUTOMATIC[job.display]]


def _scales(job: Job) -> tuple[float, ...]:
    return (job.sheet.scale,) if job.sheet.scale else SCALES[job.display]


def _room(size: PaperSize, rims: Rims) -> tuple[float, float]:
    """Greatest width and height in mm that the slab may take on the paper."""
    x0, y0, x1, y1 = plan_area(size)
    return (x1 - x0 - rims[0] - rims[2], y1 - y0 - rims[1] - rims[3])


def _fits(extent: Bounds, scale: float, room: tuple[float, float]) -> bool:
    width, height = extent[2] - extent[0], extent[3] - extent[1]
    return width / scale <= room[0] and height / scale <= room[1]


def _with_match_lines(rims: Rims) -> Rims:
    left, below, right, above = rims
    return (left, below, right + MATCH_ROOM, above + MATCH_ROOM)


def _parted(size: PaperSize, scale: float, extent: Bounds, rims: Rims) -> tuple[int, int]:
    """Columns and rows of sheets that an extent takes."""
    across, up = _room(size, rims)
    columns = math.ceil((extent[2] - extent[0]) / scale / across)
    rows = math.ceil((extent[3] - extent[1]) / scale / up)
    return (max(1, columns), max(1, rows))


def _count(size: PaperSize, scale: float, extent: Bounds, rims: Rims) -> int:
    """How many sheets an extent takes."""
    columns, rows = _parted(size, scale, extent, _with_match_lines(rims))
    return columns * rows


def _many(
    size: PaperSize,
    scale: float,
    ground: Part,
    base: Baselines,
    rims: Rims,
    found: tuple[Sequence[Station], Sequence[Station]],
) -> Choice:
    rims = _with_match_lines(rims)
    room, extent = _room(size, rims), ground.bounds
    xs = _cuts((extent[0], extent[2]), room[0] * scale, found[0])
    ys = _cuts((extent[1], extent[3]), room[1] * scale, found[1])
    columns, rows = len(xs) - 1, len(ys) - 1
    if columns * rows > MOST_PARTS:
        raise InputRefused(
            Mistake(
                what=f"the plan would take {columns * rows} sheets of {size.name}",
                where="sheet scale",
                found=scale_words(scale, size.display),
                allowed=f"at most {MOST_PARTS} sheets",
                remedy="choose a smaller scale or larger paper, or leave both out",
            )
        )
    grid = ((a, b, c, d) for b, d in pairwise(ys) for a, c in pairwise(xs))
    parts = tuple(part for part in grid if ground.intersection(shapely.box(*part)).area > 0)
    views = tuple(_view(size, scale, part, base, rims, slack=0.0) for part in parts)
    return Choice(paper=size, scale=scale, views=views, parts=parts, rims=rims)


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


def _view(
    size: PaperSize,
    scale: float,
    part: Bounds,
    base: Baselines,
    rims: Rims,
    *,
    slack: float = EDGE_SLACK,
    share: tuple[float, float] = (0.5, 0.5),
) -> View:
    """A view of a part in the room that its dimension strings leave: in its middle, or where the shares say."""
    x0, y0, x1, y1 = plan_area(size)
    x0, y0, x1, y1 = x0 + rims[0], y0 + rims[1], x1 - rims[2], y1 - rims[3]
    width, height = (part[2] - part[0]) / scale, (part[3] - part[1]) / scale
    left, foot = x0 + share[0] * (x1 - x0 - width), y0 + share[1] * (y1 - y0 - height)
    window = (left, foot, left + width, foot + height)
    origin = affinity.rotate(shapely.Point(part[0], part[1]), base.turn, origin=(0, 0))
    world = (base.origin[0] + float(origin.x), base.origin[1] + float(origin.y))
    return View(
        scale=scale,
        turn=-base.turn,
        world=world,
        at=(window[0], window[1]),
        window=(window[0] - slack, window[1] - slack, window[2] + slack, window[3] + slack),
    )
