"""The work of a search is counted, so that it ends the same however busy the machine is."""

import pytest
from shapely import LineString

from kerfline.engine import general as general_method
from kerfline.engine.effort import (
    CARRIED,
    CARRIED_BY_SQUARE,
    GROUPS_PER_SECOND,
    PER_SECOND,
    Budget,
    Effort,
)
from kerfline.engine.general import lay_out_region
from kerfline.engine.measure.score import panels_between
from kerfline.engine.method import exact_layout
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition import on_chart, on_grid, solve
from kerfline.engine.partition.set_partition import LEAST_ITERATIONS, WHOLE, Master
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.layout import Status
from kerfline.model.slab import Column
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import HOUSE, RULES, box, feet, layout, slab

UNTIDY = slab(
    box(63, 47),
    columns=tuple(
        Column(
            id=f"C{i}",
            at=(
                (11 + 17 * (i % 3) + 3 * (i // 3)) * MM_PER_FOOT,
                (13 + 19 * (i // 3)) * MM_PER_FOOT,
            ),
        )
        for i in range(6)
    ),
)
"""Two rows of columns that are not in line: the linear programme's answer is not whole."""


def test_effort_is_spent_by_rows_and_iterations():
    effort = Effort(2.0)
    effort.spend(1000, 5000)
    assert effort.left == pytest.approx(1.5)
    assert effort.share(0.5).left == pytest.approx(0.75)


def test_work_from_the_inside_is_spent_by_entries_and_iterations():
    effort = Effort(2.0, patience=1.0)
    effort.spend_inside(20, 75_000)
    assert effort.left == pytest.approx(1.5)
    assert effort.inner_iterations(75_000, 10) == 100
    assert effort.inner_iterations(75_000_000, 10) == 10


def test_a_second_opinion_is_given_up_only_where_patience_is_at_its_end():
    region = regions_of(UNTIDY, RULES, EngineOptions())[0].region
    spent = Effort(1e-6)
    assert exact_layout(region, EngineOptions(), spent, attempts=2) is not None
    assert spent.left < 0.0
    assert not spent.over
    bounded = Effort(1.0).share(1e-6, patience=0.0)
    assert exact_layout(region, EngineOptions(), bounded, attempts=2) is None
    assert bounded.over


def test_used_up_effort_has_no_rounds_left():
    effort = Effort(0.1)
    effort.spend(10_000, 5000)
    assert effort.left < 0.0
    assert effort.rounds(5000) == 0
    assert effort.share(0.5).left == 0.0


def test_next_to_no_effort_still_gives_a_whole_layout():
    found = layout(HOUSE, effort=1e-6)
    span = 1.05 * RULES.working(HOUSE.thickness).span
    assert max(p.length for p in found.panels) <= span + MEASURE
    assert found.solution.bound <= found.solution.cost + 1.0


def test_more_effort_never_costs_more():
    costs = [layout(UNTIDY, effort=effort).solution.cost for effort in (1e-6, 1.0)]
    assert costs == sorted(costs, reverse=True)


def test_a_slow_clock_changes_nothing(monkeypatch):
    """Time runs a thousand times as fast: the layout is the same."""
    import time

    calm = layout(HOUSE)
    clock = time.perf_counter
    monkeypatch.setattr(time, "perf_counter", lambda: 1000.0 * clock())
    assert [j.path for j in layout(HOUSE).joints] == [j.path for j in calm.joints]


def test_the_search_begins_its_proof_from_a_dive(monkeypatch):
    """A dive ends at whole panels, and its cost is no less than the bound of the linear programme."""
    seen = []
    dives = solve.dives

    def watched(master, effort):
        low = master.cost
        found = dives(master, effort)
        seen.append((low, found))
        return found

    monkeypatch.setattr(solve, "dives", watched)
    layout(UNTIDY, effort=1e-6)
    assert seen
    for low, found in seen:
        panels = found.values[found.values > WHOLE]
        assert len(panels)
        assert found.cost >= low - 1.0


def test_the_solver_prints_nothing(capfd):
    layout(HOUSE)
    assert capfd.readouterr() == ("", "")


SLANTED = slab(Ring(feet((0, 0), (46, 5), (41, 33), (19, 38), (-4, 21))))


def general(effort):
    region = regions_of(SLANTED, RULES, EngineOptions())[0].region
    return region, lay_out_region(region, EngineOptions(), effort)


def test_the_general_method_ends_with_a_lawful_layout_when_its_effort_is_used_up():
    full, spent = Effort(50.0), Effort(1e-9)
    region, best = general(full)
    _, first = general(spent)
    assert not full.cut
    assert spent.cut
    assert first.status is not Status.OPTIMAL
    assert 50.0 - full.left > 1.5 * -spent.left
    for found in (best, first):
        panels = panels_between(region.concrete, [LineString(c.path) for c in found.cuts])
        assert sum(p.area for p in panels) == pytest.approx(region.concrete.area)
        assert max(enclosing_rectangle(p).length for p in panels) <= region.working.span + MEASURE


def test_the_general_method_spends_the_same_each_time():
    efforts = [Effort(0.2), Effort(0.2)]
    layouts = [general(e)[1] for e in efforts]
    assert layouts[0].cuts == layouts[1].cuts
    assert efforts[0] == efforts[1]


@pytest.mark.parametrize("seconds", [1e-6, 0.5])
def test_no_call_of_the_solver_outruns_what_is_left(monkeypatch, seconds):
    """Simplex iterations are limited by the effort left and the patience, whatever the programme."""
    limits = []
    solve = Master.solve

    def watched(master, effort):
        most = effort.left + effort.patience
        done = solve(master, effort)
        rows = master.model.rows.count
        taken = int(master.solver.getInfo().simplex_iteration_count)
        limits.append(taken * rows <= max(most * PER_SECOND, LEAST_ITERATIONS * rows))
        return done

    monkeypatch.setattr(Master, "solve", watched)
    general(Effort(seconds))
    assert limits
    assert all(limits)


def test_a_linear_programme_that_takes_too_many_iterations_is_given_up(monkeypatch):
    """The region is then divided, and laid out all the same."""
    monkeypatch.setattr("kerfline.engine.partition.set_partition.LEAST_ITERATIONS", 3)
    monkeypatch.setattr("kerfline.engine.effort.MOST_SECONDS", 0.0)
    region, found = general(Effort(1e-9))
    assert found.status is Status.HEURISTIC
    panels = panels_between(region.concrete, [LineString(c.path) for c in found.cuts])
    assert sum(p.area for p in panels) == pytest.approx(region.concrete.area)
    assert (
        max(enclosing_rectangle(p).length for p in panels)
        <= region.stretch * region.working.span + MEASURE
    )


def test_a_piece_whose_net_is_too_fine_is_laid_out_in_parts(monkeypatch):
    sizes = []
    net_of = on_chart.net_of

    def counted(*given):
        net = net_of(*given)
        sizes.append(len(net.cells))
        return net

    monkeypatch.setattr(on_chart, "net_of", counted)
    region, _ = general(Effort(5.0))
    most = max(sizes) // 2
    tried = []
    monkeypatch.setattr(on_chart, "MOST_CELLS", most)
    best_of = on_chart.best_of

    def watched(problem, net, panels):
        tried.append(len(net.cells))
        return best_of(problem, net, panels)

    monkeypatch.setattr(on_chart, "best_of", watched)
    _, found = general(Effort(5.0))
    assert max(tried) <= most
    panels = panels_between(region.concrete, [LineString(c.path) for c in found.cuts])
    assert (
        max(enclosing_rectangle(p).length for p in panels)
        <= region.stretch * region.working.span + MEASURE
    )


def test_what_is_found_and_measured_counts():
    effort = Effort(1.0)
    effort.measure(20_000)
    assert effort.left == pytest.approx(0.5)


def test_windows_that_are_looked_through_count():
    effort = Effort(1.0)
    effort.look_through(40_000)
    assert effort.left == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("left", "patience", "hurried"),
    [(0.2, 0.05, True), (0.2, 0.15, False), (-3.0, 2.0, True), (-3.0, 3.5, False)],
)
def test_a_first_layout_is_hurried_where_next_to_nothing_is_left_even_of_the_patience(
    left, patience, hurried
):
    effort = Effort(left, patience=patience)
    with effort.carrying():
        assert effort.hurried is hurried
    assert not effort.hurried


def test_patience_is_shared_and_raised_only_while_something_is_carried():
    effort = Effort(-3.0, patience=2.0)
    assert effort.over
    with effort.carrying():
        assert not effort.over
        assert effort.patience == pytest.approx(3.0 + CARRIED)
    assert effort.over
    assert Effort(4.0, patience=8.0).share(0.25) == Effort(1.0, patience=2.0)


def test_all_first_layouts_of_a_slab_overspend_no_more_than_is_in_its_budget():
    """Each by so much at most, whichever share of the effort it has."""
    budget = Budget(reserve=CARRIED + 1.0)
    whole = Effort(2.0, patience=1.0, budget=budget)
    for share, room, used in ((0.5, CARRIED, CARRIED), (0.25, 1.0, 0.5), (0.25, 0.5, 0.7)):
        part = whole.share(share)
        before = part.left + part.patience
        with part.carrying():
            assert part.left + part.patience == pytest.approx(before + room)
            part.measure(round((before + used) * GROUPS_PER_SECOND))
        assert not part.spent_up or budget.reserve <= 0.0
    assert budget.reserve == pytest.approx(-0.2)
    with part.carrying():
        assert part.over
    assert part.spent_up
    assert budget.spent == pytest.approx(2.0 + 1.0 + CARRIED + 1.2)


def test_what_is_not_overspent_stays_in_the_budget():
    part = Effort(2.0, patience=1.0, budget=Budget(reserve=3.0))
    with part.carrying():
        part.spend(2900, 10_000)
    assert part.budget.reserve == 3.0
    part.spend(200, 10_000)
    assert part.over
    assert not part.spent_up


@pytest.mark.parametrize(("left", "drawn"), [(0.5, 0.0), (-1.5, 1.5), (-3.0, 2.0)])
def test_what_is_overspent_within_the_patience_is_charged_to_the_budget(left, drawn):
    part = Effort(left, patience=2.0, budget=Budget(reserve=3.0))
    part.charge()
    assert part.budget.reserve == pytest.approx(3.0 - drawn)


def test_larger_slabs_have_more_in_their_budget():
    assert Budget.of(0.0).reserve == CARRIED
    assert Budget.of(100.0).reserve == pytest.approx(CARRIED + 100.0 * CARRIED_BY_SQUARE)


def test_with_an_empty_budget_no_part_is_searched_and_all_are_halved(monkeypatch):
    """Or each half would be tried again, and each half of that."""

    def never(*_):
        raise AssertionError

    for module, name in ((on_chart, "net_of"), (general_method, "_divided")):
        monkeypatch.setattr(module, name, never)
    effort = Effort(0.0, patience=0.0, budget=Budget(reserve=0.0))
    region, found = general(effort)
    assert effort.budget.spent == 0.0
    panels = panels_between(region.concrete, [LineString(c.path) for c in found.cuts])
    assert sum(p.area for p in panels) == pytest.approx(region.concrete.area)
    assert max(enclosing_rectangle(p).length for p in panels) <= (
        region.stretch * region.working.span + MEASURE
    )


def test_a_grid_is_not_drawn_once_the_patience_is_over(monkeypatch):
    monkeypatch.setattr(on_grid, "lattice", lambda *_: pytest.fail("a grid was drawn"))
    region = regions_of(UNTIDY, RULES, EngineOptions())[0].region
    search = on_grid.Search(region, Weights(), region.working.span, 9000)
    spent = Effort(-1.0, patience=1.0)
    assert on_grid._covered(search, spent, on_grid.NOTHING, (36,)) is None


@pytest.mark.parametrize(("seconds", "tries"), [(0.01, (19,)), (1.0, (36,))])
def test_a_hurried_region_is_searched_on_the_fewest_lines_alone(monkeypatch, seconds, tries):
    """Listing panels on ever fewer lines takes longer than the search where there are many groups of cells."""
    seen = []
    lattice = on_grid.lattice

    def watched(region, most, span, asked):
        seen.append(most)
        return lattice(region, most, span, asked)

    monkeypatch.setattr(on_grid, "lattice", watched)
    region = regions_of(UNTIDY, RULES, EngineOptions())[0].region
    assert on_grid.solve_exact(region, Weights(), Effort(seconds)) is not None
    assert tuple(seen[:1]) == tries
    assert seconds > 0.1 or set(seen) <= {19}
