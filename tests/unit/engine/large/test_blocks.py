"""Lines that divide a large floor: no block too long, along columns where there are some, clear of keep-outs."""

import math
from itertools import combinations, pairwise

import pytest
import shapely
from shapely.geometry import box as area

from kerfline.engine.large import blocks as module
from kerfline.engine.large.blocks import (
    BLOCK,
    FIRST,
    Arrivals,
    block,
    blocks,
    gathered,
    has_slants,
    separators,
)
from kerfline.engine.lines.lattice import GridLine
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.features import Rank
from kerfline.engine.regions.placing import placed_region
from kerfline.engine.regions.region import X, Y
from kerfline.engine.steps import Steps
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, KeepOut, Slab
from kerfline.units import MM_PER_FOOT as FOOT
from kerfline.units import MM_PER_INCH
from unit.engine import plans
from unit.engine.plans import RULES, box, feet, layout, ring, slab, wall

WIDE, DEEP = 200.0, 90.0


def region_of(**more):
    given = slab(box(WIDE, DEEP), **more)
    return placed_region(given, RULES, EngineOptions(), gross=given.gross, angle=0.0).region


@pytest.mark.parametrize(("axis", "size"), [(X, WIDE), (Y, DEEP)])
def test_no_block_is_longer_than_it_may_be(axis, size):
    region = region_of()
    places = separators(region, axis, region.working.span)
    steps = [b - a for a, b in pairwise([0.0, *places, size * FOOT])]
    assert max(steps) <= BLOCK * region.working.span
    assert min(steps) >= region.working.width


def test_separators_run_along_rows_of_columns():
    rows = [25.0 * n for n in range(1, 8)]
    columns = tuple(Column(id=f"C{n}", at=(x * FOOT, 45 * FOOT)) for n, x in enumerate(rows))
    region = region_of(columns=columns)
    places = [round(p / FOOT, 3) for p in separators(region, X, region.working.span)]
    assert places
    assert set(places) <= set(rows)


WINGS = (
    # the slab, and where its long edges run into it, across x and across y, feet
    (ring((0, 0), (300, 0), (300, 120), (120, 120), (120, 260), (0, 260)), {120.0}, {120.0}),
    (
        ring((0, 0), (320, 0), (320, 200), (230, 200), (230, 90), (110, 90), (110, 200), (0, 200)),
        {110.0, 230.0},
        {90.0},
    ),
)


@pytest.mark.parametrize(("outline", "across_x", "across_y"), WINGS)
def test_a_wing_begins_at_a_separator(outline, across_x, across_y):
    given = Slab(outline=outline, thickness=8 * MM_PER_INCH)
    region = placed_region(given, RULES, EngineOptions(), gross=given.gross, angle=0.0).region
    found = [
        {round(p / FOOT, 3) for p in separators(region, a, region.working.span)} for a in (X, Y)
    ]
    assert across_x <= found[X]
    assert across_y <= found[Y]


@pytest.mark.parametrize(("outline", "panels"), [(WINGS[0][0], 8 * 8 + 12 * 8 + 8 * 10)])
def test_the_wings_of_a_large_floor_are_divided_evenly_and_in_line(outline, panels):
    """An L of 300 x 260 ft, wings of 120 ft, at 15 ft: 8 bays and 12 and 10 of 14 ft, and no joint ends on another."""
    given = Slab(outline=outline, thickness=8 * MM_PER_INCH)
    found = layout(given)
    ends = [shapely.Point(c) for j in found.joints for c in (j.line.coords[0], j.line.coords[-1])]
    assert len(found.panels) == panels
    assert all(given.gross.boundary.distance(end) < 1.0 for end in ends)
    assert not [j for j in found.joints if j.line.intersection(given.gross.boundary).length > 1.0]


