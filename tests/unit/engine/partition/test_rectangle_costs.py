"""What rectangles cost: each thing on the slab prices the panels that it bears on, and no others."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon

from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.grid import Served
from kerfline.engine.partition.rectangle_costs import (
    breaks_nothing,
    departures,
    jog_corners,
    panel_costs,
)
from kerfline.engine.partition.rectangles import all_panels
from kerfline.engine.regions.region import Nook, X, Y
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Meeting, Penetration, PenetrationKind, Slab, Wall
from unit.engine.grids import boxes, grid_of
from unit.engine.plans import region_of

SIZE = 2500.0
PLACES = (0.0, 2500.0, 5000.0)
REGION = region_of(
    Slab(outline=Ring(((0, 0), (5000, 0), (5000, 5000), (0, 5000))), thickness=101.6)
)
GRID = grid_of(PLACES, PLACES)
"""Four cells of 2.5 m, all boxes of which are panels within a span of 5 m."""
PANELS = all_panels(GRID, REGION, 5000.0)
WEIGHTS = Weights()
WHOLE = (0, 2, 0, 2)
LOWER, UPPER = (0, 2, 0, 1), (0, 2, 1, 2)
LEFT, RIGHT = (0, 1, 0, 2), (1, 2, 0, 2)
CELLS = {(i, i + 1, j, j + 1) for i in (0, 1) for j in (0, 1)}


def costs(region=REGION, grid=GRID, weights=WEIGHTS, panels=PANELS):
    return dict(
        zip(boxes(panels), panel_costs(grid, region, panels, weights).tolist(), strict=True)
    )


def dearer(**more):
    """What each panel costs more with something on the slab; panels that cost the same are left out."""
    plain, found = costs(), costs(replace(REGION, **more))
    return {b: round(found[b] - plain[b], 1) for b in plain if abs(found[b] - plain[b]) > 0.05}


def column(x, y, boxout=Boxout.DIAMOND):
    return Column(id="C1", at=(x, y), boxout=boxout, size=600.0)


def test_a_panel_pays_for_half_of_each_joint_around_it():
    """A cell has two sides of 2.5 m inside: half of 5 m; a half of the slab one of 5 m; the whole none."""
    free = Weights(
        **dict.fromkeys(
            (
                "square",
                "aspect_advised",
                "small",
                "uneven",
                "width_advised",
                "span_advised",
                "warned",
                "over_aspect",
                "too_narrow",
            ),
            0.0,
        )
    )
    found = costs(weights=free)
    assert {found[b] for b in CELLS} == {2500.0}
    assert found[LEFT] == found[LOWER] == 2500.0
    assert found[WHOLE] == 0.0


def test_a_column_inside_a_panel_costs_that_panel_alone():
    found = dearer(columns=(column(1250, 1250),))
    inside = {b for b in costs() if b[0] == 0 and b[2] == 0}
    assert set(found) >= inside
    assert found[(0, 1, 0, 1)] >= feet(WEIGHTS.column_inside)


def test_a_column_on_a_side_costs_each_neighbour_half_and_at_a_crossing_nothing():
    side = dearer(columns=(column(2500, 1250),))
    half = round(feet(WEIGHTS.column_points) / 2, 1)
    assert side[(0, 1, 0, 1)] == side[(1, 2, 0, 1)] == half
    crossing = dearer(columns=(column(2500, 2500),))
    assert not set(crossing) & CELLS


def test_a_round_or_square_boxout_that_is_passed_costs_less_than_a_diamond():
    round_one = dearer(columns=(column(2500, 1250, Boxout.CIRCLE),))
    assert round_one[(0, 1, 0, 1)] == round(feet(WEIGHTS.column_side) / 2, 1)


def test_a_column_in_the_edge_costs_the_panel_amid_whose_side_it_stands():
    """No joint reaches it there, as if it were inside; one from it costs nothing, nor does one in the slab's corner."""
    inside = round(feet(WEIGHTS.column_inside), 1)
    assert dearer(columns=(column(2500, 100, Boxout.SQUARE),)) == dict.fromkeys(
        (LOWER, WHOLE), inside
    )
    assert not dearer(columns=(column(0, 5000, Boxout.SQUARE),))


