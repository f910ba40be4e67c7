"""On which lines a grid is searched again: those in use, and others that may mend its poor panels.

Candidate lines come from features and from even divisions of whole free spans, more than a search can take; which of
them meet nobody knows before. Once a layout is there, the lines that serve nothing make room for divisions of what its
own joints leave: of each panel that breaks a rule or is warned of, alone and together with one beside it.
"""

from dataclasses import dataclass, replace

import numpy as np

from kerfline.engine.lines.divisions import Places, mending_places
from kerfline.engine.lines.lattice import Asked
from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.regions.features import CLEAR_OF
from kerfline.engine.regions.region import Region, X, Y
from kerfline.engine.steps import Steps
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.slab import Meeting


@dataclass(frozen=True, kw_only=True)
class Mending:
    """Lines that a layout asks for.

    Attributes:
        stay: Those in use on both axes.
        broken: Those beside panels that break a rule, the most wanted first.
        warned: Those beside panels that are warned of.
    """

    stay: Places
    broken: Places
    warned: Places

    @property
    def asked(self) -> Asked:
        """All of them."""
        more = [(*self.broken[a], *self.warned[a]) for a in (X, Y)]
        return Asked(stay=self.stay, more=(more[X], more[Y]))


def mending_lines(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Mending:
    """The lines in use, and those beside panels that break a rule or are warned of.

    Args:
        grid: The grid.
        region: Where the panels lie.
        panels: Those of the layout.
        weights: What each thing is worth.
    """
    low, high = ([grid.places[a][ends[a]] for a in (X, Y)] for ends in (panels.low, panels.high))
    boxes = [(x0, y0, x1, y1) for x0, y0, x1, y1 in np.transpose([*low, *high]).tolist()]
    price = cost_on(region, weights)
    sound, advised = price.keeps(panels.shape), price.is_advised(panels.shape)
    rules = replace(region.working, aspect=region.advised.aspect)
    stay = [tuple(sorted({*low[a].tolist(), *high[a].tolist()})) for a in (X, Y)]
    return Mending(
        stay=(stay[X], stay[Y]),
        broken=_on_steps(region, mending_places(boxes, (~sound).tolist(), region.working)),
        warned=_on_steps(region, mending_places(boxes, (sound & ~advised).tolist(), rules)),
    )


def _on_steps(region: Region, places: Places) -> Places:
    """Places on whole steps, less those that lie in the way of something."""
    out = []
    for axis in (X, Y):
        steps = Steps(region.baseline[axis], region.step)
        near = (steps.nearest(at) for at in places[axis])
        out.append(tuple(at for at in near if not is_in_the_way(region, axis, at)))
    return out[X], out[Y]


def is_in_the_way(region: Region, axis: int, at: float) -> bool:
    """Whether a line would run too near a penetration that asks to stay clear, or graze a boxout.

    To mend a panel is no reason for that. A line that grazes a boxout leaves a sliver beside it, or a panel around it.
    """
    near = any(
        hole.meeting is Meeting.CLEAR and abs(at - hole.at[axis]) < hole.clear - MEASURE
        for hole in region.penetrations
    )
    boxes = (c.outline.polygon.bounds for c in region.columns if c.outline is not None)
    return near or any(abs(at - box[end]) < CLEAR_OF for box in boxes for end in (axis, axis + 2))
