"""The best cover of a set partition, against the best way to divide a row that is found by trying them all."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.engine.effort import OVERSPENT, Effort
from kerfline.engine.partition import solve
from kerfline.engine.partition.set_partition import GAP, Master, SetPartition, by_panel
from kerfline.engine.partition.solve import best_cover, dives, proven
from unit.engine.partition.test_set_partition import THREE, strip


def cheapest(prices, cells):
    """The least cost of stretches end to end."""
    best = [0.0] + [float("inf")] * cells
    for end in range(1, cells + 1):
        best[end] = min(best[a] + p for (a, b), p in prices.items() if b == end)
    return best[cells]


def every(cells):
    return [(a, b) for a in range(cells) for b in range(a + 1, cells + 1)]


@settings(max_examples=25)
@given(
    st.integers(1, 7).flatmap(
        lambda n: st.lists(st.integers(1, 99), min_size=n * (n + 1) // 2, max_size=n * (n + 1) // 2)
    )
)
def test_the_cover_is_the_cheapest_and_proven(costs):
    cells = int((2 * len(costs)) ** 0.5)
    prices = dict(zip(every(cells), costs, strict=True))
    model = strip(prices, cells)
    found = best_cover(model, np.ones(len(costs), dtype=bool), Effort(5.0))
    assert found.cost == pytest.approx(cheapest(prices, cells))
    assert found.bound <= found.cost
    assert found.proven
    assert found.cost - found.bound <= max(1.0, GAP * found.cost)
    taken = [every(cells)[n] for n in found.chosen]
    assert sorted(c for a, b in taken for c in range(a, b)) == list(range(cells))


def test_panels_that_break_a_rule_come_in_where_they_pay():
    """None but single cells are likely; the others are priced in."""
    likely = np.zeros(len(THREE), dtype=bool)
    found = best_cover(strip(THREE, 3), likely, Effort(5.0))
    assert found.cost == pytest.approx(11)
    assert found.chosen.tolist() == [0, 4]


def test_without_a_cover_there_is_none():
    gap = {(0, 1): 1, (2, 3): 1}
    assert best_cover(strip(gap, 3), np.ones(2, dtype=bool), Effort(5.0)) is None


def test_without_effort_the_linear_programme_is_carried_to_its_end_all_the_same():
    found = best_cover(strip(THREE, 3), np.ones(len(THREE), dtype=bool), Effort(0.0))
    assert found.cost == pytest.approx(11)


def odd_ring():
    """Three cells, of which every two make a panel, and single ones: no linear programme is whole here."""
    prices = {(0, 1): 10, (1, 2): 10, (2, 3): 10}
    model = strip(prices, 3)
    pairs = [(0, 0), (1, 1), (2, 2), (3, 0), (3, 1), (4, 1), (4, 2), (5, 0), (5, 2)]
    starts, rows = by_panel(np.array([p for p, _ in pairs]), np.array([r for _, r in pairs]), 6)
    return SetPartition(
        cost=model.cost,
        rows=model.rows,
        first_line=1,
        panel_cost=np.array([1000.0] * 3 + [1990.0] * 3),
        starts=starts,
        panel_rows=rows,
        images=np.arange(6),
        area=np.array([1.0, 1.0, 1.0, 2.0, 2.0, 2.0]),
        single=np.array([True, True, True, False, False, False]),
    )


def test_a_gap_of_more_than_three_hundredths_is_left_unproven():
    """Halves cost 16.5, the best cover 21: panels that far from the programme's answer are not looked at."""
    wide = replace(odd_ring(), panel_cost=np.array([10.0] * 3 + [11.0] * 3))
    found = best_cover(wide, np.ones(6, dtype=bool), Effort(5.0))
    assert found.cost == pytest.approx(21)
    assert 16.5 <= found.bound < 21
    assert not found.proven


def test_where_the_linear_programme_takes_halves_a_whole_cover_is_found_and_proven():
    """Halves of the three pairs cost 2985; a pair and a single cell cost 2990, and nothing whole costs less."""
    found = best_cover(odd_ring(), np.ones(6, dtype=bool), Effort(5.0))
    assert found.cost == pytest.approx(2990)
    assert len(found.chosen) == 2
    assert found.bound == pytest.approx(2990, abs=1.0)
    assert found.proven


def sets(over, prices, cells):
    """A programme of panels over any cells."""
    base = strip({(c, c + 1): 1 for c in range(cells)}, cells)
    pairs = [(n, c) for n, part in enumerate(over) for c in sorted(part)]
    starts, rows = by_panel(*(np.array(each) for each in zip(*pairs, strict=True)), len(over))
    return replace(
        base,
        panel_cost=np.array(prices, dtype=float),
        starts=starts,
        panel_rows=rows,
        images=np.arange(len(over)),
        area=np.array([float(len(part)) for part in over]),
        single=np.array([len(part) == 1 for part in over]),
    )


