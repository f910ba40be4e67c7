"""The exact search is for grids; what draws no grid is left to the general method."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from shapely import MultiPoint, Point

from kerfline.engine.effort import Budget, Effort
from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.lattice import NOTHING
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.partition import on_grid, rounds
from kerfline.engine.partition.images import grid_images
from kerfline.engine.partition.on_grid import solve_exact
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Slab, Wall
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display
from unit.engine.plans import RULES, box, feet, layout, region_of, ring, slab


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


def jutting(out):
    """A floor of 12 x 8 m with a wall across it whose thickness of 200 mm juts out of both edges."""
    corners = [(0, 0), (5900, 0), (5900, -out), (6100, -out), (6100, 0), (12000, 0)]
    corners += [(12000, 8000), (6100, 8000), (6100, 8000 + out), (5900, 8000 + out), (5900, 8000)]
    wall = Wall(id="W1", path=((6000, -out), (6000, 8000 + out)), thickness=200.0)
    return Slab(outline=Ring((*corners, (0, 8000))), thickness=150.0, walls=(wall,))


@pytest.mark.parametrize("out", [90.0, 150.0, 200.0])
def test_the_end_of_a_wall_that_juts_out_of_the_slab_is_no_panel(out):
    """Its joint runs along one face, so that it leaves a corner on either side."""
    given = jutting(out)
    layout = lay_out(given, RULES, EngineOptions(display=Display.METRIC))
    limits = RULES.working(given.thickness)
    assert min(p.width for p in layout.panels) >= limits.width
    assert not layout.walls_left
    under = [j for j in layout.joints if j.reason == "wall"]
    assert [j.length for j in under] == [pytest.approx(8000.0 + out, abs=out + 1.0)]
    met = [c for c in given.reentrant_corners if under[0].line.distance(Point(c.at)) < 1e-3]
    assert len(met) == 2


def test_a_corner_flush_with_the_face_of_a_wall_shares_its_joint():
    """A bay of 0.9 m beside a wall of 200 mm: one line for both, not two 100 mm apart."""
    outline = Ring(((0, 0), (4000, 0), (4000, -900), (8000, -900), (8000, 6000), (0, 6000)))
    wall = Wall(id="W1", path=((4100, 0), (4100, 6000)), thickness=200.0)
    layout = lay_out(Slab(outline=outline, thickness=150.0, walls=(wall,)), RULES)
    upright = [j for j in layout.joints if abs(j.path[0][0] - j.path[-1][0]) < 1.0]
    assert any(j.path[0][0] == pytest.approx(4000.0, abs=0.5) for j in upright)
    assert not any(4050.0 < j.path[0][0] < 4700.0 for j in upright)
    assert not layout.walls_left


TEE = ((0, 0), (6, 0), (6, 6), (12, 6), (12, 0), (18, 0), (18, 12), (0, 12))
"""Symmetric from left to right."""


def test_the_search_asks_for_a_symmetric_layout_first(monkeypatch):
    """What it hands to the programme are the panels' images, not each panel by itself."""
    asked = []
    whole = on_grid.grid_partition

    def partition(net, panels, costs, weights, hidden, choice):
        asked.append((choice, grid_images(net, panels, costs)))
        return whole(net, panels, costs, weights, hidden, choice)

    monkeypatch.setattr(on_grid, "grid_partition", partition)
    layout(slab(ring(*TEE)))
    first, expected = asked[0]
    assert first.tolist() == expected.tolist()
    assert first.tolist() != list(range(len(first)))


def rooms():
    """A floor with four walls, two of them 2.6 ft apart, where other lines than even divisions serve better."""
    ends = [
        ((23, 6), (23, 23)),
        ((28.4, 5), (28.4, 22)),
        ((0, 19.6), (28, 19.6)),
        ((1, 17), (31, 17)),
    ]
    walls = (Wall(id=f"W{n}", path=feet(*e), thickness=150.0) for n, e in enumerate(ends, 1))
    return slab(box(33, 24), walls=tuple(walls))


