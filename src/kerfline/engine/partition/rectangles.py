"""Every rectangular panel that the candidate lines allow."""

from dataclasses import dataclass

import numpy as np
import shapely

from kerfline.engine.lines.features import X, Y, model_outline
from kerfline.engine.partition.grid import Array, Flags, Grid, Whole
from kerfline.engine.partition.overshoot import added, overshoots
from kerfline.engine.regions.region import Region
from kerfline.geometry.tolerance import MEASURE, RATIO


@dataclass(frozen=True, kw_only=True)
class Panels:
    """Rectangles on a grid: for each axis the index of the first and of the last line.

    Attributes:
        low: For each axis, the line on which each panel begins.
        high: For each axis, the line on which it ends.
        size: For each axis, its extent, mm.
        span: The working span that holds for each, mm.
    """

    low: tuple[Whole, Whole]
    high: tuple[Whole, Whole]
    size: tuple[Array, Array]
    span: Array

    def __len__(self) -> int:
        """Number of panels."""
        return len(self.span)

    @property
    def length(self) -> Array:
        """Long sides, mm."""
        return np.maximum(self.size[X], self.size[Y])

    @property
    def width(self) -> Array:
        """Short sides, mm."""
        return np.minimum(self.size[X], self.size[Y])

    @property
    def aspect(self) -> Array:
        """Length over width."""
        return self.length / self.width

    @property
    def single(self) -> Flags:
        """Which are single cells."""
        cells = (self.high[X] - self.low[X]) * (self.high[Y] - self.low[Y])
        return np.asarray(cells == 1)

    def only(self, keep: Flags) -> "Panels":
        """Those that are kept."""
        return Panels(
            low=(self.low[X][keep], self.low[Y][keep]),
            high=(self.high[X][keep], self.high[Y][keep]),
            size=(self.size[X][keep], self.size[Y][keep]),
            span=self.span[keep],
        )


def all_panels(grid: Grid, region: Region, span: float) -> Panels:
    """The rectangles of slab within the span that no pinned joint crosses and no keep-out forbids.

    Args:
        grid: The grid.
        region: For the spans of zones.
        span: Working span outside the zones, mm.
    """
    widest = max([span, *(z.working.span for z in region.zones)]) * region.stretch
    pairs = [_intervals(grid.places[a], widest) for a in (X, Y)]
    low_x, low_y = (p.ravel() for p in np.meshgrid(pairs[X][0], pairs[Y][0], indexing="ij"))
    high_x, high_y = (p.ravel() for p in np.meshgrid(pairs[X][1], pairs[Y][1], indexing="ij"))
    full = box_sum(grid.inside, low_x, high_x, low_y, high_y) == (high_x - low_x) * (high_y - low_y)
    low, high = (low_x[full], low_y[full]), (high_x[full], high_y[full])
    size = (
        grid.places[X][high[X]] - grid.places[X][low[X]],
        grid.places[Y][high[Y]] - grid.places[Y][low[Y]],
    )
    found = Panels(low=low, high=high, size=size, span=_spans(grid, region, span, low, high))
    keep = _true_length(grid, region, found) <= found.span * region.stretch + MEASURE
    keep &= _inner_sum(grid.must, found) == 0
    keep &= _side_sum(grid.banned, found) == 0
    return found.only(keep)


def _true_length(grid: Grid, region: Region, panels: Panels) -> Array:
    """Long sides with what the true outline adds beyond the squared one; single cells are let be."""
    beyond = overshoots(grid, model_outline(region))
    if beyond is None:
        return panels.length
    sides = [panels.size[a] + added(beyond[a], panels.low, panels.high, a) for a in (X, Y)]
    return np.where(panels.single, panels.length, np.maximum(sides[X], sides[Y]))


def _intervals(places: Array, limit: float) -> tuple[Whole, Whole]:
    """Every pair of lines no further apart than a limit."""
    low, high = np.triu_indices(len(places), 1)
    near = places[high] - places[low] <= limit + MEASURE
    return low[near], high[near]


def box_sum(
    cells: Array | Flags, low_x: Whole, high_x: Whole, low_y: Whole, high_y: Whole
) -> Array:
    """Sum of a table over half-open boxes, by its summed-area table."""
    table = np.zeros((cells.shape[0] + 1, cells.shape[1] + 1))
    table[1:, 1:] = cells.cumsum(axis=0).cumsum(axis=1)
    return np.asarray(
        table[high_x, high_y] - table[low_x, high_y] - table[high_x, low_y] + table[low_x, low_y]
    )


def inner_sum(table: Array | Flags, panels: Panels, axis: int) -> Array:
    """Sum over the pieces of an axis's lines that lie inside each panel."""
    other = 1 - axis
    first = panels.low[axis] + 1
    last = np.maximum(panels.high[axis], first)
    return box_sum(table, first, last, panels.low[other], panels.high[other])


def side_sums(table: Array | Flags, panels: Panels, axis: int) -> tuple[Array, Array]:
    """Sums over the pieces along each panel's low and high side on an axis."""
    other = 1 - axis
    low, high = panels.low[other], panels.high[other]
    run = np.zeros((table.shape[0], table.shape[1] + 1))
    run[:, 1:] = table.cumsum(axis=1)
    lines = (panels.low[axis], panels.high[axis])
    return tuple(run[line, high] - run[line, low] for line in lines)  # type: ignore[return-value] # two


def _inner_sum(tables: tuple[Flags, Flags], panels: Panels) -> Array:
    return inner_sum(tables[X], panels, X) + inner_sum(tables[Y], panels, Y)


def _side_sum(tables: tuple[Flags, Flags], panels: Panels) -> Array:
    return sum(
        (s for axis in (X, Y) for s in side_sums(tables[axis], panels, axis)), np.zeros(len(panels))
    )


def _spans(
    grid: Grid,
    region: Region,
    span: float,
    low: tuple[Whole, Whole],
    high: tuple[Whole, Whole],
) -> Array:
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


def legal(panels: Panels, region: Region) -> Flags:
    """Panels within the aspect limit and not under the least width."""
    good = panels.aspect <= region.working.aspect + RATIO
    return np.asarray(good & (panels.width >= region.working.width - MEASURE), dtype=bool)
