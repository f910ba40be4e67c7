"""The choice of panels as a programme, and the solver that holds it."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest

from kerfline.engine.effort import Effort
from kerfline.engine.partition import set_partition
from kerfline.engine.partition.set_partition import Master, RoundCount, Rows, SetPartition, by_panel


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


def master(model, orbits=None):
    made = Master(model)
    made.add(np.arange(len(made.heads)) if orbits is None else np.array(orbits))
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
    assert made.by_orbit(made.model.panel_cost).tolist() == [2, 4, 7]
    panels, which = made.panels_of(np.array([1, 0]))
    assert (panels.tolist(), which.tolist()) == ([1, 2, 0, 3], [0, 0, 1, 1])
    made.solve(Effort(1.0))
    assert made.cost == pytest.approx(6)


def test_work_is_spent_by_rows_times_iterations():
    effort = Effort(1.0)
    master(strip(THREE, 3)).solve(effort)
    assert effort.left < 1.0


def test_rows_without_entries_have_none():
    rows = Rows()
    assert rows.open(0.0, 2.0, 3) == 0
    starts, columns, values = rows.by_row()
    assert (starts.tolist(), columns.tolist(), values.tolist()) == ([0, 0, 0, 0], [], [])
    assert rows.count == 3


@pytest.mark.parametrize("number", range(8))
def test_entries_and_reduced_costs_are_those_counted_panel_by_panel(number):
    """Random panels, some over no row at all, against plain lists."""
    rng = Random(number)
    over = [sorted(rng.sample(range(6), rng.randint(0, 4))) for _ in range(9)]
    pairs = [(n, row) for n, rows in enumerate(over) for row in rows]
    rng.shuffle(pairs)
    starts, panel_rows = by_panel(
        *(np.array(each, dtype=int) for each in zip(*pairs, strict=True)), 9
    )
    prices = [float(rng.randint(1, 50)) for _ in over]
    duals = [float(rng.randint(-9, 9)) for _ in range(6)]
    model = SetPartition(
        cost=np.zeros(0),
        rows=Rows(),
        first_line=0,
        panel_cost=np.array(prices),
        starts=starts,
        panel_rows=panel_rows,
        images=np.arange(9),
        area=np.ones(9),
        single=np.zeros(9, dtype=bool),
    )
    asked = rng.sample(range(9), 5)
    which, row = model.entries(np.array(asked))
    assert list(zip(which.tolist(), row.tolist(), strict=True)) == [
        (n, r) for n, panel in enumerate(asked) for r in over[panel]
    ]
    assert model.reduced_costs(np.array(duals)).tolist() == [
        price - sum(duals[r] for r in rows) for price, rows in zip(prices, over, strict=True)
    ]


def test_at_the_best_no_panel_pays_and_those_taken_cost_what_their_cells_pay():
    """What holds of any linear programme that is solved: no reduced cost below zero, none of a column taken above it."""
    made = master(strip(THREE, 3))
    made.solve(Effort(1.0))
    duals = np.asarray(made.solver.getSolution().row_dual)
    reduced = made.model.reduced_costs(duals)
    assert reduced.min() >= -1e-6
    assert reduced[[0, 4]] == pytest.approx(0.0, abs=1e-6)
    assert duals[:3].sum() == pytest.approx(11)


def test_an_orbit_that_holds_a_cell_twice_fills_it_twice():
    """A cell and the two with it, chosen together: the first would be covered twice, so that there is no cover."""
    twice = {(0, 1): 1, (0, 2): 1}
    assert not master(strip(twice, 2, images=[0, 0])).solve(Effort(1.0))
    assert master(strip({(0, 1): 1, (1, 2): 1}, 2, images=[0, 0])).solve(Effort(1.0))


def test_a_choice_cannot_be_given_against_another():
    """The first cell and the first two together are not both taken; opened again the best comes back."""
    made = master(strip(THREE, 3))
    assert made.give(made.fixed, 1.0, Effort(1.0))
    assert not made.give(made.fixed + 3, 1.0, Effort(1.0))
    made.open_all()
    assert made.solve(Effort(1.0))
    assert made.cost == pytest.approx(11)


def test_a_choice_given_as_left_is_left():
    made = master(strip(THREE, 3))
    assert made.give(made.fixed + 4, 0.0, Effort(1.0))
    assert made.cost == pytest.approx(12)
    assert made.values()[made.fixed + 4] == pytest.approx(0.0)


def test_columns_that_follow_cost_what_their_rows_make_of_them():
    """A column that is at least what the first cell alone is: at 20 the others are taken, 7 + 5; at 0.5 it is 11.5."""
    model, row = strip(THREE, 3), 4
    rows = Rows()
    rows.open(1.0, 1.0, 3)
    rows.open(0.0, 1.0)
    assert rows.open(-np.inf, 0.0) == row
    rows.put(row, 0, -1.0)
    pairs = [(n, c) for n, (a, b) in enumerate(THREE) for c in range(a, b)] + [(0, row)]
    starts, panel_rows = by_panel(*np.array(pairs).T, 6)
    for price, cost in ((20.0, 12.0), (0.5, 11.5)):
        changed = {"rows": rows, "cost": np.array([price]), "starts": starts}
        made = master(replace(model, panel_rows=panel_rows, **changed))
        assert made.solve(Effort(1.0))
        assert made.cost == pytest.approx(cost)


def test_a_programme_stopped_for_its_iterations_says_so(monkeypatch):
    monkeypatch.setattr(set_partition, "LEAST_ITERATIONS", 0)
    stopped = master(strip(THREE, 3))
    assert not stopped.solve(Effort(0.0, patience=0.0))
    assert stopped.was_stopped()
    solved = master(strip(THREE, 3))
    assert solved.solve(Effort(1.0))
    assert not solved.was_stopped()


def test_whether_the_solver_stands_at_a_solution():
    made = master(strip(THREE, 3))
    assert not made.has_answer()
    made.solve(Effort(1.0))
    assert made.has_answer()
    without = master(strip(THREE, 3), [0, 1])
    without.solve(Effort(1.0))
    assert not without.has_answer()


def pairs_of_three():
    """Three cells, a panel over each and over every two: halves of the pairs cost 33/2, nothing whole under 21."""
    model = strip({(0, 1): 10, (1, 2): 10, (2, 3): 10, (0, 2): 11, (1, 3): 11}, 3)
    return replace(
        model,
        panel_cost=np.append(model.panel_cost, 11.0),
        starts=np.append(model.starts, model.starts[-1] + 2),
        panel_rows=np.append(model.panel_rows, [0, 2]),
        images=np.arange(6),
        area=np.append(model.area, 2.0),
        single=np.append(model.single, False),
    )


def test_panels_are_halved_until_each_is_taken_or_not():
    made = master(pairs_of_three())
    made.solve(Effort(1.0))
    assert made.cost == pytest.approx(16.5)
    made.make_whole()
    made.solver.run()
    assert made.cost == pytest.approx(21)
    taken = made.values()[made.fixed :]
    assert taken == pytest.approx(taken.round())


def test_the_solver_begins_with_the_solution_that_it_is_handed():
    """Handed the three single cells at 30 and stopped at once, it has an answer no worse than that."""
    made = master(pairs_of_three(), [0, 1, 2])
    made.solve(Effort(1.0))
    start = made.values()
    made.add(np.array([3, 4, 5]))
    made.make_whole()
    made.begin_with(start)
    rounds = RoundCount(made.solver, 0)
    made.solver.run()
    assert made.has_answer()
    assert 21 - 1e-6 <= made.cost <= 30 + 1e-6
    assert rounds.most == 0


def test_a_solver_prints_nothing(capfd):
    made = master(pairs_of_three())
    made.make_whole()
    rounds = RoundCount(made.solver, 100)
    made.solver.run()
    assert 0 < rounds.done <= 100
    printed = capfd.readouterr()
    assert (printed.out, printed.err) == ("", "")


@pytest.mark.parametrize("number", range(20))
def test_no_cover_costs_less_than_the_bound_of_any_duals(number):
    """Duals at random; each stretch from cell to cell is tried. The column that follows may be taken for its pay."""
    rng = Random(number)
    prices = {(a, b): rng.randint(1, 30) for a in range(5) for b in range(a + 1, 6)}
    best = [0.0]
    for end in range(1, 6):
        best.append(min(best[a] + prices[a, end] for a in range(end)))
    model = strip(prices, 5)
    duals = np.array([rng.uniform(-10, 20) for _ in range(5)] + [rng.uniform(-5, 5)])
    assert model.bound(duals, model.reduced_costs(duals)) <= best[5] + 1e-9


def test_the_bound_of_duals_is_what_rows_pay_less_what_is_paid_too_much():
    """Cells pay 6, 5 and 4, 15 in all; the first two together cost 7 of 11, the last two 6 of 9, the first 5 of 6."""
    model = strip(THREE, 3)
    duals = np.array([6.0, 5.0, 4.0, 0.0])
    assert model.bound(duals, model.reduced_costs(duals)) == pytest.approx(15 - 4 - 3 - 1)


def test_a_row_pays_at_its_high_limit_where_its_dual_is_below_nothing():
    """The column that follows, at 0 to 1, costs nothing and is charged 2; its row is charged 2 at the high limit of 1."""
    model = strip(THREE, 3)
    duals = np.array([0.0, 0.0, 0.0, -2.0])
    assert model.bound(duals, model.reduced_costs(duals)) == pytest.approx(-2.0)
    duals[3] = 2.0
    assert model.bound(duals, model.reduced_costs(duals)) == pytest.approx(-2.0)


def test_duals_from_the_inside_prove_the_value_of_the_linear_programme():
    effort = Effort(5.0)
    made = master(strip(THREE, 3))
    duals = made.duals_from_inside(effort)
    assert made.model.bound(duals, made.model.reduced_costs(duals)) == pytest.approx(11, abs=1e-3)
    assert effort.left < 5.0


def test_no_row_without_a_low_limit_is_paid_by_duals_from_the_inside():
    """Else their bound would be endless. A panel of 1 needs what follows, at 3; the other costs 9."""
    rows = Rows()
    rows.open(1.0, 1.0)
    follows = rows.open(-np.inf, 0.0)
    rows.put(follows, 0, -1.0)
    starts, panel_rows = by_panel(np.array([0, 0, 1]), np.array([0, 1, 0]), 2)
    model = SetPartition(
        cost=np.array([3.0]),
        rows=rows,
        first_line=0,
        panel_cost=np.array([1.0, 9.0]),
        starts=starts,
        panel_rows=panel_rows,
        images=np.arange(2),
        area=np.ones(2),
        single=np.ones(2, dtype=bool),
    )
    duals = master(model).duals_from_inside(Effort(5.0))
    assert duals[1] <= 0.0
    assert model.bound(duals, model.reduced_costs(duals)) == pytest.approx(4.0, abs=1e-3)


def test_from_the_inside_no_more_iterations_are_taken_than_the_patience_allows(monkeypatch):
    monkeypatch.setattr(set_partition, "LEAST_INNER", 1)
    effort = Effort(0.0, patience=0.0)
    assert master(strip(THREE, 3)).duals_from_inside(effort) is None
    assert effort.left < 0.0
