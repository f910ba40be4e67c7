"""The panel graph: what hangs together, and what a cut along a chain parts."""

import pytest
from shapely import LineString

from kerfline.placement.panel_graph import (
    Border,
    chains,
    is_parted,
    panel_graph,
    pieces,
    runs,
    within,
)


def border(first: int, second: int, chain: int, length: float, *, formed: bool = False) -> Border:
    line = LineString([(0.0, 0.0), (length, 0.0)])
    return Border(first=first, second=second, chain=chain, formed=formed, lines=(line,))


BAYS = [
    border(0, 1, 0, 3000),
    border(0, 2, 7, 4000),
    border(1, 3, 7, 5000),
    border(2, 3, 0, 3500),
]
"""Two by two bays about one crossing: chain 0 upright, chain 7 across."""


def test_a_chain_has_the_length_it_has_between_the_panels_and_parts_them():
    graph = panel_graph(4, BAYS)
    found = runs(graph)
    assert {chain: run.length for chain, run in found.items()} == pytest.approx({0: 6500, 7: 9000})
    assert pieces(graph) == [[0, 1, 2, 3]]
    assert pieces(graph, found[0].edges) == [[0, 2], [1, 3]]
    assert pieces(graph, found[7].edges) == [[0, 1], [2, 3]]
    assert pieces(graph) == [[0, 1, 2, 3]], "a cut that was tried leaves the graph as it was"
    assert runs(graph) == found


def test_a_part_of_the_panels_keeps_only_the_edges_between_them():
    inside = within(panel_graph(4, BAYS), [1, 2, 3])
    assert list(inside) == [1, 2, 3]
    assert {chain: run.length for chain, run in runs(inside).items()} == {0: 3500, 7: 5000}
    assert pieces(inside, runs(inside)[7].edges) == [[1], [2, 3]]


def test_panels_that_meet_along_two_chains_are_not_parted_by_one():
    graph = panel_graph(2, [border(0, 1, 0, 3000), border(0, 1, 4, 1000)])
    found = runs(graph)
    assert {chain: run.length for chain, run in found.items()} == {0: 3000, 4: 1000}
    assert all(pieces(graph, run.edges) == [[0, 1]] for run in found.values())


def test_a_chain_parts_the_panels_only_where_no_way_leads_around_its_end():
    """Six panels in two rows: one chain between the rows, cut short in a second plan, and two across."""
    rows = [border(0, 3, 0, 900), border(1, 4, 0, 900), border(2, 5, 0, 900)]
    across = [
        border(0, 1, 1, 700),
        border(1, 2, 2, 700),
        border(3, 4, 3, 700),
        border(4, 5, 4, 700),
    ]
    whole = panel_graph(6, [*rows, *across])
    assert is_parted(whole, runs(whole)[0].edges)
    assert not is_parted(whole, runs(whole)[1].edges)
    assert is_parted(whole, runs(whole)[1].edges + runs(whole)[3].edges)
    assert not is_parted(whole, ())
    ring = [border(0, 1, 0, 900), border(1, 2, 1, 900), border(0, 2, 2, 900), border(2, 3, 0, 900)]
    assert is_parted(panel_graph(4, ring), [(0, 1), (2, 3)]), "the one edge is enough"
    short = panel_graph(6, [*rows[:2], border(2, 5, 9, 900), *across])
    assert not is_parted(short, runs(short)[0].edges), "the last bay holds the rows together"
    assert pieces(short) == [[0, 1, 2, 3, 4, 5]], "a cut that was tried leaves the graph as it was"


def test_a_formed_border_holds_nothing_together():
    graph = panel_graph(3, [border(0, 2, 0, 3000), border(1, 2, 1, 3000, formed=True)])
    assert pieces(graph) == [[0, 2], [1]]
    assert list(runs(graph)) == [0]


def test_a_chain_has_the_number_of_its_first_joint():
    """Three bays of one joint line with a joint across between, the middle bay given last."""
    rows = [((0, 0), (3000, 0)), ((3000, -900), (3000, 900)), ((6000, 0), (9000, 0))]
    assert chains([LineString(row) for row in rows]) == [0, 1, 2]
    rows.append(((3000, 0), (6000, 0)))
    assert chains([LineString(row) for row in rows]) == [0, 1, 0, 0]