def test_a_column_stands_in_the_edge_up_to_eight_inches_from_it():
    inside, half = (round(feet(w), 1) for w in (WEIGHTS.column_inside, WEIGHTS.column_side / 2))
    held = dict.fromkeys((LOWER, WHOLE), inside)
    beside = dict.fromkeys(((0, 1, 0, 1), (1, 2, 0, 1), LEFT, RIGHT), half)
    assert dearer(columns=(column(2500, 203, Boxout.CIRCLE),)) == held
    assert dearer(columns=(column(2500, 204, Boxout.CIRCLE),)) == held | beside


@pytest.mark.parametrize(("x", "sound"), [(2500, False), (0, True)])
def test_a_panel_with_a_column_amid_its_edge_breaks_a_rule(x, sound):
    region = replace(REGION, columns=(column(x, 0, Boxout.CIRCLE),))
    found = dict(zip(boxes(PANELS), breaks_nothing(GRID, region, PANELS, WEIGHTS), strict=True))
    assert found[WHOLE] is np.bool_(sound)
    assert found[(0, 1, 0, 1)]


CORNER_FEET = round(feet(WEIGHTS.corner), 1)


@pytest.mark.parametrize(
    ("low", "high", "share"),
    [
        (2500, 2900, 0.0),
        (2100, 2500, 0.0),
        (2300, 2700, 0.5),
        (2499, 2899, 0.5),
        (2499.6, 2900, 0.0),
    ],
)
def test_a_nook_wants_a_joint_from_one_of_its_corners(low, high, share):
    """It is in the lower edge: whole beside the lower row, which pays; a joint between its corners meets neither."""
    found = dearer(nooks=(Nook(axis=X, low=low, high=high, level=0.0),))
    assert found.pop(LOWER) == found.pop(WHOLE) == CORNER_FEET
    beside = {(0, 1, 0, 1), (1, 2, 0, 1), LEFT, RIGHT} if share else set()
    assert found == dict.fromkeys(beside, round(share * CORNER_FEET, 1))


def test_a_nook_that_no_line_reaches_costs_the_panels_beside_it():
    nooks = (Nook(axis=Y, low=1000.0, high=1400.0, level=5000.0),)
    right = {(1, 2, 0, 1), LOWER, RIGHT, WHOLE}
    assert dearer(nooks=nooks) == dict.fromkeys(right, CORNER_FEET)
    region = replace(REGION, nooks=nooks)
    found = dict(zip(boxes(PANELS), breaks_nothing(GRID, region, PANELS, WEIGHTS), strict=True))
    assert not found[(1, 2, 0, 1)]
    assert not found[WHOLE]
    assert found[(1, 2, 1, 2)]


def pipe(x, y, **more):
    fields = {"diameter": 100.0, "kind": PenetrationKind.DRAIN, "clear": 300.0}
    return Penetration(id="N1", at=(x, y), **{**fields, **more})


def test_a_drain_in_a_panel_is_a_wish_unmet_and_near_its_side_also_too_near():
    far, near = dearer(penetrations=(pipe(1250, 1250),)), dearer(penetrations=(pipe(2300, 1250),))
    wish, beside = (round(feet(w), 1) for w in (WEIGHTS.penetration_auto, WEIGHTS.penetration_near))
    cell = (0, 1, 0, 1)
    assert far[cell] == wish
    assert near[cell] == pytest.approx(wish + beside, abs=0.2)
    assert cell not in dearer(penetrations=(pipe(2500, 1250),))


def test_a_pipe_to_stay_clear_of_costs_where_a_joint_runs_through_it():
    found = dearer(penetrations=(pipe(2500, 1250, meeting=Meeting.CLEAR),))
    half = round(feet(WEIGHTS.penetration) / 2, 1)
    assert found[(0, 1, 0, 1)] == found[(1, 2, 0, 1)] == half
    assert (0, 2, 0, 1) not in found


def test_a_neighbours_joint_that_arrives_amid_a_side_costs_the_panel_with_that_side():
    """At half of the left edge: met by the line across, so that the whole and the left half alone pay."""
    found = dearer(landings=((0.0, 2500.0),))
    assert set(found) == {WHOLE, LEFT}
    assert found[LEFT] == round(feet(WEIGHTS.landing), 1)


def test_a_wall_in_a_panel_is_bare_and_on_its_side_is_not():
    walled = grid_of(PLACES, PLACES, walls=((0, 1, 0), (0, 1, 1)))
    plain, found = costs(), costs(grid=walled)
    bare = {b for b in plain if found[b] - plain[b] > 1000}
    assert bare == {WHOLE, LOWER, UPPER}
    assert found[WHOLE] - plain[WHOLE] > found[LOWER] - plain[LOWER]


