"""Lines that divide a large floor: no block too long, along columns where there are some, clear of keep-outs."""

from itertools import pairwise

import pytest
from shapely.geometry import box as area

from kerfline.engine.large.blocks import BLOCK, blocks, separators
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import placed_region
from kerfline.engine.regions.region import X, Y
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, KeepOut
from kerfline.units import MM_PER_FOOT as FOOT
from unit.engine.plans import RULES, box, slab

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
