"""What is amiss of the panels on the true slab, and which of a grid's are barred for it.

The grid squares the outline, and a joint may leave its line to meet a corner or a wall. So a panel that is just long or
wide enough on the grid may not be on the slab. Only such ones are barred where they lie; all others keep their size.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from shapely import LineString

from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.score import panels_between
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.partition.true_runs import TrueRun
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.arrays import Flags
from kerfline.geometry.ring import Point
from kerfline.geometry.span import span_of
from kerfline.geometry.tolerance import MEASURE, SAME


@dataclass(frozen=True)
class TruePanels:
    """What is amiss of the panels on the true slab, each by a point in it.

    Attributes:
        long: By how much panels are over the greatest span that is taken, mm.
        poor: Others that break a rule on size.
    """

    long: dict[Point, float]
    poor: tuple[Point, ...]


def true_panels(region: Region, price: Cost, on_slab: Sequence[TrueRun]) -> TruePanels:
    """What is amiss of the panels between the joints on the true slab."""
    lines = [LineString(piece) for run in on_slab for piece in run.pieces]
    long, poor = {}, []
    for panel in panels_between(region.concrete, lines):
        at = panel.representative_point()
        spans = [z.working.span for z in region.zones if z.area.contains(at)]
        span, longest = (spans or [region.working.span])[0], span_of(panel)
        if longest > span * region.stretch + MEASURE:
            long[at.x, at.y] = longest - span * region.stretch
        elif not price.keeps(shape_of(panel, 0.0)):
            poor.append((at.x, at.y))
    return TruePanels(long, tuple(poor))


@dataclass(frozen=True)
class Extent:
    """From where to where panels reach along an axis that hold a place on the other one, mm."""

    axis: int
    low: float
    high: float
    across: float


def extents(grid: Grid, panels: Panels, price: Cost, true: TruePanels) -> Iterator[Extent]:
    """How far panels of a grid reach along their longer axis that came out too long, or poor though the grid has them sound."""
    low, high = ([grid.places[a][e[a]] for a in (X, Y)] for e in (panels.low, panels.high))
    sound = price.keeps(panels.shape)
    for points, which in ((true.long, np.ones_like(sound)), (true.poor, sound)):
        for at in points:
            holds = [(low[a] <= at[a]) & (at[a] <= high[a]) for a in (X, Y)]
            for i in np.flatnonzero(which & holds[X] & holds[Y]):
                axis = X if panels.size[X][i] >= panels.size[Y][i] else Y
                yield Extent(axis, float(low[axis][i]), float(high[axis][i]), at[1 - axis])


def is_barred(net: Grid, panels: Panels, barred: Sequence[Extent]) -> Flags:
    """Panels of an extent that came out too long."""
    out = np.zeros(len(panels), dtype=bool)
    for extent in barred:
        axis, other = extent.axis, 1 - extent.axis
        along, across = net.places[axis], net.places[other]
        out |= (
            (np.abs(along[panels.low[axis]] - extent.low) <= SAME)
            & (np.abs(along[panels.high[axis]] - extent.high) <= SAME)
            & (across[panels.low[other]] < extent.across)
            & (across[panels.high[other]] > extent.across)
        )
    return out
