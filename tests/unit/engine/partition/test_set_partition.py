"""The choice of panels as a programme, and the solver that holds it."""

import numpy as np
import pytest

from kerfline.engine.effort import Effort
from kerfline.engine.partition.set_partition import Master, Rows, SetPartition, by_panel


def strip(prices, cells, images=None):
    """A row of cells; a panel for each stretch (first, last), each cell in one panel."""
    rows = Rows()
    rows.open(1.0, 1.0, cells)
    rows.open(0.0, 1.0)
    rows.put(cells, 0, 1.0)
    stretches = list(prices)
    pairs = [(n, c) for n, (a, b) in enumerate(stretches) for c in range(a, b)]
    starts, panel_rows = by_panel(
        np.array([n for n, _ in pairs]), np.array([c for _, c in pairs]), len(stretches)
    )
    return SetPartition(
        cost=np.zeros(1),
        rows=rows,
        first_line=1,
        panel_cost=np.array([float(p) for p in prices.values()]),
        starts=starts,
        panel_rows=panel_rows,
        images=np.arange(len(stretches)) if images is None else np.array(images),
        area=np.array([float(b - a) for a, b in stretches]),
        single=np.array([b - a == 1 for a, b in stretches]),
    )


THREE = {(0, 1): 5, (1, 2): 5, (2, 3): 5, (0, 2): 7, (1, 3): 6, (0, 3): 20}
"""The best is the first cell and the other two together: 5 + 6."""


def master(model, groups=None):
    made = Master(model)
    made.add(np.arange(len(made.heads)) if groups is None else np.array(groups))
    return made


def test_rows_come_by_row_with_columns_in_order():
    rows = Rows()
    assert rows.open(0.0, 1.0, 2) == 0
    assert rows.open([1.0, 2.0], 3.0, 2) == 2
    rows.put([1, 0], [7, 5], 2.0)
    rows.put(1, 3, -1.0)
    starts, columns, values = rows.by_row()
    assert starts.tolist() == [0, 1, 3, 3, 3]
    assert columns.tolist() == [5, 3, 7]
    assert values.tolist() == [2.0, -1.0, 2.0]
    low, high = rows.limits()
    assert (low.tolist(), high.tolist()) == ([0, 0, 1, 2], [1, 1, 3, 3])


def test_pairs_become_stretches_of_rows_by_panel():
    starts, rows = by_panel(np.array([1, 0, 1, 3]), np.array([9, 4, 2, 7]), 4)
    assert starts.tolist() == [0, 1, 3, 3, 4]
    assert rows.tolist() == [4, 2, 9, 7]


def test_the_rows_of_some_panels():
    which, row = strip(THREE, 3).entries(np.array([5, 3]))
    assert which.tolist() == [0, 0, 0, 1, 1]
    assert row.tolist() == [0, 1, 2, 0, 1]


def test_a_panel_costs_beyond_what_its_cells_pay():
    reduced = strip(THREE, 3).reduced_costs(np.array([1.0, 2.0, 4.0, 0.0]))
    assert reduced.tolist() == [4, 3, 1, 4, 0, 13]


def test_the_linear_programme_finds_the_best_of_what_was_added():
    best = master(strip(THREE, 3))
    assert best.solve(Effort(1.0))
    assert best.cost == pytest.approx(11)
    taken = best.listed[best.values()[best.fixed :] > 0.5]
    assert sorted(taken.tolist()) == [0, 4]


def test_panels_that_were_not_added_are_not_chosen_and_none_is_added_twice():
    few = master(strip(THREE, 3), [0, 1, 2])
    few.solve(Effort(1.0))
    assert few.cost == pytest.approx(15)
    few.add(np.array([1, 4, 4 - 2]))
    assert few.listed.tolist() == [0, 1, 2, 4]
    few.solve(Effort(1.0))
    assert few.cost == pytest.approx(11)


def test_without_a_panel_over_every_cell_there_is_no_solution():
    assert not master(strip(THREE, 3), [0, 1]).solve(Effort(1.0))


def test_a_given_choice_is_kept_until_all_are_open_again():
    made = master(strip(THREE, 3))
    assert made.give(made.fixed + 5, 1.0, Effort(1.0))
    assert made.cost == pytest.approx(20)
    made.open_all()
    made.solve(Effort(1.0))
    assert made.cost == pytest.approx(11)


def test_closed_panels_are_not_taken():
    made = master(strip(THREE, 3))
    made.close(np.array([False, False, False, False, True, False]))
    made.solve(Effort(1.0))
    assert made.cost == pytest.approx(12)


def test_images_are_chosen_together():
    """Of four cells the ends go together and the middles too: 2 x 1 + 2 x 2, or the whole at 7."""
    prices = {(0, 1): 1, (1, 2): 2, (2, 3): 2, (3, 4): 1, (0, 4): 7}
    made = master(strip(prices, 4, images=[0, 1, 1, 0, 4]))
    assert made.heads.tolist() == [0, 1, 4]
    assert made.grouped(made.model.panel_cost).tolist() == [2, 4, 7]
    panels, which = made.panels_of(np.array([1, 0]))
    assert (panels.tolist(), which.tolist()) == ([1, 2, 0, 3], [0, 0, 1, 1])
    made.solve(Effort(1.0))
    assert made.cost == pytest.approx(6)


def test_work_is_spent_by_rows_times_iterations():
    effort = Effort(1.0)
    master(strip(THREE, 3)).solve(effort)
    assert effort.left < 1.0