@pytest.mark.parametrize(("short", "price"), [(False, 60 * 304.8 + 10 * 4000), (True, 3 * 4000)])
def test_a_side_within_a_walls_thickness_serves_it_though_another_line_lies_nearer(short, price):
    """Lines 50 mm apart, the wall on the lower one: a panel that ends on the upper one holds it, but bare it is not."""
    lines = (0.0, 2000.0, 2050.0, 4000.0)
    walled = grid_of((0.0, 4000.0), lines, walls=((1, 1, 0),))
    none = grid_of((0.0, 4000.0), lines)
    bare = replace(walled, wall=none.wall, owed=none.owed)
    if short:
        walled = replace(bare, wish=walled.wall)
    panels = all_panels(bare, REGION, 5000.0)
    rate = 10 + 60 * 304.8 / 4000
    part = Served(
        axis=1, line=1, first=1, last=2, lengths=np.array([4000.0]), rate=rate, short=short
    )
    for beside, dearer in (((), {(0, 1, 0, 2), (0, 1, 0, 3)}), ((part,), {(0, 1, 0, 3)})):
        plain = costs(grid=bare, panels=panels)
        found = costs(grid=replace(walled, beside=beside), panels=panels)
        more = {b: found[b] - plain[b] for b in plain if found[b] - plain[b] > 5000}
        assert more == {b: pytest.approx(price) for b in dearer}


def test_a_corner_stays_with_its_own_line_though_another_lies_nearer():
    """A jog of 150 mm in the upper edge at 2.5 m, its corner at 2.6 m: a division there takes nothing from the edge's line."""
    top = [(5000, 0), (5000, 4850), (2600, 4850), (2600, 5000), (0, 5000), (0, 0)]
    region = region_of(Slab(outline=Ring(top), thickness=101.6))
    net = grid_of((0.0, 2500.0, 2600.0, 5000.0), PLACES)
    own = replace(net, firm=(np.array([0.0, 2500.0, 5000.0]), net.firm[1]))
    assert jog_corners(own, region) == [(2500.0, 5000.0)]
    assert jog_corners(net, region) == [(2600.0, 5000.0)]


def test_a_strip_under_a_bearing_wall_inside_a_panel_costs_unless_a_joint_runs_beside_it():
    wall = Wall(id="W1", path=((1250, 0), (1250, 5000)), bearing=True, strip_width=300.0)
    found = dearer(walls=(wall,))
    assert {b for b in found if found[b] > 1000} == {b for b in costs() if b[0] == 0}
    beside = replace(wall, path=((2500 - 150 - 457, 0), (2500 - 150 - 457, 5000)))
    assert (0, 1, 0, 1) not in dearer(walls=(beside,))


def test_what_breaks_nothing():
    """All but the whole, which is beyond the span that is advised, and what a column stands in."""
    free = dict(zip(boxes(PANELS), breaks_nothing(GRID, REGION, PANELS, WEIGHTS), strict=True))
    assert all(free[b] for b in CELLS)
    assert not free[LEFT]
    columned = replace(REGION, columns=(column(1250, 1250),))
    held = dict(zip(boxes(PANELS), breaks_nothing(GRID, columned, PANELS, WEIGHTS), strict=True))
    assert [b for b in CELLS if not held[b]] == [(0, 1, 0, 1)]
    walled = grid_of(PLACES, PLACES, walls=((0, 1, 0),))
    bare = dict(zip(boxes(PANELS), breaks_nothing(walled, REGION, PANELS, WEIGHTS), strict=True))
    assert not bare[LOWER]


ROW = grid_of((0, 3000, 6000, 9000), (0, 3000))


def departure(grid, panel, span=3048.0):
    region = replace(REGION, gross=Polygon([(0, 0), (9000, 0), (9000, 3000), (0, 3000)]))
    panels = all_panels(grid, region, 6000.0)
    panels = replace(panels, span=np.full(len(panels), span))
    return dict(zip(boxes(panels), departures(grid, region, panels).tolist(), strict=True))[panel]


