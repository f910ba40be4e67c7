"""The best cover of a set partition, against the best way to divide a row that is found by trying them all."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.engine.effort import Effort
from kerfline.engine.partition.set_partition import GAP, SetPartition, by_panel
from kerfline.engine.partition.solve import best_cover
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
