"""Every rectangular panel that a grid allows, and the runs of joint between those that are chosen."""

import math
from dataclasses import dataclass

import numpy as np
import shapely

from kerfline.engine.measure.shape import Shape, rectangle_shape
from kerfline.engine.partition.grid import Grid
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.arrays import Flags, Integers, Numbers
from kerfline.geometry.tolerance import MEASURE


@dataclass(frozen=True, kw_only=True)
class Panels:
    """Rectangles on a grid: for each axis the index of the first and of the last line.

    Attributes:
        low: For each axis, the line on which each panel begins.
        high: For each axis, the line on which it ends.
        size: For each axis, its extent, mm.
        span: The working span that holds for each, mm.
    """

    low: tuple[Integers, Integers]
    high: tuple[Integers, Integers]
    size: tuple[Numbers, Numbers]
    span: Numbers

    def __len__(self) -> int:
        """Number of panels."""
        return len(self.span)

    @property
    def length(self) -> Numbers:
        """Long sides, mm."""
        return np.maximum(self.size[X], self.size[Y])

    @property
    def shape(self) -> Shape:
        """Their measures."""
        return rectangle_shape(self.size[X], self.size[Y])

    @property
    def single(self) -> Flags:
        """Which are single cells."""
        cells = (self.high[X] - self.low[X]) * (self.high[Y] - self.low[Y])
        return np.asarray(cells == 1)

    def only(self, keep: Flags | Integers) -> "Panels":
        """Those that are kept, by flags or by their indices."""
        return Panels(
            low=(self.low[X][keep], self.low[Y][keep]),
            high=(self.high[X][keep], self.high[Y][keep]),
            size=(self.size[X][keep], self.size[Y][keep]),
            span=self.span[keep],
        )


def rectangle_count(grid: Grid, region: Region, span: float) -> int:
    """How many rectangles of a grid are within the span, whether they are slab or not."""
    return math.prod(len(low) for low, _ in _pairs(grid, region, span))


def all_panels(grid: Grid, region: Region, span: float) -> Panels:
    """The rectangles of slab within the span that no pinned joint crosses and no keep-out forbids.

    Args:
        grid: The grid.
        region: For the spans of zones.
        span: Working span outside the zones, mm.
    """
    pairs = _pairs(grid, region, span)
    low_x, low_y = (p.ravel() for p in np.meshgrid(pairs[X][0], pairs[Y][0], indexing="ij"))
    high_x, high_y = (p.ravel() for p in np.meshgrid(pairs[X][1], pairs[Y][1], indexing="ij"))
    full = box_sum(grid.inside, low_x, high_x, low_y, high_y) == (high_x - low_x) * (high_y - low_y)
    low, high = (low_x[full], low_y[full]), (high_x[full], high_y[full])
    size = (
        grid.places[X][high[X]] - grid.places[X][low[X]],
        grid.places[Y][high[Y]] - grid.places[Y][low[Y]],
    )
    found = Panels(low=low, high=high, size=size, span=_spans(grid, region, span, low, high))
    keep = found.length <= found.span * region.stretch + MEASURE
    keep &= _inner_sum(grid.must, found) == 0
    keep &= _side_sum(grid.banned, found) == 0
    return found.only(keep)


def _pairs(grid: Grid, region: Region, span: float) -> list[tuple[Integers, Integers]]:
    """For each axis the pairs of lines that are no further apart than any span that holds here."""
    widest = max([span, *(z.working.span for z in region.zones)]) * region.stretch
    return [_intervals(grid.places[a], widest) for a in (X, Y)]


def _intervals(places: Numbers, limit: float) -> tuple[Integers, Integers]:
    """Every pair of lines no further apart than a limit."""
    low, high = np.triu_indices(len(places), 1)
    near = places[high] - places[low] <= limit + MEASURE
    return low[near], high[near]


