"""What each panel that a net allows costs."""

from dataclasses import replace

import pytest
from shapely import LineString, Polygon

from kerfline.engine.effort import GROUPS_PER_SECOND, WINDOWS_PER_SECOND, Effort
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.partition.net import net_of
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.problem import Problem
from kerfline.model.layout import WorkingLimits
from unit.engine.partition.pieces import PIECES, SIZE, lines

LIMITS = WorkingLimits(span=SIZE, aspect=3.0, width=600.0, angle=60.0)

HALF = SIZE / 2
MIDDLE = (HALF, HALF)


def dearer(concrete, **more):
    """By how much each panel of a net of four cells is dearer for what a piece holds, by its cells."""
    plain = Problem(concrete=concrete, limits=LIMITS)
    net = net_of(concrete, SquareChart(), lines(0, 1), lines(1, 1), [])
    before, after = (
        {panel.cells: panel.cost for panel in candidate_panels(made, net)}
        for made in (plain, replace(plain, **more))
    )
    corner = {n: cell.index for n, cell in enumerate(net.cells)}
    return {
        tuple(sorted(corner[c] for c in cells)): round(after[cells] - cost)
        for cells, cost in before.items()
        if round(after[cells] - cost)
    }


def test_a_panel_whose_side_runs_on_past_a_point_pays_for_it():
    """Two cells side by side or one above the other have the middle on their side; one has it at its corner."""
    pairs = [((0, 0), (0, 1)), ((0, 0), (1, 0)), ((0, 1), (1, 1)), ((1, 0), (1, 1))]
    assert dearer(PIECES["square"], passed=((MIDDLE, 7000.0),)) == dict.fromkeys(pairs, 7000)


def test_at_a_reentrant_corner_that_is_who_runs_on_in_line_with_an_edge():
    """An L of three cells: each of its pairs runs on past the corner, the whole has it for its own."""
    ell = Polygon([(0, 0), (SIZE, 0), (SIZE, HALF), (HALF, HALF), (HALF, SIZE), (0, SIZE)])
    pairs = [((0, 0), (0, 1)), ((0, 0), (1, 0))]
    assert dearer(ell, passed=((MIDDLE, 7000.0),)) == dict.fromkeys(pairs, 7000)


@pytest.mark.parametrize("at", [(HALF + 5.0, HALF), (3 * SIZE, HALF)])
def test_a_point_beside_a_crossing_or_in_another_piece_costs_nobody(at):
    assert dearer(PIECES["square"], passed=((at, 7000.0),)) == {}


def test_no_panel_goes_round_the_end_of_a_joint_that_is_there_already():
    """It would end in the open inside it; panels that end where it does are there, the whole square is not."""
    stub = LineString([(3000, 0), (3000, 6000)])
    net = net_of(PIECES["square"], SquareChart(), lines(0, 3), lines(1, 1), [stub])
    panels = [
        p.polygon for p in candidate_panels(Problem(concrete=PIECES["square"], limits=LIMITS), net)
    ]
    assert not any(stub.intersection(p.buffer(-1.0)).length > 0.0 for p in panels)
    beside = Polygon([(3000, 0), (SIZE, 0), (SIZE, 6000), (3000, 6000)])
    assert any(p.equals(beside) for p in panels)


def test_what_it_takes_to_list_and_measure_the_panels_of_a_net_is_spent():
    """A square of 5 by 4 lines has panels that are rectangles; a slanted one has others, and they take as long again."""
    spent = {}
    for name in ("square", "slanted"):
        given = Problem(concrete=PIECES[name], limits=LIMITS, effort=Effort(5.0))
        net = net_of(PIECES[name], SquareChart(), lines(0, 5), lines(1, 4), [])
        found = candidate_panels(given, net)
        spent[name] = (5.0 - given.effort.left) / len(found)
    assert 1 / GROUPS_PER_SECOND < spent["square"] < 1 / GROUPS_PER_SECOND + 3 / WINDOWS_PER_SECOND
    assert spent["slanted"] > spent["square"]