def cheapest_sets(over, prices, cells):
    """The least cost of panels that hold each cell once, by trying them all; infinite where none do."""

    def rest(left):
        if not left:
            return 0.0
        first = min(left)
        return min(
            (
                p + rest(left - o)
                for o, p in zip(over, prices, strict=True)
                if first in o and o <= left
            ),
            default=float("inf"),
        )

    return rest(frozenset(range(cells)))


def random_sets(number):
    """Six cells: each alone at 1000 or so, and fifteen panels of two or three, a little cheaper than those."""
    rng = Random(number)
    over = [frozenset({c}) for c in range(6)]
    over += [frozenset(rng.sample(range(6), rng.choice((2, 3)))) for _ in range(15)]
    return over, [1000.0 * len(part) - rng.randint(0, 30) * (len(part) - 1) for part in over]


@pytest.mark.parametrize("number", range(25))
def test_no_cover_of_any_panels_is_cheaper_than_the_one_found(number):
    over, prices = random_sets(number)
    found = best_cover(sets(over, prices, 6), np.ones(len(over), dtype=bool), Effort(5.0))
    least = cheapest_sets(over, prices, 6)
    assert found.bound <= least + 1e-6 <= found.cost + 1e-3
    assert found.proven
    assert found.cost - least <= max(1.0, GAP * least)
    assert found.cost == pytest.approx(sum(prices[n] for n in found.chosen))
    assert sorted(c for n in found.chosen for c in over[n]) == list(range(6))


@pytest.mark.parametrize("number", range(5))
def test_it_does_not_matter_which_panels_the_search_begins_with(number, monkeypatch):
    """None, some or all are likely, one is added a round: the cost is the same."""
    over, prices = random_sets(number)
    model, least = sets(over, prices, 6), cheapest_sets(over, prices, 6)
    monkeypatch.setattr(solve, "BATCH", 1)
    for likely in (np.zeros(21, dtype=bool), np.arange(21) % 2 == 0, np.ones(21, dtype=bool)):
        for first in (0, 3, 6000):
            monkeypatch.setattr(solve, "FIRST", first)
            found = best_cover(model, likely, Effort(5.0))
            assert abs(found.cost - least) <= max(1.0, GAP * least)


def test_images_are_taken_together_in_the_best_cover():
    """Five cells about a middle one: two and two at 5 each and 3 between. Three and two at 11 have no image."""
    prices = {
        (0, 1): 4,
        (4, 5): 4,
        (1, 2): 4,
        (3, 4): 4,
        (2, 3): 3,
        (0, 2): 5,
        (3, 5): 5,
        (0, 3): 6,
    }
    model = strip(prices, 5, images=[0, 0, 2, 2, 4, 5, 5, 7])
    found = best_cover(model, np.ones(8, dtype=bool), Effort(5.0))
    assert found.chosen.tolist() == [4, 5, 6]
    assert found.cost == pytest.approx(13)


def test_a_search_whose_patience_is_over_has_no_answer():
    likely = np.ones(len(THREE), dtype=bool)
    assert best_cover(strip(THREE, 3), likely, Effort(-OVERSPENT)) is None
    assert best_cover(strip(THREE, 3), likely, Effort(1.0 - OVERSPENT)) is not None


def test_after_the_last_round_a_cover_is_unproven_and_its_bound_is_true(monkeypatch):
    """One round with single cells: 15, of which the others would take off 3 and 4: no cover costs under 8.

    What that round added is still chosen from.
    """
    monkeypatch.setattr(solve, "ROUNDS", 1)
    found = best_cover(strip(THREE, 3), np.zeros(len(THREE), dtype=bool), Effort(5.0))
    assert not found.proven
    assert found.bound == pytest.approx(8)
    assert found.cost == pytest.approx(11)
    assert found.chosen.tolist() == [0, 4]


def solved(model):
    made = Master(model)
    made.add(np.arange(len(made.heads)))
    assert made.solve(Effort(5.0))
    return made


def test_a_dive_ends_at_whole_choices_and_leaves_all_open():
    made = solved(odd_ring())
    assert made.cost == pytest.approx(2985)
    found = dives(made, Effort(5.0))
    assert found.cost == pytest.approx(2990)
    assert found.values == pytest.approx(found.values.round(), abs=1e-5)
    made.solve(Effort(5.0))
    assert made.cost == pytest.approx(2985)


def test_a_dive_without_patience_ends_nowhere():
    made = solved(odd_ring())
    assert dives(made, Effort(-OVERSPENT)) is None