@pytest.mark.parametrize(
    ("grid", "panel", "off"),
    [
        (ROW, (0, 1, 0, 1), 0.0),
        (ROW, (1, 2, 0, 1), 0.0),
        (ROW, (0, 2, 0, 1), 1.0),
        (grid_of((0, 3300, 6000, 9000), (0, 3000)), (0, 1, 0, 1), 0.1),
        (grid_of((0, 2250, 6000, 9000), (0, 3000)), (0, 1, 0, 1), 0.0),
    ],
)
def test_a_bay_departs_from_an_even_division_by_its_share(grid, panel, off):
    """9 m at 3048 mm is three bays of 3 m, or one more of 2250 mm, which is as even."""
    assert departure(grid, panel) == pytest.approx(off)


@pytest.mark.parametrize(
    ("places", "span", "off"),
    [((0, 5500), 5240.0, 0.0), ((0, 5500), 5230.0, 1.0), ((0, 4950, 5500), 5240.0, 0.1)],
)
def test_one_bay_a_little_over_the_span_is_even(places, span, off):
    """5500 mm where 1.05 times the span is 5502 mm, or 5492 mm: there two bays are asked for, and it is twice as long."""
    assert departure(grid_of(places, (0, 3000)), CELL, span) == pytest.approx(off)


def test_a_wall_divides_the_span_that_is_to_be_even():
    """A wall at 4 m: two bays of 2 m beside it are even, and one of 3 m is not."""
    walled = grid_of((0, 2000, 4000, 9000), (0, 3000), walls=((0, 2, 0),))
    assert departure(walled, (0, 1, 0, 1)) == pytest.approx(0.0)
    bare = grid_of((0, 2000, 4000, 9000), (0, 3000))
    assert departure(bare, (0, 1, 0, 1)) > 0.1


@pytest.mark.parametrize("upright", [False, True])
def test_a_jog_smaller_than_lines_are_merged_still_wants_a_joint(upright):
    """150 mm at half of the upper edge, or of the right one; one of 300 mm is a corner of the grid itself."""

    def found(jog):
        outline = (
            (0, 0),
            (5000, 0),
            (5000, 5000 - jog),
            (2500, 5000 - jog),
            (2500, 5000),
            (0, 5000),
        )
        turned = tuple(p[::-1] for p in outline[::-1]) if upright else outline
        return jog_corners(GRID, region_of(Slab(outline=Ring(turned), thickness=101.6)))

    assert found(150.0) == [(5000.0, 2500.0) if upright else (2500.0, 5000.0)]
    assert found(300.0) == []


def test_costs_are_told_to_a_hundredth_of_a_millimetre():
    """What lies beyond decides nothing."""
    assert all(round(cost, 2) == cost for cost in costs().values())


CELL = (0, 1, 0, 1)
LANDING, PASSED = (round(feet(w), 1) for w in (WEIGHTS.landing, WEIGHTS.corner_passed))


def on_lines(**tables):
    """The grid with some tables of the first axis's lines set: {(line, piece): value}."""
    changed = {}
    for name, values in tables.items():
        first, second = (t.copy() for t in getattr(GRID, name))
        for at, value in values.items():
            first[at] = value
        changed[name] = (first, second)
    return replace(GRID, **changed)


def dearer_on(grid):
    plain, found = costs(), costs(grid=grid)
    return {b: round(found[b] - plain[b], 1) for b in plain if abs(found[b] - plain[b]) > 0.05}


@pytest.mark.parametrize(("length", "price"), [(100.0, 500.0), (152.4, 762.0), (152.5, 19813.0)])
def test_a_stub_of_wall_is_a_tee_and_more_is_a_wall_left_bare(length, price):
    """Up to 6 in (152.4 mm) five times its length; beyond, what is owed for it."""
    walled = on_lines(wall={(1, 0): length}, owed={(1, 0): 19813.0})
    assert dearer_on(walled) == {LOWER: price, WHOLE: price}


def test_a_bare_wall_costs_the_same_in_one_panel_and_in_two():
    halves = on_lines(
        wall={(1, 0): 2000.0, (1, 1): 2000.0}, owed={(1, 0): 19144.0, (1, 1): 19144.0}
    )
    found = dearer_on(halves)
    assert found[WHOLE] == found[LOWER] + found[UPPER]


def test_a_short_wall_is_a_wish_at_three_feet_a_foot():
    found = dearer_on(on_lines(wish={(1, 0): 1000.0, (1, 1): 500.0}))
    assert found == {LOWER: 3000.0, UPPER: 1500.0, WHOLE: 4500.0}


