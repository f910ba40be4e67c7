"""The exact search is for grids; what draws no grid is left to the general method."""

import pytest

from kerfline.engine.effort import Effort
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition.on_grid import solve_exact
from kerfline.engine.regions.placing import placed_region
from kerfline.model.slab import Boxout, Column
from unit.engine.plans import RULES, box, feet, layout, slab


def strewn(count):
    """A floor of 30 x 30 ft with columns, no two of them in line."""
    places = [(1.5 + 0.45 * i, 1.5 + 0.45 * (i * 23 % count)) for i in range(count)]
    columns = tuple(
        Column(id=f"C{i}", at=feet(at)[0], size=100.0, boxout=Boxout.NONE)
        for i, at in enumerate(places, 1)
    )
    return slab(box(30, 30), columns=columns)


@pytest.mark.parametrize(("count", "is_grid"), [(12, True), (60, False)])
def test_lines_so_crowded_that_they_draw_no_grid_are_not_searched(count, is_grid):
    floor = strewn(count)
    region = placed_region(floor, RULES, EngineOptions(), gross=floor.gross, angle=0.0).region
    assert (solve_exact(region, Weights(), Effort(1.0)) is not None) == is_grid


def test_a_floor_of_strewn_columns_is_laid_out_all_the_same():
    found = layout(strewn(60), effort=0.2)
    assert found.joints
    assert sum(p.area for p in found.panels) == pytest.approx((30 * 304.8) ** 2)