def test_without_a_dive_the_search_looks_wider_and_wider_for_a_cover():
    """The best whole cover lies 5 above 2985, within the first two thousandths; the bound is never above it."""
    made = solved(odd_ring())
    duals = np.asarray(made.solver.getSolution().row_dual)
    priced = made.model.reduced_costs(duals)
    found, bound = proven(made, None, 2985.0, priced, Effort(5.0))
    assert found.cost == pytest.approx(2990)
    assert 2985 <= bound <= 2990 + 1e-6


@pytest.mark.parametrize(("gap", "bound"), [(1e-4, 2990), (0.01, 2985)])
def test_a_search_ends_where_its_gap_is_kept(gap, bound):
    """2990 is within a hundredth of 2985, so that nothing more is proven."""
    found = best_cover(odd_ring(), np.ones(6, dtype=bool), Effort(5.0), gap=gap)
    assert found.cost == pytest.approx(2990)
    assert found.bound == pytest.approx(bound, abs=0.5)


def from_inside(monkeypatch, rows=0):
    """Programmes of so many rows are looked at from the inside; how often one was."""
    seen = []
    inside = Master.duals_from_inside

    def watched(made, effort):
        seen.append(made.model.rows.count)
        return inside(made, effort)

    monkeypatch.setattr(solve, "INSIDE_ROWS", rows)
    monkeypatch.setattr(Master, "duals_from_inside", watched)
    return seen


@pytest.mark.parametrize("number", range(25))
def test_no_cover_is_cheaper_than_the_one_that_is_found_from_the_inside(number, monkeypatch):
    seen = from_inside(monkeypatch)
    over, prices = random_sets(number)
    model = sets(over, prices, 6)
    found = best_cover(model, np.ones(len(over), dtype=bool), Effort(5.0), hard=True)
    least = cheapest_sets(over, prices, 6)
    assert len(seen) == 1
    assert found.bound <= least + 1e-3
    assert found.proven
    assert least - 1e-3 <= found.cost <= least + max(1.0, GAP * least)
    assert sorted(c for n in found.chosen for c in over[n]) == list(range(6))


def test_it_begins_with_the_panels_that_the_inside_prices_at_all_but_nothing(monkeypatch):
    """The best whole cover is an edge of the linear programme: its panels are among the first, few others are."""
    added = []
    add = Master.add

    def watched(made, orbits):
        added.append(len(orbits))
        add(made, orbits)

    from_inside(monkeypatch)
    monkeypatch.setattr(Master, "add", watched)
    prices = {(a, b): 1000 + 17 * (b - a) ** 2 + 3 * a for a, b in every(12)}
    found = best_cover(strip(prices, 12), np.ones(len(prices), dtype=bool), Effort(5.0), hard=True)
    assert found.cost == pytest.approx(cheapest(prices, 12))
    assert added[0] == len(prices)
    assert added[1] < len(prices) / 2


def test_small_programmes_and_those_of_grids_are_not_looked_at_from_the_inside(monkeypatch):
    seen = from_inside(monkeypatch, rows=5)
    likely = np.ones(len(THREE), dtype=bool)
    for hard in (True, False):
        assert best_cover(strip(THREE, 3), likely, Effort(5.0), hard=hard).cost == pytest.approx(11)
    assert not seen
    from_inside(monkeypatch, rows=4)
    best_cover(strip(THREE, 3), likely, Effort(5.0), hard=False)
    assert not seen


def test_a_search_is_hard_where_its_linear_programme_takes_more_iterations_than_it_has_rows(
    monkeypatch,
):
    model, likely = strip(THREE, 3), np.ones(len(THREE), dtype=bool)
    rows = model.rows.count
    for iterations, hard in ((rows, False), (rows + 1, True)):
        monkeypatch.setattr(Master, "iterations", iterations)
        assert best_cover(model, likely, Effort(5.0)).hard is hard


def test_where_the_inside_gives_nothing_the_search_begins_as_ever(monkeypatch):
    monkeypatch.setattr(solve, "INSIDE_ROWS", 0)
    monkeypatch.setattr(Master, "duals_from_inside", lambda *_: None)
    for likely in (np.zeros(len(THREE), dtype=bool), np.ones(len(THREE), dtype=bool)):
        found = best_cover(strip(THREE, 3), likely, Effort(5.0), hard=True)
        assert found.cost == pytest.approx(11)
        assert found.proven


def test_a_bound_from_the_inside_that_is_poor_is_bettered_by_pricing(monkeypatch):
    """Duals of nothing prove no more than nothing, and name no panel that would not pay."""
    monkeypatch.setattr(solve, "INSIDE_ROWS", 0)
    monkeypatch.setattr(Master, "duals_from_inside", lambda *_: np.zeros(4))
    found = best_cover(strip(THREE, 3), np.ones(len(THREE), dtype=bool), Effort(5.0), hard=True)
    assert found.cost == pytest.approx(11)
    assert found.bound == pytest.approx(11, abs=1.0)
    assert found.proven
