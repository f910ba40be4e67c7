"""The measures of panels, of one that is drawn and of many groups of cells at once."""

import math

import numpy as np
import pytest
import shapely
from shapely import Polygon, affinity, box

from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.measure.shape import (
    DEEP,
    corners_of,
    hollow_of,
    rectangle_shape,
    shape_of,
    shapes_of,
)
from kerfline.engine.partition.net import net_of
from kerfline.engine.partition.on_chart import both_families
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import Target
from kerfline.geometry.rectangle import enclosing_rectangle, enclosing_rectangles
from kerfline.model.layout import Reason, WorkingLimits

HOOK = box(0, 0, 3000, 3000) - box(2000, 1800, 3000, 3000)
WEDGE = Polygon([(0, 0), (4000, 0), (4000, 4000 * math.tan(math.radians(50)))])
OBLONG = box(100, 200, 3100, 2200)


@pytest.mark.parametrize(
    ("panel", "area"),
    [(OBLONG, 6e6), (HOOK, 9e6 - 1.2e6), (WEDGE, 8e6 * math.tan(math.radians(50)))],
)
def test_the_area_is_the_same_by_every_way_of_measuring(panel, area):
    many, _ = shapes_of(corners_of([panel]), [[0]], 60.0)
    assert shape_of(panel, 60.0).area == pytest.approx(area)
    assert many.area == pytest.approx([area])


def test_a_rectangle_is_measured_by_its_sides():
    shape = rectangle_shape(2000.0, 3000.0)
    assert (shape.length, shape.width, shape.span, shape.area) == (3000.0, 2000.0, 3000.0, 6e6)
    assert shape.aspect == pytest.approx(1.5)


def test_a_hook_fills_less_than_its_hull_and_has_a_hollow_as_deep_as_its_corner():
    """Its hull lacks the triangle of 1000 by 1200 mm beyond the bite; the corner lies 768 mm under it."""
    shape = shape_of(HOOK, 60.0)
    assert shape.fullness == pytest.approx(7.8 / 8.4)
    assert shape.deepest == pytest.approx(1000 * 1200 / math.hypot(1000, 1200))
    assert shape.hollow == 1.0


def test_a_corner_under_the_least_angle_is_sharp_by_what_it_lacks():
    shape = shape_of(WEDGE, 60.0)
    assert shape.sharp == pytest.approx(2.0)
    assert shape.short == pytest.approx(10.0 + 20.0)


def test_a_shallow_jog_is_noise_and_a_deep_one_counts_whole():
    assert hollow_of(30.0) == 0.0
    assert hollow_of(DEEP / 2) == 0.5
    assert hollow_of(2 * DEEP) == 1.0


LIMITS = WorkingLimits(span=4000.0, aspect=1.5, width=600.0, angle=60.0)
SKEW = Polygon([(0, 0), (11000, 900), (10200, 8000), (6500, 7600), (6300, 5200), (-800, 5000)])
PITTED = Polygon(
    [(0, 0), (7000, 600), (6800, 6000), (0, 5500)],
    [[(2000, 2500), (3500, 2600), (3400, 3600), (2000, 3500)]],
)


def netted(shape, targets=()):
    problem = Problem(concrete=shape, limits=LIMITS, targets=targets)
    chart = SquareChart()
    firsts, seconds = both_families(problem, chart)
    return problem, net_of(shape, chart, firsts, seconds, ())


@pytest.mark.parametrize("shape", [SKEW, PITTED])
def test_groups_measure_as_they_do_when_drawn(shape):
    """Sides, fullness, hollows and points are those of the union of the cells, holes told apart."""
    problem, net = netted(shape)
    found = [c.cells for c in candidate_panels(problem, net)]
    whole = tuple(range(len(net.cells)))
    groups = [*found, whole]
    cells = [c.polygon for c in net.cells]
    found, solid = shapes_of(corners_of(cells), groups, 60.0)
    for n, group in enumerate(groups):
        drawn = shapely.union_all([cells[c] for c in group])
        assert solid[n] == (not drawn.interiors)
        if drawn.interiors:
            continue
        true = shape_of(drawn, 60.0)
        assert found.length[n] == pytest.approx(true.length, abs=0.01)
        assert found.width[n] == pytest.approx(true.width, abs=0.01)
        assert found.span[n] >= true.span - 0.01
        assert found.fullness[n] == pytest.approx(true.fullness, abs=1e-6)
        assert found.hollow[n] == pytest.approx(true.hollow, abs=1e-4)
        assert found.deepest[n] == pytest.approx(true.deepest, abs=0.01)
        assert found.sharp[n] == pytest.approx(true.sharp, abs=1e-3)
        assert found.short[n] == pytest.approx(true.short, abs=1e-3)


def test_the_whole_of_a_slab_around_a_pit_has_a_hole():
    """Euler's count tells the ring of cells from a panel."""
    _, net = netted(PITTED)
    cells = [c.polygon for c in net.cells]
    _, solid = shapes_of(corners_of(cells), [tuple(range(len(cells)))], 60.0)
    assert solid.tolist() == [False]


def test_a_knee_is_no_hollow():
    """A re-entrant corner that is named as a knee does not count."""
    _, net = netted(SKEW)
    cells = [c.polygon for c in net.cells]
    groups = [tuple(range(len(cells)))]
    with_corner, _ = shapes_of(corners_of(cells), groups, 60.0)
    without, _ = shapes_of(corners_of(cells), groups, 60.0, [(6300.0, 5200.0)])
    assert with_corner.hollow == pytest.approx(without.hollow + 1.0)


def test_a_point_that_asks_for_a_joint_costs_panels_that_hold_it_inside():
    """Each panel costs more by the weight where the point lies inside it, and not at its rim."""
    at = (3000.0, 2000.0)
    asking = Target(at=at, reason=Reason.COLUMN, weight=5e4)
    problem, net = netted(SKEW, (asking,))
    plain = {c.cells: c.cost for c in candidate_panels(Problem(concrete=SKEW, limits=LIMITS), net)}
    for choice in candidate_panels(problem, net):
        inside = choice.polygon.buffer(-1.0).contains(shapely.Point(at))
        assert choice.cost - plain[choice.cells] == pytest.approx(5e4 if inside else 0.0)


def test_many_rectangles_are_those_of_one_at_a_time():
    """The same sides, for hulls of different numbers of corners."""
    shapes = [affinity.rotate(s, 7.0 * n) for n, s in enumerate((SKEW, PITTED, SKEW.buffer(50)))]
    hulls = np.array([s.convex_hull for s in shapes])
    lengths, widths = enclosing_rectangles(hulls)
    for shape, length, width in zip(shapes, lengths, widths, strict=True):
        box = enclosing_rectangle(shape)
        assert (length, width) == (box.length, box.width)