@pytest.mark.parametrize(("x", "held"), [(2500 - 50, False), (2500 - 51, True)])
def test_a_drain_is_in_a_panel_when_it_is_wholly_so(x, held):
    """100 mm wide: 50 mm from the side it touches it."""
    found = dearer(penetrations=(pipe(x, 1250),))
    assert (CELL in found) is held
    assert found[LOWER] == round(feet(WEIGHTS.penetration_auto), 1)


@pytest.mark.parametrize(("x", "feet_of_joint"), [(2200, 7.5), (2199, 1.5), (301, 1.5), (300, 7.5)])
def test_a_drain_within_its_clear_distance_of_a_side_costs_six_feet_more(x, feet_of_joint):
    assert dearer(penetrations=(pipe(x, 1250),))[CELL] == round(feet_of_joint * 304.8, 1)


@pytest.mark.parametrize(
    ("more", "price"),
    [
        ({"diameter": 76.1}, None),
        ({"diameter": 76.2}, 1.5 * 304.8),
        ({"diameter": 20.0, "kind": PenetrationKind.DRAIN}, 1.5 * 304.8),
        ({"diameter": 20.0, "meeting": Meeting.THROUGH}, 60 * 304.8),
        ({"diameter": 300.0, "meeting": Meeting.CLEAR}, None),
    ],
)
def test_what_a_pipe_amid_a_panel_costs(more, price):
    """From 76.2 mm (3 in) on a pipe asks for a joint; one to be run through asks most."""
    found = dearer(penetrations=(pipe(1250, 1250, **{"kind": PenetrationKind.PIPE, **more}),))
    assert found.get(CELL) == (None if price is None else round(price, 1))


@pytest.mark.parametrize(("x", "price"), [(2703, 150.0), (2704, 250.0)])
def test_a_column_within_eight_inches_of_a_line_stands_on_it(x, price):
    """203.2 mm: half of the 300 ft of a diamond that is passed, or 250 ft for one inside."""
    found = dearer(columns=(column(x, 1250),))
    assert found[(1, 2, 0, 1)] == round(price * 304.8, 1)
    assert (CELL in found) is (x == 2703)


@pytest.mark.parametrize(("y", "panels"), [(0.0, set()), (2703.0, {LEFT, WHOLE})])
def test_a_landing_is_met_by_a_line_within_eight_inches(y, panels):
    assert dearer(landings=((0.0, y),)) == dict.fromkeys(panels, LANDING)


def test_a_landing_further_from_a_line_costs_every_panel_with_that_side():
    upper = {(0, 1, 1, 2), UPPER, LEFT, WHOLE}
    assert dearer(landings=((0.0, 2704.0),)) == dict.fromkeys(upper, LANDING)


def strip(*path):
    return Wall(id="W1", path=path, thickness=100.0, bearing=True, strip_width=300.0)


def test_a_bearing_strip_costs_by_the_length_of_it_in_the_panel():
    """60 ft at once and ten times the length: 18288 + 50000 for the whole strip, half of it in each of two cells."""
    found = dearer(walls=(strip((1250, 0), (1250, 5000)),))
    assert found[CELL] == found[LOWER] == 34144.0
    assert found[LEFT] == found[WHOLE] == 68288.0
    part = dearer(walls=(strip((1250, 1000), (1250, 0)),))
    assert part == dict.fromkeys((CELL, LOWER, LEFT, WHOLE), 28288.0)
    assert not dearer(walls=(strip((0, 0), (2500, 2500)),))


@pytest.mark.parametrize(("x", "bare"), [(1892, True), (1893, False), (3107, False), (3108, True)])
def test_a_joint_beside_a_strip_lies_within_a_foot_and_a_half_of_it(x, bare):
    """457.2 mm (18 in) from the strip's side, 150 mm from its middle: 607.2 mm in all from the line at 2500."""
    found = dearer(walls=(strip((x, 0), (x, 5000)),))
    own = CELL if x < 2500 else (1, 2, 0, 1)
    assert (own in found) is bare
    assert LOWER in found


def test_a_strip_that_a_line_splits_is_in_neither_panel_but_by_more_than_half():
    """The line lies at the strip's middle: both panels hold half of it, and the line is its joint."""
    assert set(dearer(walls=(strip((2500, 0), (2500, 5000)),))) == {LOWER, UPPER, WHOLE}