def test_a_floor_is_searched_again_on_other_lines_as_long_as_that_betters_it(monkeypatch):
    """Evenness is left out: free spans are told on the pieces of a grid, so that it alone changes with the lines."""
    found = []
    covered = on_grid._covered

    def watched(*given):
        found.append((given[2], covered(*given)))
        return found[-1][1]

    monkeypatch.setattr(on_grid, "_covered", watched)
    region = region_of(rooms())
    best = solve_exact(region, Weights(uneven=0.0), Effort(5.0))
    costs = [round(answer.cover.cost) for _, answer in found if answer]
    assert len(found) > 1
    assert not any(found[0][0].more)
    assert all(any(asked.more) for asked, _ in found[1:])
    assert costs[1] < costs[0]
    assert round(best.answer.cover.cost) == min(costs)
    assert costs == sorted(costs, reverse=True)


@pytest.mark.parametrize("hard", [False, True])
def test_after_a_hard_search_new_lines_come_a_few_at_a_time(hard, monkeypatch):
    asked = []
    covered = on_grid._covered

    def told(*given):
        asked.append(given[2])
        found = covered(*given)
        return found and replace(found, cover=replace(found.cover, hard=hard))

    monkeypatch.setattr(on_grid, "_covered", told)
    solve_exact(region_of(rooms()), Weights(), Effort(5.0))
    first, second, *_ = asked
    assert first.room is None
    assert (second.room is None) is not hard


def amiss(monkeypatch, judge):
    """The search judges the panels between some joints by what a function makes of how many it judged before."""
    tried = []

    def true_panels(region, price, on_slab):
        tried.append(tuple(on_slab))
        return judge(len(tried), on_grid_panels(region, price, on_slab))

    on_grid_panels = on_grid.true_panels
    monkeypatch.setattr(on_grid, "true_panels", true_panels)
    return tried


SPOT = (15 * MM_PER_FOOT, 5 * MM_PER_FOOT)


def test_what_comes_out_too_long_is_barred_and_the_rest_found_again_on_the_same_lines(monkeypatch):
    """Before all panels are made smaller for the sake of one."""

    def once(count, true):
        return replace(true, long={SPOT: 100.0}) if count == 1 else true

    tried = amiss(monkeypatch, once)
    found = solve_exact(region_of(rooms()), Weights(), Effort(5.0))
    assert len(tried) > 1
    assert found.runs in tried[1:]
    assert tried[1] != tried[0]


def test_a_better_cover_that_stays_too_long_gives_way_to_the_one_before_it(monkeypatch):
    def all_later(count, true):
        return true if count == 1 else replace(true, long={SPOT: 100.0})

    tried = amiss(monkeypatch, all_later)
    found = solve_exact(region_of(rooms()), Weights(), Effort(5.0))
    assert len(tried) > 1
    assert found.runs == tried[0]


def test_of_covers_on_the_same_lines_the_one_with_fewer_faults_on_the_true_slab_is_kept(
    monkeypatch,
):
    """What is barred for a poor panel may leave one that is too long."""

    def worse(count, true):
        return replace(true, poor=(SPOT,)) if count == 1 else replace(true, long={SPOT: 100.0})

    tried = amiss(monkeypatch, worse)
    found = solve_exact(region_of(rooms()), Weights(), Effort(5.0))
    assert len(tried) > 1
    assert found.runs == tried[0]


def test_rounds_end_where_what_they_find_costs_less_but_breaks_more_rules(monkeypatch):
    """Such a cover is no gain: the next wide round would begin from the same layout, and ask for the same lines."""
    found = []
    on_slab, mending_lines = on_grid._on_slab, rounds.mending_lines
    monkeypatch.setattr(
        rounds,
        "mending_lines",
        lambda *given: replace(mending_lines(*given), broken=((SPOT[0],), ())),
    )

    def cheaper_and_poorer(*given):
        if not found:
            found.append(on_slab(*given))
            return found[0]
        assert len(found) <= 2 * rounds.FRUITLESS, "there is no end to it"
        answer = found[-1].answer
        cover = replace(answer.cover, cost=0.9 * answer.cover.cost)
        panels = replace(found[0].panels, poor=(SPOT,))
        found.append(replace(found[0], answer=replace(answer, cover=cover), panels=panels))
        return found[-1]

    monkeypatch.setattr(on_grid, "_on_slab", cheaper_and_poorer)
    best = solve_exact(region_of(rooms()), Weights(), Effort(5.0))
    assert len(found) > 1
    assert best is found[0]


