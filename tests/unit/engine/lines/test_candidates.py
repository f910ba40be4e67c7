"""Where joints may lie in a chart."""

import pytest
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.candidates import candidate_lines
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.problem import Problem
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)
CORNER = (2600.0, 2600.0)


def notched(lean: float) -> Polygon:
    """A square of 4.4 m with a notch of 1.8 m by 1.6 m at one corner, whose upright edge leans outward."""
    return Polygon([(0, 0), (4400, 0), (4400, 2600), CORNER, (2600 + lean, 4200), (0, 4200)])


@pytest.mark.parametrize("lean", [20.0, 60.0, 200.0])
def test_a_line_through_a_corner_follows_the_edge_beyond_it(lean):
    """Straight on it would leave a sliver between itself and an edge that all but runs along it."""
    piece = notched(lean)
    lines = candidate_lines(Problem(concrete=piece, limits=LIMITS), SquareChart(), 0)
    curves = [SquareChart().curve(line.through) for line in lines]
    through = [c for c in curves if c.distance(shapely.Point(CORNER)) < 1e-6]
    assert len(through) == 1
    inside = through[0].intersection(piece.buffer(-1.0))
    assert inside.bounds[3] <= CORNER[1]
    assert LineString([CORNER, (2600 + lean, 4200)]).hausdorff_distance(
        through[0].intersection(shapely.box(0, 2600, 4400, 4200))
    ) == pytest.approx(0.0, abs=1e-6)


def test_a_line_through_a_corner_runs_straight_on_beside_an_edge_far_off_its_axis():
    """An edge at 20 degrees to the axis is no edge along it."""
    piece = notched(580.0)
    lines = candidate_lines(Problem(concrete=piece, limits=LIMITS), SquareChart(), 0)
    curves = [SquareChart().curve(line.through) for line in lines]
    through = [c for c in curves if c.distance(shapely.Point(CORNER)) < 1e-6]
    assert [c.intersection(piece).bounds[0::2] for c in through] == [(2600.0, 2600.0)]
