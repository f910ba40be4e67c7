"""Panels of a net or of a grid and their images: chosen together where all that bears on the joints is symmetric."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import LineString, Point, Polygon, affinity

from kerfline.engine.lines.candidates import CandidateLine, straight
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.lines.lattice import lattice
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition.grid import grid
from kerfline.engine.partition.images import grid_images, symmetric_panels
from kerfline.engine.partition.net import net_of
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.partition.rectangle_costs import panel_costs
from kerfline.engine.partition.rectangles import Panels, all_panels
from kerfline.engine.problem import Problem, Target
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason, WorkingLimits
from kerfline.model.slab import Column, Slab
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import RULES

LIMITS = WorkingLimits(span=6500.0, aspect=1.5, width=600.0, angle=60.0)
WIDE, HIGH = 12000.0, 9000.0
HALL = Polygon([(0, 0), (WIDE, 0), (WIDE, HIGH), (0, HIGH)])
EL = Polygon([(0, 0), (12000, 0), (12000, 4000), (4000, 4000), (4000, 12000), (0, 12000)])
"""Symmetric about a diagonal only."""


def lines(axis, reach, places):
    return [CandidateLine(straight(p, axis, (0.0, reach)), Reason.SPAN) for p in places]


def searched(shape=HALL, across=(4000.0, 8000.0), up=(3000.0, 6000.0), settled=(), **more):
    """A net of lines at some places, its panels, and a price for each seam."""
    problem = Problem(concrete=shape, limits=LIMITS, **more)
    x, y = shape.bounds[2:]
    net = net_of(shape, SquareChart(), lines(0, y, across), lines(1, x, up), list(settled))
    return problem, net, candidate_panels(problem, net), [100.0] * len(net.seams)


def centre(net, cells):
    found = [net.cells[c].polygon for c in cells]
    area = sum(p.area for p in found)
    return tuple(
        round(sum(getattr(p.centroid, axis) * p.area for p in found) / area, 3) for axis in "xy"
    )


def test_in_a_hall_a_panel_goes_with_its_mirror_images():
    """Of 3 x 3 cells a corner one has three images, one in the middle of a side has one, the middle one none."""
    problem, net, panels, prices = searched()
    found = symmetric_panels(problem, net, panels, prices)
    assert found is not None
    groups = {}
    for panel, first in zip(found.panels, found.images, strict=True):
        groups.setdefault(first, []).append(panel)
    assert all(
        first == min(n for n, f in enumerate(found.images) if f == first) for first in groups
    )
    single = sorted(len(g) for g in groups.values() if len(g[0].cells) == 1)
    assert single == [1, 2, 2, 4]
    for group in groups.values():
        spots = {centre(net, panel.cells) for panel in group}
        x, y = next(iter(spots))
        assert spots == {(a, b) for a in (x, WIDE - x) for b in (y, HIGH - y)}


def test_panels_that_lie_over_their_own_images_are_left_out():
    problem, net, panels, prices = searched()
    found = symmetric_panels(problem, net, panels, prices)
    kept = {p.cells for p in found.panels}
    assert any(len(cells) == 2 for cells in {p.cells for p in panels} - kept)
    for n, first in enumerate(found.images):
        alike = [p for p, f in zip(found.panels, found.images, strict=True) if f == first]
        cells = [c for p in alike for c in p.cells]
        assert len(cells) == len(set(cells)), n


@pytest.mark.parametrize(
    "more",
    [
        {"targets": (Target(at=(4000.0, 3000.0), weight=1.0, reason=Reason.CORNER),)},
        {"landings": ((4000.0, 0.0),)},
        {"barred": Point(2000, 2000).buffer(300)},
    ],
)
def test_what_lies_to_one_side_takes_the_symmetry_away(more):
    assert symmetric_panels(*searched(**more)) is None


def test_what_lies_in_the_middle_does_not():
    at = (WIDE / 2, HIGH / 2)
    assert (
        symmetric_panels(*searched(targets=(Target(at=at, weight=1.0, reason=Reason.CORNER),)))
        is not None
    )


def test_lines_to_one_side_take_one_mirror_away():
    problem, net, panels, prices = searched(across=(3500.0, 8000.0))
    found = symmetric_panels(problem, net, panels, prices)
    for panel, first in zip(found.panels, found.images, strict=True):
        (x, y), (u, v) = centre(net, panel.cells), centre(net, found.panels[first].cells)
        assert x == u
        assert y == v or y == pytest.approx(HIGH - v)


def test_a_settled_joint_on_one_side_and_none_on_the_other_is_no_symmetry():
    """Along x alone: a joint at 4 m is there already, that at 8 m may be chosen."""
    wall = LineString([(4000, 0), (4000, HIGH)])
    problem, net, panels, prices = searched(up=(2500.0, 6000.0), settled=[wall])
    assert symmetric_panels(problem, net, panels, prices) is None
    both = [wall, affinity.translate(wall, 4000)]
    assert symmetric_panels(*searched(up=(2500.0, 6000.0), settled=both)) is not None


def test_a_dearer_seam_on_one_side_is_no_symmetry():
    problem, net, panels, prices = searched(up=(2500.0, 6000.0))
    assert symmetric_panels(problem, net, panels, prices) is not None
    middles = [s.path.interpolate(0.5, normalized=True).x for s in net.seams]
    dearer = np.where(np.isclose(middles, 4000.0), 900.0, 100.0).tolist()
    assert symmetric_panels(problem, net, panels, dearer) is None
    hardly = np.where(np.isclose(middles, 4000.0), 250.0, 100.0).tolist()
    assert symmetric_panels(problem, net, panels, hardly) is not None


def test_a_panel_without_an_image_is_left_out_and_a_cell_without_one_ends_the_search():
    problem, net, panels, prices = searched(up=(2250.0, 4500.0, 6750.0))
    found = symmetric_panels(problem, net, panels, prices)
    pair = next(p for p in found.panels if len(p.cells) == 2)
    fewer = symmetric_panels(problem, net, [p for p in panels if p is not pair], prices)
    assert len(fewer.panels) < len(found.panels)
    assert all(len(p.cells) == 1 or p.cells != pair.cells for p in fewer.panels)
    corner = next(p for p in panels if len(p.cells) == 1)
    assert symmetric_panels(problem, net, [p for p in panels if p is not corner], prices) is None


def test_equal_legs_are_chosen_together_across_the_diagonal():
    problem, net, panels, prices = searched(EL, (4000.0, 8000.0), (4000.0, 8000.0))
    found = symmetric_panels(problem, net, panels, prices)
    pairs = {
        (centre(net, p.cells), centre(net, found.panels[first].cells))
        for p, first in zip(found.panels, found.images, strict=True)
        if found.panels[first] is not p
    }
    assert pairs
    assert all(at == (other[1], other[0]) for at, other in pairs)


RECTANGLE = ((0, 0), (18, 0), (18, 12), (0, 12))
TEE = ((0, 0), (6, 0), (6, 6), (12, 6), (12, 0), (18, 0), (18, 12), (0, 12))
ZED = ((0, 0), (12, 0), (12, 6), (18, 6), (18, 12), (6, 12), (6, 6), (0, 6))
ELL = ((0, 0), (18, 0), (18, 6), (12, 6), (12, 12), (0, 12))


def on_a_grid(outline, columns=()):
    """A grid of a slab, its panels, their costs and their twins."""
    slab = Slab(
        outline=Ring(tuple((x * MM_PER_FOOT, y * MM_PER_FOOT) for x, y in outline)),
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
        (ELL, []),
    ],
)
def test_each_panel_goes_with_its_images_and_with_no_other(outline, flips):
    net, panels, _, pairs = on_a_grid(outline)
    own = np.arange(len(panels))
    groups = [own, *(np.array(list(images(net, panels, *flip))) for flip in flips)]
    assert pairs.tolist() == np.min(groups, axis=0).tolist()
    assert bool((pairs != own).any()) is bool(flips)


def test_a_column_to_one_side_takes_the_symmetry_away():
    column = Column(id="C1", at=(5 * MM_PER_FOOT, 4 * MM_PER_FOOT))
    _, panels, _, pairs = on_a_grid(RECTANGLE, (column,))
    assert pairs.tolist() == list(range(len(panels)))


def test_images_that_cost_apart_are_not_chosen_together():
    net, panels, costs, pairs = on_a_grid(TEE)
    second = int(np.flatnonzero(pairs != np.arange(len(panels)))[0])
    dearer = costs.copy()
    dearer[second] += 100.0
    assert grid_images(net, panels, dearer).tolist() == list(range(len(panels)))


def uneven_grid(moved_x=0.0, moved_y=0.0):
    """The grid of a rectangle with the second line of an axis moved by so much (mm)."""
    net, panels, _, _ = on_a_grid(RECTANGLE)
    places = tuple(p.copy() for p in net.places)
    places[0][1] += moved_x
    places[1][1] += moved_y
    return replace(net, places=places), panels, np.zeros(len(panels))


@pytest.mark.parametrize(
    ("moved", "flips"),
    [
        ((0.0, 0.0), [(True, False), (False, True), (True, True)]),
        ((28.0, -28.0), [(True, False), (False, True), (True, True)]),
        ((32.0, 0.0), [(False, True)]),
        ((0.0, -32.0), [(True, False)]),
        ((100.0, 100.0), []),
    ],
)
def test_lines_off_their_mirror_images_by_more_than_an_inch_are_no_mirror(moved, flips):
    """All panels cost alike here, so that the places of the lines alone decide."""
    net, panels, costs = uneven_grid(*moved)
    groups = [np.arange(len(panels)), *(np.array(list(images(net, panels, *f))) for f in flips)]
    assert grid_images(net, panels, costs).tolist() == np.min(groups, axis=0).tolist()


@pytest.mark.parametrize(("dearer", "together"), [(0.9, True), (1.1, False)])
def test_images_whose_costs_differ_by_a_millimetre_of_joint_are_not_alike(dearer, together):
    net, panels, costs = uneven_grid(100.0, 0.0)
    twin = int(
        next(n for n, m in enumerate(images(net, panels, flip_x=False, flip_y=True)) if n != m)
    )
    costs[twin] = dearer
    pairs = grid_images(net, panels, costs)
    assert bool((pairs != np.arange(len(panels))).any()) is together


@pytest.mark.parametrize("missing", [0, -1])
def test_a_panel_without_an_image_takes_the_symmetry_of_a_grid_away(missing):
    """The first panel in order of its lines is left out, or the last, whose image is sought beyond all others."""
    net, panels, costs = uneven_grid()
    order = np.lexsort((panels.high[1], panels.low[1], panels.high[0], panels.low[0]))
    kept = np.delete(np.arange(len(panels)), order[missing])
    fewer = Panels(
        low=tuple(e[kept] for e in panels.low),
        high=tuple(e[kept] for e in panels.high),
        size=tuple(e[kept] for e in panels.size),
        span=panels.span[kept],
    )
    assert grid_images(net, fewer, costs[kept]).tolist() == list(range(len(kept)))


CROSS_ABOUT_X = Polygon([(0, 0), (9000, 0), (12000, 4500), (9000, 9000), (0, 9000)])
CROSS_ABOUT_Y = Polygon([(0, 0), (12000, 0), (12000, 6000), (6000, 9000), (0, 6000)])
LEANING = Polygon([(0, 0), (9000, 0), (12000, 9000), (3000, 9000)])
LEANING_ON_A_SQUARE = Polygon([(0, 0), (9000, 0), (12000, 12000), (3000, 12000)])
KITE = Polygon([(0, 0), (8000, 3000), (12000, 12000), (3000, 8000)])
OTHER_KITE = Polygon([(12000, 0), (9000, 8000), (0, 12000), (4000, 3000)])


@pytest.mark.parametrize(
    ("shape", "image"),
    [
        (CROSS_ABOUT_X, lambda x, y: (x, 9000 - y)),
        (CROSS_ABOUT_Y, lambda x, y: (12000 - x, y)),
        (LEANING, lambda x, y: (12000 - x, 9000 - y)),
        (LEANING_ON_A_SQUARE, lambda x, y: (12000 - x, 12000 - y)),
        (KITE, lambda x, y: (y, x)),
        (OTHER_KITE, lambda x, y: (12000 - y, 12000 - x)),
    ],
)
def test_a_piece_with_one_symmetry_has_that_one(shape, image):
    """Of a mirror in each axis, in each diagonal, and the half turn: every cell goes with its image alone."""
    wide, high = shape.bounds[2:]
    problem, net, panels, prices = searched(
        shape, (wide / 3, 2 * wide / 3), (high / 3, 2 * high / 3)
    )
    found = symmetric_panels(problem, net, panels, prices)
    assert found is not None
    groups = {}
    for panel, first in zip(found.panels, found.images, strict=True):
        groups.setdefault(first, set()).add(centre(net, panel.cells))
    for spots in groups.values():
        first = min(spots)
        wanted = {first, image(*first)}
        assert len(spots) == len({tuple(np.round(w, 1)) for w in wanted})
        assert all(any(np.allclose(s, w, atol=0.1) for w in wanted) for s in spots)
    assert any(len(spots) > 1 for spots in groups.values())


def test_a_piece_without_a_symmetry_has_none():
    odd = Polygon([(0, 0), (12000, 0), (10000, 7000), (3000, 9000)])
    assert symmetric_panels(*searched(odd)) is None


def test_small_cells_may_differ_by_what_their_lines_were_rounded_to():
    """Strips of 300 and 315 mm beside the middle are images, as their sides are within an inch or so."""
    narrow = symmetric_panels(*searched(across=(5700.0, 6000.0, 6315.0), up=(4000.0,)))
    assert narrow is not None
    wide = symmetric_panels(*searched(across=(4000.0, 4300.0, 7600.0, 8000.0), up=(4100.0,)))
    assert wide is None


@pytest.mark.parametrize(("dearer", "together"), [(20850.0, True), (21100.0, False)])
def test_prices_of_seams_may_differ_by_a_share_and_a_foot(dearer, together):
    """Of 20,000 mm three in a hundred and a foot: 905 mm."""
    problem, net, panels, _ = searched(up=(2500.0, 6000.0))
    middles = [s.path.interpolate(0.5, normalized=True).x for s in net.seams]
    prices = np.where(np.isclose(middles, 4000.0), dearer, 20000.0).tolist()
    assert (symmetric_panels(problem, net, panels, prices) is not None) is together


def test_cells_whose_middles_are_images_but_whose_areas_are_not_are_no_symmetry():
    """Strips of 300 and 345 mm: their middles are images to within an inch, their areas differ by 15 in 100."""
    assert symmetric_panels(*searched(across=(5700.0, 6000.0, 6345.0), up=(4000.0,))) is None