@pytest.mark.parametrize(
    ("size", "bays"),
    [((71, 10.5), [121, 122, 122, 122, 122, 122, 121]), ((72, 10), [108] * 8)],
    ids=["a little wider than the advised span", "as wide"],
)
def test_a_walk_is_one_even_row_of_bays_no_longer_than_it_is_wide(size, bays):
    """Inches. The advised span is 10 ft, and what is a little over it costs the same either way."""
    joints = sorted(j.path[0][0] for j in layout(slab(box(*size))).joints)
    places = [0.0, *(x / MM_PER_INCH for x in joints), 12.0 * size[0]]
    assert np.diff(places).round().tolist() == bays


@pytest.mark.parametrize(("wide", "long", "bays"), [(10.5, 68, 12), (24, 105, 12), (24, 126, 14)])
def test_the_bays_of_a_narrow_slab_are_even_however_many_lines_that_takes(wide, long, bays):
    """One edge steps by an inch halfway: the joint from the corner there divides the bays."""
    half = long / 2
    stepped = ring((0, 0), (long, 0), (long, wide), (half, wide), (half, wide + 1 / 12), (0, wide + 1 / 12))  # fmt: skip
    across = sorted(
        {round(x / MM_PER_FOOT, 2) for j in layout(slab(stepped)).joints for x, _ in j.path}
    )
    sizes = np.diff([0.0, *(x for x in across if 0 < x < long), long])
    assert sizes == pytest.approx(np.full(bays, long / bays), abs=1.5 / 12)


@pytest.mark.parametrize(("jog", "split"), [(0.0, 0), (1.0, 2)])
def test_a_panel_that_the_true_edge_makes_too_long_costs_no_other_panel_its_size(jog, split):
    """A walk as wide as a bay may just be, 1/10 in less; where one edge steps out by an inch two bays are split."""
    wide = 10.5 - 0.1 / 12
    outline = ring((0, 0), (wide, 0), (wide, 30), (wide + jog / 12, 30), (wide + jog / 12, 40), (0, 40))  # fmt: skip
    found = solve_exact(region_of(slab(outline if jog else box(wide, 40))), Weights(), Effort(5.0))
    widths = found.answer.panels.size[0][found.answer.cover.chosen]
    assert found.fits
    assert (widths < 6 * MM_PER_FOOT).sum() == 2 * split
    assert (widths > 10 * MM_PER_FOOT).sum() == 4 - split // 2


@pytest.mark.parametrize(("attempts", "is_found"), [(4, True), (2, False)])
def test_where_all_panels_came_out_too_long_the_only_way_is_tried_once_more_whatever_is_spent(
    monkeypatch, attempts, is_found
):
    """The first search has all but used up the patience; where another layout is there it may be left at that."""
    best, spans = on_grid._best, []
    effort = Effort(0.0, patience=5.0)

    def spent(search, *given, **how):
        spans.append(search.span)
        found = best(search, *given, **how)
        effort.left = min(effort.left, -5.0)
        return found

    def at_first(_count, true):
        return replace(true, long={SPOT: 25.0}) if len(spans) == 1 else true

    monkeypatch.setattr(on_grid, "_best", spent)
    amiss(monkeypatch, at_first)
    assert (solve_exact(region_of(rooms()), Weights(), effort, attempts) is not None) is is_found
    assert np.diff(spans).tolist() == ([-25.0] if is_found else [])


@pytest.mark.parametrize(("attempts", "is_found"), [(4, True), (2, False)])
def test_the_first_search_of_the_only_way_is_carried_to_its_end(monkeypatch, attempts, is_found):
    """A search that gives up where the patience ends."""
    covered = on_grid._covered

    def costly(search, effort, *given):
        effort.left -= 3.0
        return None if effort.over else covered(search, effort, *given)

    monkeypatch.setattr(on_grid, "_covered", costly)
    found = solve_exact(region_of(rooms()), Weights(), Effort(0.0, patience=2.0), attempts)
    assert (found is not None) is is_found