def corner_at(jog):
    """The slab with its right half lower by a jog: a re-entrant corner on the upper edge."""
    top = [(5000, 0), (5000, 5000 - jog), (2500, 5000 - jog), (2500, 5000), (0, 5000), (0, 0)]
    return dearer(gross=Polygon(top))


def test_a_small_jog_wants_a_joint_at_its_corner():
    """150 ft for the corner and 2 ft for the row that runs on, of the panels that it lies amid a side of."""
    assert corner_at(203.0) == dict.fromkeys((UPPER, WHOLE), round(152 * 304.8, 1))


def test_a_larger_jog_is_passed_by_the_panels_beside_it():
    beside = {(0, 1, 1, 2), (1, 2, 1, 2), LEFT, RIGHT}
    assert corner_at(204.0) == dict.fromkeys(beside, PASSED)


@pytest.mark.parametrize(("x", "free"), [(2500.4, True), (2500.6, False)])
def test_a_column_on_a_side_breaks_nothing_to_half_a_millimetre(x, free):
    region = replace(REGION, columns=(column(x, 1250),))
    found = dict(zip(boxes(PANELS), breaks_nothing(GRID, region, PANELS, WEIGHTS), strict=True))
    assert found[(1, 2, 0, 1)] == free
    assert found[CELL]


@pytest.mark.parametrize(("length", "free"), [(152.4, True), (152.5, False)])
def test_a_stub_of_wall_breaks_nothing(length, free):
    """Lines at 1.5 m, so that the panel around the wall is 3 m by 2.5 m and else keeps every rule."""
    grid = grid_of((0, 1500, 3000), (0, 2500))
    panels = all_panels(grid, REGION, 5000.0)
    bare = grid.wall[0].copy()
    bare[1, 0] = length
    walled = replace(grid, wall=(bare, grid.wall[1]))
    found = dict(zip(boxes(panels), breaks_nothing(walled, REGION, panels, WEIGHTS), strict=True))
    assert found[(0, 2, 0, 1)] == free


@pytest.mark.parametrize(
    ("reach", "off"), [(9000.0, 0.0), (9144.4, 0.0), (9144.6, 1 / 3), (6096.4, 0.0), (6096.6, 0.5)]
)
def test_a_span_has_as_many_bays_as_its_length_asks_for_to_half_a_millimetre(reach, off):
    """Bays of 3048 mm: up to 9144.5 mm three are asked for, beyond it four, of which a third is a third too long."""
    bays = round(reach / 3048)
    grid = grid_of([reach * n / bays for n in range(bays + 1)], (0, 3000))
    assert departure(grid, (0, 1, 0, 1)) == pytest.approx(off)


@pytest.mark.parametrize(("share", "off"), [(0.0, 1 / 9), (0.5, 1 / 9), (0.51, 0.0)])
def test_a_wall_over_more_than_half_of_a_piece_divides_the_span(share, off):
    """A bay of 2 m in 9 m is one ninth less than a quarter; up to a wall it is a span of its own."""
    grid = grid_of((0, 2000, 9000), (0, 3000))
    part = grid.wall[0].copy()
    part[1, 0] = share * 3000
    assert departure(replace(grid, wall=(part, grid.wall[1])), CELL) == pytest.approx(off)


def test_a_pinned_joint_divides_the_span():
    grid = grid_of((0, 2000, 9000), (0, 3000), must=((0, 1, 0),))
    assert departure(grid, CELL) == pytest.approx(0.0)


def test_a_column_may_divide_the_span_and_a_bay_may_also_pass_it():
    """Bays to a column at 2 m are even, and so are those of 3 m over the whole 9 m beside it."""
    grid = grid_of((0, 2000, 3000, 9000), (0, 3000))
    region = replace(REGION, gross=Polygon([(0, 0), (9000, 0), (9000, 3000), (0, 3000)]))
    panels = all_panels(grid, region, 6000.0)
    panels = replace(panels, span=np.full(len(panels), 3048.0))
    columned = replace(region, columns=(column(2000, 1000),))
    plain, found = (
        dict(zip(boxes(panels), departures(grid, r, panels).tolist(), strict=True))
        for r in (region, columned)
    )
    assert plain[CELL] == pytest.approx(1 / 9)
    assert found[CELL] == pytest.approx(0.0)
    assert plain[(0, 2, 0, 1)] == found[(0, 2, 0, 1)] == pytest.approx(0.0)
