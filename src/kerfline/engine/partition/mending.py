"""On which lines a grid is searched again: those in use, and others that may mend its poor panels.

Candidate lines come from features and from even divisions of whole free spans, more than a search can take; which of
them meet nobody knows before. Once a layout is there, the lines that serve nothing make room for divisions of what its
own joints leave: of each panel that breaks a rule or is warned of, alone and together with one beside it.
"""

from dataclasses import replace

import numpy as np

from kerfline.engine.lines.divisions import mending_places
from kerfline.engine.lines.lattice import Asked
from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.regions.region import Region, X, Y
from kerfline.engine.steps import Steps


def mending_lines(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Asked:
    """The lines in use, and those beside panels that break a rule, then beside those that are warned of.

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
    broken = mending_places(boxes, (~sound).tolist(), region.working)
    warned = mending_places(boxes, (sound & ~advised).tolist(), rules)
    steps = [Steps(region.baseline[a], region.step) for a in (X, Y)]
    stay, more = [], []
    for a in (X, Y):
        stay.append(tuple(sorted({*low[a].tolist(), *high[a].tolist()})))
        more.append(tuple(steps[a].nearest(at) for at in (*broken[a], *warned[a])))
    return Asked(stay=(stay[X], stay[Y]), more=(more[X], more[Y]))