def test_the_wings_of_a_floor_keep_to_their_columns():
    """Columns at 50 x 40 ft in an L: 4 bays of 12'-6" and 3 of 13'-4" between them, every one with its two joints."""
    outline = ring((0, 0), (250, 0), (250, 80), (100, 80), (100, 200), (0, 200))
    rows = [(50, 40), (50, 80), (50, 120), (50, 160), (100, 40), (150, 40), (200, 40)]
    columns = tuple(Column(id=f"C{n}", at=(x * FOOT, y * FOOT)) for n, (x, y) in enumerate(rows, 1))
    found = layout(Slab(outline=outline, thickness=6 * MM_PER_INCH, columns=columns))
    for column in columns:
        at = shapely.Point(column.at)
        assert sum(j.line.distance(at) < 600.0 for j in found.joints) >= 2, column.id
    assert len(found.panels) == 20 * 6 + 8 * 9


def test_no_separator_crosses_a_keep_out():
    barred = area(60 * FOOT, 20 * FOOT, 95 * FOOT, 60 * FOOT)
    region = region_of(keep_outs=(KeepOut(id="K1", outline=Ring.of(barred)),))
    places = separators(region, X, region.working.span)
    assert not [p for p in places if 60 * FOOT < p < 95 * FOOT]


def test_blocks_tile_the_floor():
    region = region_of()
    lines = (separators(region, X, region.working.span), separators(region, Y, region.working.span))
    found = list(blocks(region, lines))
    assert len(found) == (len(lines[X]) + 1) * (len(lines[Y]) + 1)
    assert sum(b.gross.area for b in found) == pytest.approx(region.gross.area)


def choice(monkeypatch, plan, axis=X):
    """What the separators of a slab are chosen from: places, costs and the cost of bays, all in feet."""
    seen = []
    monkeypatch.setattr(module, "_chosen", lambda *given: seen.append(given) or [])
    region = plans.region_of(plan)
    separators(region, axis, region.working.span)
    ((places, costs, bays_of, allowed),) = seen

    def bays(start, end):
        ends = [min(places, key=lambda p: abs(p - at * FOOT)) for at in (start, end)]
        assert ends == pytest.approx([start * FOOT, end * FOOT], abs=0.01)
        return bays_of(*ends) / FOOT

    told = {round(p / FOOT, 2): c / FOOT for p, c in zip(places, costs, strict=True)}
    return told, bays, tuple(a / FOOT for a in allowed)


@pytest.mark.parametrize(
    ("length", "cost"),
    [
        (10.0, 1.0),
        (20.0, 2.0),
        (5.0, 1.0 + 0.5**2),
        (15.0, 2.0 * (1.0 + 0.25**2)),
        (12.0, 2.0 * (1.0 + 0.4**2)),
        (30.001, 3.0),  # a third of a millimetre over is no further bay
        (30.01, 4.0 * (1.0 + (1.0 - 30.01 / 40.0) ** 2)),
    ],
)
def test_bays_cost_their_number_and_more_the_shorter_they_are(length, cost):
    assert module._bays(length * FOOT, 10.0 * FOOT) == pytest.approx(cost, abs=1e-9)


def test_the_area_before_a_place_is_that_of_the_slab_left_of_it_or_below_it():
    """An L: 30 x 10 along the bottom, 10 x 20 on top of its left end, 500 in all."""
    ell = area(0, 0, 30, 10).union(area(0, 10, 10, 30))
    assert module._area_before(ell, X, [0, 5, 10, 20, 30]) == [0, 150, 300, 400, 500]
    assert module._area_before(ell, Y, [0, 5, 10, 20, 30]) == [0, 150, 300, 400, 500]
    wide = area(0, 0, 40, 10)
    assert module._area_before(wide, X, [10, 40]) == [100, 400]
    assert module._area_before(wide, Y, [5, 10]) == [200, 400]


LONG_ELL = ring((0, 0), (200, 0), (200, 60), (80, 60), (80, 120), (0, 120))


