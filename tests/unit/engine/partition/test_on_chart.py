"""One piece laid out along the lines of one chart."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity, box

from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.partition import on_chart
from kerfline.engine.partition.net import net_of
from kerfline.engine.partition.on_chart import best_of, both_families, charted, settled_on
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.problem import Problem
from kerfline.engine.regions.asking import AskingLine
from kerfline.engine.regions.region import Cut
from kerfline.geometry.span import span_of
from kerfline.model.layout import WorkingLimits
from strategies import convex_plans

SPAN = 3000.0
LIMITS = WorkingLimits(span=SPAN, aspect=1.5, width=600.0, angle=60.0)
HALL = Problem(concrete=box(0, 0, 9000, 6000), limits=LIMITS)
SKEW = Problem(concrete=Polygon([(0, 0), (9000, 0), (9600, 6000), (0, 6000)]), limits=LIMITS)


def lengths(found):
    return sum(LineString(c.path).length for c in found.cuts)


def test_a_hall_has_squares_and_the_least_joint():
    """Two joints of 6 m and one of 9 m; proven on its lines."""
    found = charted(HALL, SquareChart(), [])
    assert len(found.panels) == 6
    assert lengths(found) == pytest.approx(21_000)
    assert found.bound <= found.cost + 1e-6
    assert found.bound == pytest.approx(found.cost, rel=1e-3)


def test_a_settled_joint_is_no_cut_but_panels_end_on_it():
    found = charted(HALL, SquareChart(), [LineString([(4000, 0), (4000, 6000)])])
    assert all(p.bounds[2] <= 4000.1 or p.bounds[0] >= 3999.9 for p in found.panels)
    assert all({round(x) for x, _ in c.path} != {4000} for c in found.cuts)


def test_a_turned_chart_lays_a_turned_hall_out_the_same_way():
    turned = replace(HALL, concrete=affinity.rotate(HALL.concrete, 30, origin=(0, 0)))
    found = charted(turned, SquareChart(30.0), [])
    assert len(found.panels) == 6
    assert lengths(found) == pytest.approx(21_000, rel=1e-6)


@settings(max_examples=5)
@given(convex_plans(), st.floats(0, 45))
def test_panels_are_within_the_span_and_tile_the_piece(plan, turn):
    found = charted(Problem(concrete=plan, limits=LIMITS), SquareChart(turn), [])
    assert sum(p.area for p in found.panels) == pytest.approx(plan.area, rel=1e-6)
    assert max(span_of(p) for p in found.panels) <= SPAN + 0.3


def test_a_net_of_too_many_cells_is_left(monkeypatch):
    monkeypatch.setattr(on_chart, "MOST_CELLS", 3)
    assert charted(HALL, SquareChart(), []) is None


WALL = AskingLine(name="W1", path=LineString([(4000, 0), (4000, 6000)]), slack=50.0)
UNDER = Cut(path=((4000, 0), (4000, 6000)))
WALLED = replace(HALL, walls=(WALL,), under=(UNDER,))


def test_walls_are_chosen_along_the_frame_and_settled_on_a_turned_chart():
    assert settled_on(WALLED, SquareChart()) == (WALLED, ())
    firm, own = settled_on(WALLED, SquareChart(15.0))
    assert (firm.walls, own) == ((), (UNDER,))
    assert settled_on(HALL, SquareChart(15.0)) == (HALL, ())


def test_joints_settled_under_walls_count_in_the_layout_of_a_turned_chart():
    found = charted(WALLED, SquareChart(15.0), [])
    assert UNDER in found.cuts
    assert found.cost >= lengths(found) - 1.0


def test_the_lines_of_a_piece_symmetric_about_its_diagonal_are_images():
    square = Problem(concrete=box(0, 0, 7000, 7000), limits=LIMITS)
    firsts, seconds = both_families(square, SquareChart())
    assert [sorted(y for _, y in line.through) for line in seconds] == [
        sorted(x for x, _ in line.through) for line in firsts
    ]


def test_a_panel_over_the_span_is_divided_further():
    """Without a line the whole hall is one panel: it is halved."""
    net = net_of(HALL.concrete, SquareChart(), [], [], [])
    found = best_of(HALL, net, candidate_panels(HALL, net))
    assert max(span_of(p) for p in found.panels) <= SPAN + 0.3
    assert sum(p.area for p in found.panels) == pytest.approx(54e6)


def test_a_slanted_side_keeps_lines_parallel_to_the_others():
    found = charted(SKEW, SquareChart(), [])
    assert sum(p.area for p in found.panels) == pytest.approx(SKEW.concrete.area)
    assert all(
        min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-3
        for c in found.cuts
        for a, b in [(c.path[0], c.path[-1])]
    )
