"""Chooses paper, scale and parts so that the slab fits and can be read."""

import math
import statistics
from functools import partial

from shapely import MultiPolygon, Polygon

from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.column_grid import column_grid, grid_room
from kerfline.sheets.dimension_marks import margins
from kerfline.sheets.marks import Bounds
from kerfline.sheets.paper import AUTOMATIC, READABLE, SCALES, PaperSize, paper, scale_words
from kerfline.sheets.parts import (
    Choice,
    Ground,
    Rims,
    parted,
    plan_area,
    room_of,
    view_of,
    with_match_lines,
)
from kerfline.sheets.stacked import stacked
from kerfline.sheets.stations import Station

MOST_PARTS = 100
"""Most sheets that one plan may be parted into."""

LEAST_PANEL = 17.0
"""Width on paper (mm) that the common panel must have at a scale smaller than a floor plan's."""


Part = Polygon | MultiPolygon


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

    def rims(size: PaperSize, scale: float, *, overall: bool = True) -> Rims:
        left, below, right, above = margins(
            along, across, job.display, size.text, scale, overall=overall
        )
        rooms = (grid_room(lines, size.text) for lines in (grid.across, grid.along))
        return (left, below, right + next(rooms), above + next(rooms))

    for size, least in tries:
        fitting = next(
            (s for s in _scales(job) if _fits(extent, s, room_of(size, rims(size, s)))), None
        )
        if fitting is not None and (job.sheet.scale or fitting <= least):
            room = rims(size, fitting)
            view = view_of(plan_area(size), fitting, extent, base, room)
            return Choice(
                paper=size, scale=fitting, views=(view,), parts=(extent,), cells=(extent,), seats=(0,),
                rims=room,
            )  # fmt: skip
    ground = Ground(slab_shape(job, base, region), _bays(layout, base), along, across)
    readable = [s for s in _scales(job) if job.sheet.scale or s <= (finer or READABLE[job.display])]
    strips = stacked(sizes, readable, ground, base, partial(rims, overall=False))
    if strips:
        return strips
    coarser = [s for s in _scales(job) if job.sheet.scale or s >= smallest]
    for scale in coarser:
        if _count(sizes[-1], scale, extent, rims(sizes[-1], scale)) <= MOST_PARTS:
            parts = _many(sizes[-1], scale, ground, base, rims(sizes[-1], scale))
            if len(parts.parts) <= MOST_PARTS:  # whole bays may take more sheets than were counted
                return parts
    return _few_enough(_many(sizes[-1], coarser[-1], ground, base, rims(sizes[-1], coarser[-1])))


def _few_enough(choice: Choice) -> Choice:
    """A plan in parts, where they are no more than may be.

    Raises:
        InputRefused: They are more.
    """
    size, count = choice.paper, len(choice.parts)
    if count > MOST_PARTS:
        raise InputRefused(
            Mistake(
                what=f"the plan would take {count} sheets of {size.name}",
                where="sheet scale",
                found=scale_words(choice.scale, size.display),
                allowed=f"at most {MOST_PARTS} sheets",
                remedy="choose a smaller scale or larger paper, or leave both out",
            )
        )
    return choice


def _bays(layout: Layout, base: Baselines) -> tuple[Polygon, ...]:
    """The panels in the baselines' coordinates."""
    return tuple(base.shapes([panel.polygon for panel in layout.panels]))


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
    return base.shape(job.slab.outline.polygon if region is None else region)


def _sizes(job: Job) -> list[PaperSize]:
    if job.sheet.size:
        return [paper(job.sheet.size)]
    return [paper(name) for name in AUTOMATIC[job.display]]


def _scales(job: Job) -> tuple[float, ...]:
    return (job.sheet.scale,) if job.sheet.scale else SCALES[job.display]


def _fits(extent: Bounds, scale: float, room: tuple[float, float]) -> bool:
    width, height = extent[2] - extent[0], extent[3] - extent[1]
    return width / scale <= room[0] and height / scale <= room[1]


def _parted(size: PaperSize, scale: float, extent: Bounds, rims: Rims) -> tuple[int, int]:
    """Columns and rows of sheets that an extent takes."""
    across, up = room_of(size, rims)
    columns = math.ceil((extent[2] - extent[0]) / scale / across)
    rows = math.ceil((extent[3] - extent[1]) / scale / up)
    return (max(1, columns), max(1, rows))


def _count(size: PaperSize, scale: float, extent: Bounds, rims: Rims) -> int:
    """How many sheets an extent takes."""
    columns, rows = _parted(size, scale, extent, with_match_lines(rims))
    return columns * rows


def _many(size: PaperSize, scale: float, ground: Ground, base: Baselines, rims: Rims) -> Choice:
    """The slab in parts, a sheet each."""
    rims = with_match_lines(rims)
    across, up = room_of(size, rims)
    cells, parts = parted(ground, (across * scale, up * scale))
    area = plan_area(size)
    views = [
        view_of(area, scale, part, base, rims, own=cell)
        for cell, part in zip(cells, parts, strict=True)
    ]
    return Choice(
        paper=size, scale=scale, views=tuple(views), parts=tuple(parts), cells=tuple(cells),
        seats=tuple(range(len(parts))), rims=rims,
    )  # fmt: skip