def test_bays_of_a_block_are_counted_at_its_mean_depth_and_a_long_edge_in_it_costs(monkeypatch):
    """16800 square feet; the edge of 60 ft at 80 ft costs 60 + 60 where a block runs over it."""
    _, bays, allowed = choice(monkeypatch, slab(LONG_ELL))
    assert bays(0, 80) == pytest.approx(8 * 120, rel=1e-6)
    assert bays(80, 200) == pytest.approx(12 * 60, rel=1e-6)
    assert bays(0, 200) == pytest.approx(20 * 84 + 120, rel=1e-6)
    assert allowed[1] == pytest.approx(60.0)


@pytest.mark.parametrize(("edge", "more"), [(29.0, 0.0), (30.0, 90.0), (40.0, 100.0)])
def test_an_edge_of_three_spans_is_long(monkeypatch, edge, more):
    outline = ring((0, 0), (200, 0), (200, 60), (80, 60), (80, 60 + edge), (0, 60 + edge))
    _, bays, _ = choice(monkeypatch, slab(outline))
    depth = (200 * 60 + 80 * edge) / 200
    assert bays(0, 200) == pytest.approx(20 * depth + more, rel=1e-6)


def test_bays_of_a_block_are_counted_between_its_columns(monkeypatch):
    """Twice 25 ft are six bays of 8'-4", where 50 ft were five; one at the block's end parts nothing."""
    columns = (Column(id="C1", at=feet((25, 30))[0]), Column(id="C2", at=feet((50, 30))[0]))
    _, bays, _ = choice(monkeypatch, slab(box(120, 60), columns=columns))
    of_25 = 3 * (1 + (1 / 6) ** 2)
    assert bays(0, 25) == pytest.approx(60 * of_25, rel=1e-6)
    assert bays(0, 50) == pytest.approx(60 * 2 * of_25, rel=1e-6)
    assert bays(0, 120) == pytest.approx(60 * (2 * of_25 + 7), rel=1e-6)


@pytest.mark.parametrize(("length", "parts"), [(19.0, (120,)), (20.0, (25, 95)), (60.0, (25, 95))])
def test_bays_of_a_block_are_counted_between_walls_of_two_spans(monkeypatch, length, parts):
    crossing = wall("W1", (25, 0), (25, length))
    _, bays, _ = choice(monkeypatch, slab(box(120, 60), walls=(crossing,)))
    cost = {120: 12.0, 25: 3 * (1 + (1 / 6) ** 2), 95: 10 * (1 + 0.05**2)}
    assert bays(0, 120) == pytest.approx(60 * sum(cost[p] for p in parts), rel=1e-6)


def test_a_separator_costs_less_along_features_and_on_columns_and_more_beside_a_line(monkeypatch):
    """10 ft each; 20 more in the open, 5 less for each column, 100 more for each line close beside."""
    columns = tuple(Column(id=f"C{y}", at=feet((40, y))[0]) for y in (20, 40))
    told, _, _ = choice(
        monkeypatch, slab(box(120, 60), columns=columns, walls=(wall("W1", (81, 0), (81, 60)),))
    )
    assert told[40.0] == pytest.approx(10 - 2 * 5)
    assert told[81.0] == pytest.approx(10)
    assert told[80.0] == pytest.approx(10 + 20 + 100)
    assert told[20.0] == pytest.approx(10 + 20)
    assert (told[0.0], told[120.0]) == (0.0, 0.0)


@pytest.mark.parametrize(("right", "barred"), [(59.9, False), (60.0, True), (60.1, True)])
def test_a_separator_may_not_touch_a_keep_out(right, barred):
    given = plans.region_of(slab(box(120, 60)))
    shape = area(50 * FOOT, 20 * FOOT, right * FOOT, 30 * FOOT)
    assert math.isinf(module._cost(given, X, 60 * FOOT, (), shape)) is barred
    across = area(50 * FOOT, (right - 20) * FOOT, 55 * FOOT, 41 * FOOT)
    assert math.isinf(module._cost(given, Y, 40 * FOOT, (), across)) is (right <= 60.0)


