"""Dividing large floors by the likeliest cut, and which corners a placement wraps."""

import pytest
import shapely
from shapely import MultiPolygon, Polygon, box

from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.placement.division import (
    MOST_PANELS,
    DayLimit,
    Sizes,
    divide,
    lane_count,
    members,
    outer_reentrant,
)
from kerfline.placement.panel_graph import borders
from shapes import feet, layout_of

FOOT = 304.8
ELL = Polygon([(0, 0), (2000, 0), (2000, 1000), (1000, 1000), (1000, 2000), (0, 2000)])


def hall(width, depth, bay):
    """The panels of a rectangle in square bays, feet, and where they meet."""
    slab = Slab(outline=Ring(feet((0, 0), (width, 0), (width, depth), (0, depth))), thickness=100.0)
    lines = [((x, 0), (x, depth)) for x in range(bay, width, bay)]
    lines += [((0, y), (width, y)) for y in range(bay, depth, bay)]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, feet(*li)) for li in lines])
    panels = [panel.polygon for panel in layout.panels]
    sizes = Sizes(volumes=[p.area for p in panels], polygons=panels, holes=MultiPolygon())
    return sizes, borders(layout)


def test_a_floor_beyond_the_search_is_cut_at_its_likeliest_lines():
    """315 panels, a seventh of them a day: seven alike, each whole, by less bulkhead than strips across take."""
    sizes, meets = hall(210, 150, 10)
    assert len(sizes.polygons) > MOST_PANELS
    limit = DayLimit(area=30 * 150 * FOOT**2)
    regions = divide(sizes, meets, limit, always_split=False)
    shapes = [shapely.union_all([sizes.polygons[i] for i in members(r)]) for r in regions]
    assert [shape.area for shape in shapes] == pytest.approx([30 * 150 * FOOT**2] * 7)
    assert all(isinstance(shape, Polygon) for shape in shapes)
    assert sorted(i for r in regions for i in members(r)) == list(range(315))
    home = {i: n for n, r in enumerate(regions) for i in members(r)}
    feet_of_bulkhead = sum(b.length for b in meets if home[b.first] != home[b.second]) / FOOT
    assert feet_of_bulkhead < 6 * 150


def test_the_re_entrant_corner_of_an_ell_is_wrapped():
    assert outer_reentrant(ELL, MultiPolygon()) == [(1000, 1000)]


def test_a_corner_at_an_opening_or_boxout_is_none_of_a_placement():
    at = MultiPolygon([box(1000, 1000, 1200, 1200)])
    near = MultiPolygon([box(1050, 1050, 1200, 1200)])
    assert outer_reentrant(ELL, at) == []
    assert outer_reentrant(ELL, near) == [(1000, 1000)]


@pytest.mark.parametrize(
    ("width", "count"), [(10, 1), (16, 1), (16.3, 1), (16.4, 2), (32, 2), (33, 3)]
)
def test_passes_of_a_screed_of_16_ft(width, count):
    """An inch or so over its reach is lapped."""
    assert lane_count(width, 16) == count
