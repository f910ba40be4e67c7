"""Blocks that are measured from their cells' corners, against the same blocks drawn; panels left out."""

import numpy as np
import pytest
import shapely
from shapely import Polygon, affinity

from kerfline.engine.oblique.blocks import choices
from kerfline.engine.oblique.charted import candidate_lines
from kerfline.engine.oblique.charts import SquareChart
from kerfline.engine.oblique.cost import shape_of
from kerfline.engine.oblique.cover import cover, seam_prices
from kerfline.engine.oblique.dominated import undominated
from kerfline.engine.oblique.ground import Ground, Target
from kerfline.engine.oblique.measured import corners_of, shapes_of
from kerfline.engine.oblique.net import net_of
from kerfline.engine.options import Weights
from kerfline.geometry.rectangle import enclosing_rectangle, enclosing_rectangles
from kerfline.model.layout import Reason, WorkingLimits

LIMITS = WorkingLimits(span=4000.0, aspect=1.5, width=600.0, angle=60.0)
SKEW = Polygon([(0, 0), (11000, 900), (10200, 8000), (6500, 7600), (6300, 5200), (-800, 5000)])
PITTED = Polygon(
    [(0, 0), (7000, 600), (6800, 6000), (0, 5500)],
    [[(2000, 2500), (3500, 2600), (3400, 3600), (2000, 3500)]],
)


def netted(shape, targets=()):
    ground = Ground(concrete=shape, limits=LIMITS, targets=targets)
    chart = SquareChart()
    firsts, seconds = candidate_lines(ground, chart)
    return ground, net_of(shape, chart, firsts, seconds, ())


@pytest.mark.parametrize("shape", [SKEW, PITTED])
def test_blocks_measure_as_they_do_when_drawn(shape):
    """Sides, fullness, hollows and points are those of the union of the cells, holes told apart."""
    ground, net = netted(shape)
    found = [c.cells for c in choices(ground, net)]
    whole = tuple(range(len(net.cells)))
    blocks = [*found, whole]
    cells = [c.polygon for c in net.cells]
    for block, shape_ in zip(blocks, shapes_of(corners_of(cells), blocks, 60.0), strict=True):
        drawn = shapely.union_all([cells[n] for n in block])
        if drawn.interiors:
            assert shape_ is None
            continue
        true = shape_of(drawn, 60.0)
        assert shape_ is not None
        assert shape_.length == pytest.approx(true.length, abs=0.01)
        assert shape_.width == pytest.approx(true.width, abs=0.01)
        assert shape_.fullness == pytest.approx(true.fullness, abs=1e-6)
        assert sorted(shape_.hollows) == pytest.approx(sorted(true.hollows), abs=0.01)
        assert sorted(a for _, a in shape_.points) == pytest.approx(
            sorted(a for _, a in true.points), abs=1e-3
        )


def test_the_whole_of_a_slab_around_a_pit_has_a_hole():
    """Euler's count tells the ring of cells from a panel."""
    _, net = netted(PITTED)
    cells = [c.polygon for c in net.cells]
    assert shapes_of(corners_of(cells), [tuple(range(len(cells)))], 60.0) == [None]


def test_a_knee_is_no_hollow():
    """A re-entrant corner that is named as a knee does not count."""
    _, net = netted(SKEW)
    cells = [c.polygon for c in net.cells]
    blocks = [tuple(range(len(cells)))]
    (with_corner,) = shapes_of(corners_of(cells), blocks, 60.0)
    (without,) = shapes_of(corners_of(cells), blocks, 60.0, [(6300.0, 5200.0)])
    assert with_corner
    assert without
    assert len(with_corner.hollows) == len(without.hollows) + 1


def test_a_point_that_asks_for_a_joint_costs_panels_that_hold_it_inside():
    """Each panel costs more by the weight where the point lies inside it, and not at its rim."""
    at = (3000.0, 2000.0)
    asking = Target(at=at, reason=Reason.COLUMN, weight=5e4)
    ground, net = netted(SKEW, (asking,))
    plain = {c.cells: c.cost for c in choices(Ground(concrete=SKEW, limits=LIMITS), net)}
    for choice in choices(ground, net):
        inside = choice.polygon.buffer(-1.0).contains(shapely.Point(at))
        assert choice.cost - plain[choice.cells] == pytest.approx(5e4 if inside else 0.0)


@pytest.mark.parametrize("shape", [SKEW, PITTED])
def test_panels_left_out_change_no_cheapest_cover(shape):
    """Fewer panels, the same cost."""
    ground, net = netted(shape)
    weights, panels = Weights(), choices(ground, net)
    few = undominated(net, panels, seam_prices(ground, net, weights), weights)
    assert len(few) < len(panels)
    every, left = (cover(ground, net, p, weights) for p in (panels, few))
    assert every
    assert left
    assert left.cost == pytest.approx(every.cost)


def test_many_rectangles_are_those_of_one_at_a_time():
    """The same sides, for hulls of different numbers of corners."""
    shapes = [affinity.rotate(s, 7.0 * n) for n, s in enumerate((SKEW, PITTED, SKEW.buffer(50)))]
    hulls = np.array([s.convex_hull for s in shapes])
    lengths, widths = enclosing_rectangles(hulls)
    for shape, length, width in zip(shapes, lengths, widths, strict=True):
        box = enclosing_rectangle(shape)
        assert (length, width) == (box.length, box.width)