def box_sum(
    cells: Numbers | Flags, low_x: Integers, high_x: Integers, low_y: Integers, high_y: Integers
) -> Numbers:
    """Sum of a table over half-open boxes, by its summed-area table."""
    table = np.zeros((cells.shape[0] + 1, cells.shape[1] + 1))
    table[1:, 1:] = cells.cumsum(axis=0).cumsum(axis=1)
    return np.asarray(
        table[high_x, high_y] - table[low_x, high_y] - table[high_x, low_y] + table[low_x, low_y]
    )


def inner_sum(table: Numbers | Flags, panels: Panels, axis: int) -> Numbers:
    """Sum over the pieces of an axis's lines that lie inside each panel."""
    other = 1 - axis
    first = panels.low[axis] + 1
    last = np.maximum(panels.high[axis], first)
    return box_sum(table, first, last, panels.low[other], panels.high[other])


def side_sums(table: Numbers | Flags, panels: Panels, axis: int) -> tuple[Numbers, Numbers]:
    """Sums over the pieces along each panel's low and high side on an axis."""
    other = 1 - axis
    low, high = panels.low[other], panels.high[other]
    run = np.zeros((table.shape[0], table.shape[1] + 1))
    run[:, 1:] = table.cumsum(axis=1)
    lines = (panels.low[axis], panels.high[axis])
    return tuple(run[line, high] - run[line, low] for line in lines)  # type: ignore[return-value] # two


def _inner_sum(tables: tuple[Flags, Flags], panels: Panels) -> Numbers:
    return inner_sum(tables[X], panels, X) + inner_sum(tables[Y], panels, Y)


def _side_sum(tables: tuple[Flags, Flags], panels: Panels) -> Numbers:
    return sum(
        (s for axis in (X, Y) for s in side_sums(tables[axis], panels, axis)), np.zeros(len(panels))
    )


def _spans(
    grid: Grid,
    region: Region,
    span: float,
    low: tuple[Integers, Integers],
    high: tuple[Integers, Integers],
) -> Numbers:
    """The span for each panel: the least of those of the zones that it touches, or the slab's own."""
    out = np.full(len(low[X]), span)
    if not region.zones:
        return out
    x, y = ((grid.places[a][:-1] + grid.places[a][1:]) / 2 for a in (X, Y))
    whole = (high[X] - low[X]) * (high[Y] - low[Y])
    least = np.full(len(out), np.inf)
    covered = np.zeros(len(out))
    for zone in region.zones:
        cells = shapely.contains_xy(zone.area, *np.meshgrid(x, y, indexing="ij"))
        count = box_sum(cells, low[X], high[X], low[Y], high[Y])
        least = np.where(count > 0, np.minimum(least, zone.working.span), least)
        covered += count
    return np.where(covered >= whole, least, np.minimum(least, span))


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A joint along one line, from one vertex to another.

    Attributes:
        axis: The axis that the line belongs to.
        line: Index of the line.
        first: Index of the line of the other axis where it begins.
        last: Index of the one where it ends.
    """

    axis: int
    line: int
    first: int
    last: int


def joint_pieces(grid: Grid, panels: Panels, chosen: Integers) -> tuple[Flags, Flags]:
    """Which pieces of the lines are joints when these panels are chosen."""
    out = (np.zeros_like(grid.interior[X]), np.zeros_like(grid.interior[Y]))
    for p in chosen:
        for axis in (X, Y):
            span = slice(panels.low[1 - axis][p], panels.high[1 - axis][p])
            for line in (panels.low[axis][p], panels.high[axis][p]):
                out[axis][line, span] = True
    return out[X] & grid.interior[X], out[Y] & grid.interior[Y]


def runs(joints: tuple[Flags, Flags]) -> list[Run]:
    """Unbroken stretches of joint, by axis, line and place."""
    out: list[Run] = []
    for axis in (X, Y):
        for line in range(joints[axis].shape[0]):
            marks = np.flatnonzero(np.diff(np.r_[0, joints[axis][line].astype(int), 0]))
            out.extend(
                Run(axis=axis, line=line, first=int(a), last=int(b))
                for a, b in zip(marks[::2], marks[1::2], strict=True)
            )
    return out