def cheapest(places, costs, bays_of, allowed):
    """The least total over every set of inner places; none where no set keeps the steps."""
    inner = range(1, len(places) - 1)
    totals = []
    for count in range(len(inner) + 1):
        for taken in combinations(inner, count):
            stops = [places[i] for i in (0, *taken, len(places) - 1)]
            if all(allowed[0] <= b - a <= allowed[1] for a, b in pairwise(stops)):
                bays = sum(bays_of(a, b) for a, b in pairwise(stops))
                totals.append((sum(costs[i] for i in taken) + bays, stops[1:-1]))
    return min(totals, default=None)


@pytest.mark.parametrize("seed", range(12))
def test_the_chosen_chain_is_the_cheapest_of_all(seed):
    places = [0.0, *sorted({(seed * 37 + n * n * 13) % 97 + 1.5 for n in range(8)}), 100.0]
    costs = [0.0, *(float((seed * 11 + n * 29) % 31) for n in range(len(places) - 2)), 0.0]

    def bays_of(start, end):
        return abs(end - start - 24.0) ** 1.3 + (start * 7) % 5

    allowed = (6.0, 45.0)
    best = cheapest(places, costs, bays_of, allowed)
    assert best
    found = module._chosen(places, costs, bays_of, allowed)
    assert found == best[1]


def test_steps_may_be_just_as_short_and_as_long_as_allowed_and_are_widened_where_none_fit():
    def plain(*_):
        return 0.0

    free = [0.0] * 4
    assert module._chosen([0.0, 10.0, 20.0, 30.0], free, plain, (10.0, 10.0)) == [10.0, 20.0]
    assert module._chosen([0.0, 10.0, 20.0, 30.0], free, plain, (11.0, 20.0)) == []
    # 20 is widened by quarters: 25, then 31.25, which reaches the end
    assert module._chosen([0.0, 31.0], [0.0, 0.0], plain, (1.0, 20.0)) == []
    assert module._chosen([0.0, 5.0, 26.0], [0.0, 1.0, 0.0], plain, (1.0, 21.0)) == [5.0]
    barred = [0.0, math.inf, 0.0]
    assert module._chosen([0.0, 13.0, 26.0], barred, plain, (1.0, 21.0)) == []


def test_places_of_separators_are_features_and_even_divisions_between_columns_and_long_edges():
    lines = [
        GridLine(at=at, rank=rank)
        for at, rank in (
            (0.0, Rank.EDGE),
            (12.0, Rank.WALL),
            (25.0, Rank.BESIDE),
            (40.0, Rank.COLUMN),
        )
    ]
    steps = Steps(0.0, 0.5)
    ends = (0.0, 60.0)
    plain = module._candidates(lines, ([40.0], []), ends, 10.0, steps)
    assert plain == [10.0, 12.0, 20.0, 30.0, 40.0, 50.0]
    turned = module._candidates(lines, ([40.0], [18.0]), ends, 10.0, steps)
    # 22 between edge and column are three bays; 10 lies within 1 mm of 9
    assert turned == [9.0, 12.0, 20.0, 25.5, 30.0, 32.5, 40.0, 50.0]


@pytest.mark.parametrize(("leg", "aslant"), [(106.0, False), (107.0, True)])
def test_a_chamfer_of_150_mm_makes_no_block_aslant(leg, aslant):
    """Legs of 106 mm make 149.9 mm, of 107 mm 151.3."""
    shape = area(0, 0, 9000, 9000) - shapely.Polygon([(0, 0), (leg, 0), (0, leg)])
    assert has_slants(block(plans.region_of(slab(box(40, 40))), shape)) is aslant


