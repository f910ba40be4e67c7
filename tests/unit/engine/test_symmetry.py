"""Panels and their images: on a symmetric slab they are chosen together, on others each by itself."""

import numpy as np
import pytest

from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.lattice import lattice
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition import on_grid
from kerfline.engine.partition.grid import grid
from kerfline.engine.partition.rectangle_costs import panel_costs
from kerfline.engine.partition.rectangles import all_panels
from kerfline.engine.partition.symmetry import grid_images
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules

FOOT = 304.8
RULES = SlabRules(rule_set=load("floor"))
RECTANGLE = ((0, 0), (18, 0), (18, 12), (0, 12))
TEE = ((0, 0), (6, 0), (6, 6), (12, 6), (12, 0), (18, 0), (18, 12), (0, 12))
ZED = ((0, 0), (12, 0), (12, 6), (18, 6), (18, 12), (6, 12), (6, 6), (0, 6))
EL = ((0, 0), (18, 0), (18, 6), (12, 6), (12, 12), (0, 12))


def searched(outline, columns=()):
    """A grid of a slab, its panels, their costs and their twins."""
    slab = Slab(
        outline=Ring(tuple((x * FOOT, y * FOOT) for x, y in outline)),
        thickness=101.6,
        columns=columns,
    )
    region = placed_region(slab, RULES, EngineOptions(), gross=slab.gross, angle=0.0).region
    net = grid(region, lattice(region, 40, region.working.span), Weights())
    panels = all_panels(net, region, region.working.span)
    costs = panel_costs(net, region, panels, Weights())
    return net, panels, costs, grid_images(net, panels, costs)


def images(net, panels, flip_x, flip_y):
    """For each panel its image, found by its corners one by one."""
    last = [len(p) - 1 for p in net.places]
    boxes = list(
        zip(*(e[a].tolist() for a in (0, 1) for e in (panels.low, panels.high)), strict=True)
    )
    number = {box: n for n, box in enumerate(boxes)}
    for x0, x1, y0, y1 in boxes:
        along = (last[0] - x1, last[0] - x0) if flip_x else (x0, x1)
        up = (last[1] - y1, last[1] - y0) if flip_y else (y0, y1)
        yield number.get((*along, *up))


@pytest.mark.parametrize(
    ("outline", "flips"),
    [
        (RECTANGLE, [(True, False), (False, True), (True, True)]),
        (TEE, [(True, False)]),
        (ZED, [(True, True)]),
        (EL, []),
    ],
)
def test_each_panel_goes_with_its_images_and_with_no_other(outline, flips):
    net, panels, _, pairs = searched(outline)
    own = np.arange(len(panels))
    groups = [own, *(np.array(list(images(net, panels, *flip))) for flip in flips)]
    assert pairs.tolist() == np.min(groups, axis=0).tolist()
    assert bool((pairs != own).any()) is bool(flips)


def test_the_search_asks_for_a_symmetric_layout_first(monkeypatch):
    """What it hands to the programme are the panels' images, not each panel by itself."""
    asked = []
    whole = on_grid.grid_partition

    def partition(net, panels, costs, weights, hidden, choice):
        asked.append((choice, grid_images(net, panels, costs)))
        return whole(net, panels, costs, weights, hidden, choice)

    monkeypatch.setattr(on_grid, "grid_partition", partition)
    outline = Ring(tuple((x * FOOT, y * FOOT) for x, y in TEE))
    lay_out(Slab(outline=outline, thickness=101.6), RULES)
    first, expected = asked[0]
    assert first.tolist() == expected.tolist()
    assert first.tolist() != list(range(len(first)))


def test_a_column_to_one_side_takes_the_symmetry_away():
    column = Column(id="C1", at=(5 * FOOT, 4 * FOOT))
    _, panels, _, pairs = searched(RECTANGLE, (column,))
    assert pairs.tolist() == list(range(len(panels)))


def test_images_that_cost_apart_are_not_chosen_together():
    net, panels, costs, pairs = searched(TEE)
    second = int(np.flatnonzero(pairs != np.arange(len(panels)))[0])
    dearer = costs.copy()
    dearer[second] += 100.0
    assert grid_images(net, panels, dearer).tolist() == list(range(len(panels)))
