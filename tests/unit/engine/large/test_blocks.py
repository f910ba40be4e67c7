"""Lines that divide a large floor: no block too long, along columns where there are some, clear of keep-outs."""

from itertools import pairwise

import pytest
import shapely
from shapely.geometry import box as area

from kerfline.engine.large.blocks import BLOCK, blocks, separators
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import placed_region
from kerfline.engine.regions.region import X, Y
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, KeepOut, Slab
from kerfline.units import MM_PER_FOOT as FOOT
from kerfline.units import MM_PER_INCH
from unit.engine.plans import RULES, box, layout, ring, slab

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