def test_slanted_neighbours_gather_while_there_is_room_and_small_corners_in_any_case():
    """At a span of 1: three of 8 squares hold no more than two together; a corner of half a square joins."""
    row = [area(4 * n, 0, 4 * n + 4, 2) for n in range(3)]
    assert module._groups(row, [0, 1], 1.0) == [[0, 1]]
    assert module._groups(row, [0], 1.0) == [[0]]
    assert module._groups(row, [0, 1, 2], 1.0) == [[0, 1], [2]]
    corner = [area(0, 0, 6, 3), area(6, 0, 6.5, 1)]
    assert module._groups(corner, [1], 1.0) == [[0, 1]]
    whole = [area(0, 0, 6, 3), area(6, 0, 7, 1)]
    assert module._groups(whole, [0, 1], 1.0) == [[0], [1]]
    apart = [area(0, 0, 2, 2), area(2, 2, 4, 4)]
    assert module._groups(apart, [0, 1], 1.0) == [[0], [1]]


def test_gathered_pieces_and_straight_blocks_tile_what_there_was():
    outline = ring((0, 0), (100, 0), (140, 40), (140, 80), (0, 80))
    whole = plans.region_of(slab(outline))
    parts = list(blocks(whole, ([50 * FOOT, 100 * FOOT], [40 * FOOT])))
    straight, aslant = gathered(whole, parts)
    assert len(straight) + len(aslant) == len(parts)
    assert [round(p.gross.area / FOOT**2) for p in aslant] == [800]
    total = sum(p.gross.area for p in (*straight, *aslant))
    assert total == pytest.approx(whole.gross.area)
    assert gathered(whole, straight) == (straight, [])


def test_joints_arrive_on_the_border_of_a_block_only():
    part = block(plans.region_of(slab(box(40, 40))), area(0, 0, 1000, 1000))
    inside, out, corner = (
        ((500.0, 500.0), (500.0, 2000.0)),
        ((1000.6, 5.0), (9.0, -0.6)),
        (0.0, 0.0),
    )
    on = ((1000.4, 300.0), (700.0, 1000.0))
    arrivals = Arrivals([inside, out])
    assert arrivals.on(part).landings == ()
    arrivals.add([on, (corner, (400.0, 400.0), (700.0, 1000.0001))])
    assert arrivals.on(part).landings == ((0.0, 0.0), (700.0, 1000.0), (1000.4, 300.0))
    assert Arrivals().on(part) is part


def test_there_is_room_for_any_number_of_arrivals():
    part = block(plans.region_of(slab(box(40, 40))), area(0, 0, 3000, 1000))
    arrivals = Arrivals()
    for n in range(FIRST + 10):
        arrivals.add([((float(n), 0.0), (float(n), 1000.0))])
    assert len(arrivals.on(part).landings) == 2 * (FIRST + 10)


def test_a_part_within_a_large_boxout_is_no_block():
    """A boxout of 120 ft on a floor of 200 x 90 ft: the part between x = 60 and 140 ft holds no concrete."""
    hole = Column(id="C1", at=(100 * FOOT, 45 * FOOT), boxout=Boxout.SQUARE, size=120 * FOOT)
    found = list(blocks(region_of(columns=(hole,)), ([60 * FOOT, 140 * FOOT], [])))
    assert [tuple(round(v / FOOT) for v in b.gross.bounds) for b in found] == [
        (0, 0, 60, 90),
        (140, 0, 200, 90),
    ]


@pytest.mark.parametrize(("apart", "both"), [(5.0, False), (6.6, False), (6.7, True)])
def test_no_block_is_a_strip_that_cannot_keep_its_neighbours_bays(apart, both):
    """At an aspect of 1.5 a strip with bays of 10 ft is 6'-8" wide at least, however many columns ask for it."""
    rows = [(60.0 + apart * n, 8.0 * m) for n in range(2) for m in range(1, 11)]
    columns = tuple(Column(id=f"C{n}", at=feet(at)[0]) for n, at in enumerate(rows))
    region = region_of(columns=columns)
    places = {round(p / FOOT, 3) for p in separators(region, X, region.working.span)}
    assert ({60.0, 60.0 + apart} <= places) is both