def test_rounds_that_overspend_are_charged_to_the_budget(monkeypatch):
    """Three seconds each; the first search is within the patience, and is drawn by whoever shared it out."""
    covered, searches = on_grid._covered, []

    def costly(search, effort, *given):
        searches.append(effort)
        effort.left -= 3.0
        return covered(search, effort, *given)

    monkeypatch.setattr(on_grid, "_covered", costly)
    budget = Budget(reserve=100.0)
    solve_exact(region_of(rooms()), Weights(), Effort(1.0, patience=5.0, budget=budget))
    assert len(searches) > 1
    assert budget.reserve == pytest.approx(100.0 + searches[-1].left)
    assert searches[-1].left <= -3.0 * (len(searches) - 1)


@pytest.mark.parametrize(("dearer", "searches"), [(2.51, 1), (2.49, 2), (1.0, 0)])
def test_a_grid_without_hope_to_beat_another_layout_is_searched_on_no_further_lines(
    monkeypatch, dearer, searches
):
    """None begun at 2.5 times its cost, none that are at 1.5 times after one more search."""
    found = []
    covered = on_grid._covered

    def watched(*given):
        found.append(covered(*given))
        return found[-1]

    monkeypatch.setattr(on_grid, "_covered", watched)
    region = region_of(rooms())
    search = on_grid.Search(region, Weights(), region.working.span, 9000)
    first = covered(search, Effort(5.0), NOTHING, (36,))
    best = solve_exact(region, Weights(), Effort(5.0), 2, 9000, beat=first.cover.cost / dearer)
    assert (best is None) is (searches > 0)
    assert len(found) == searches or best


def test_a_figure_that_fills_no_cell_of_its_grid_has_no_layout_on_it():
    """Of a strip on the slant the lines through its ends draw one cell, of which it is a thirtieth."""
    region = region_of(slab(ring((0, 0), (0.5, 0), (30.5, 30), (30, 30))))
    assert solve_exact(region, Weights(), Effort(5.0)) is None


def test_a_slab_lower_than_lines_are_merged_has_no_grid():
    assert solve_exact(region_of(slab(box(30, 0.5))), Weights(), Effort(5.0)) is None


def test_a_slab_whose_panels_keep_coming_out_too_long_has_no_layout_on_a_grid(monkeypatch):
    """Each search is made on a span as much shorter as the longest panel was too long, and at last none is."""
    spans = []

    def too_long(search, *_, **__):
        spans.append(search.span)
        return SimpleNamespace(fits=False, panels=SimpleNamespace(long={(0.0, 0.0): 100.0}))

    monkeypatch.setattr(on_grid, "_best", too_long)
    region = region_of(slab(box(30, 30)))
    assert solve_exact(region, Weights(), Effort(5.0)) is None
    assert spans == [region.working.span - 100.0 * n for n in range(4)]


def test_joints_cross_at_every_diamond_though_its_lines_stand_off_the_bays():
    """A floor of 53 x 63 ft whose rows of columns are 17 to 26 ft apart, at an advised span of 14 ft 9 in.

    A line of even bays that passes a column takes less joint, and leaves two points of its diamond bare.
    """
    columns = tuple(
        Column(id=f"C{x}{y}", at=(x, y), size=400.0, boxout=Boxout.DIAMOND)
        for x in (5620.0, 10830.0)
        for y in (8050.0, 15170.0)
    )
    outline = Ring(((0, 0), (16230.0, 0), (16230.0, 19220.0), (0, 19220.0)))
    found = lay_out(
        Slab(outline=outline, thickness=150.0, columns=columns),
        RULES,
        EngineOptions(display=Display.METRIC),
    )
    ends = MultiPoint([end for j in found.joints for end in (j.path[0], j.path[-1])])
    points = [Point(p) for c in columns for p in c.points]
    assert len(points) == 16
    assert max(ends.distance(p) for p in points) < 1.0
