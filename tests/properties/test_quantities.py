"""What holds for the take-off of every slab."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely.ops import split

from kerfline.geometry.ring import Ring
from kerfline.model.day import Concrete, Ledger
from kerfline.model.slab import Edge, EdgeKind, Slab, Zone
from kerfline.quantities.concrete import concrete_body
from kerfline.quantities.order import delivery
from kerfline.units import MM3_PER_M3, MM3_PER_YD3, Display
from strategies import CELL, convex_plans, orthogonal_plans, shifted, slabs, turned
from turndown import edge_volume

THICKNESS = 100.0
FEW = settings(max_examples=30)
sections = st.tuples(
    st.floats(100, 300), st.floats(50, 350), st.sampled_from([0.0, 0.25, 0.5, 1.0])
)
"""Bottom width, depth below the slab and slope: together narrower than half a cell."""


def edged(outline, section):
    """A slab with one turned-down edge all round."""
    width, height, slope = section
    return Slab(
        outline=outline,
        thickness=THICKNESS,
        edges=tuple(
            Edge(
                ring=0,
                segment=i,
                kind=EdgeKind.TURNDOWN,
                depth=THICKNESS + height,
                width=width,
                slope=slope,
            )
            for i in range(len(outline.points))
        ),
    )


@FEW
@given(orthogonal_plans(), sections)
def test_a_rectilinear_edge_is_its_area_times_p_less_eight_centroids(plan, section):
    """Pappus with four net corners, whatever the outline."""
    width, height, slope = section
    found = concrete_body(edged(Ring.of(plan), section)).by_component()["turned-down edge"]
    assert found == pytest.approx(edge_volume(plan.length, width, height, slope), rel=1e-6)


@FEW
@given(orthogonal_plans(), sections, st.floats(0, 90))
def test_turning_does_not_change_the_concrete(plan, section, degrees):
    """The same slab at any angle."""
    slab = edged(Ring.of(plan), section)
    there = replace(turned(slab, degrees), edges=slab.edges)
    before, after = concrete_body(slab).volume(), concrete_body(there).volume()
    assert after == pytest.approx(before, rel=1e-6)


@FEW
@given(slabs(), st.floats(-1e5, 1e5), st.floats(-1e5, 1e5))
def test_moving_does_not_change_the_concrete(slab, dx, dy):
    """The same slab anywhere, walls, columns and openings with it."""
    before, after = concrete_body(slab).volume(), concrete_body(shifted(slab, dx, dy)).volume()
    assert after == pytest.approx(before, rel=1e-6)


@FEW
@given(slabs(), st.floats(0.1, 0.9), st.booleans())
def test_volume_is_additive_over_regions(slab, share, upright):
    """Cut the plan in two anywhere: the two sum to the whole, component by component."""
    body = concrete_body(slab)
    x0, y0, x1, y1 = slab.concrete.bounds
    x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
    line = [(x, y0 - 1), (x, y1 + 1)] if upright else [(x0 - 1, y), (x1 + 1, y)]
    pieces = list(split(shapely.box(x0, y0, x1, y1), LineString(line)).geoms)
    parts = [body.by_component(piece) for piece in pieces]
    for name, whole in body.by_component().items():
        assert sum(p.get(name, 0.0) for p in parts) == pytest.approx(whole, rel=1e-6, abs=1.0)


@FEW
@given(orthogonal_plans(), sections, st.floats(0.2, 0.8))
def test_volume_is_additive_over_zones(plan, section, share):
    """A slab all of one zone is the slab of that thickness; two zones sum to the parts."""

    x0, y0, x1, y1 = plan.bounds
    x = x0 + share * (x1 - x0)
    left, right = shapely.box(x0, y0, x, y1), shapely.box(x, y0, x1, y1)
    slab = Slab(
        outline=Ring.of(plan),
        thickness=THICKNESS,
        zones=(
            Zone(id="Z1", outline=Ring.of(left), thickness=150.0),
            Zone(id="Z2", outline=Ring.of(right), thickness=75.0),
        ),
    )
    expected = 150.0 * plan.intersection(left).area + 75.0 * plan.intersection(right).area
    assert concrete_body(slab).volume() == pytest.approx(expected, rel=1e-9)


@FEW
@given(convex_plans(), sections)
def test_an_edge_only_adds_and_never_more_than_its_run_allows(plan, section):
    """On any convex outline the edge holds less than its section along the whole perimeter."""
    width, height, slope = section
    slab = edged(Ring.of(plan), section)
    parts = concrete_body(slab).by_component()
    area = (2 * width + slope * height) * height / 2
    assert 0 < parts["turned-down edge"] < area * plan.length
    assert parts["slab"] == pytest.approx(THICKNESS * plan.area, rel=1e-9)


@FEW
@given(st.floats(0.1, 500), st.floats(0, 0.2))
def test_orders_in_yards_and_metres_agree(yards, share):
    """Both cover the gross volume, each by less than one quarter of its unit."""
    concrete = Concrete(allowance=share)
    for display, unit in (
        (Display.FEET_INCHES, MM3_PER_YD3),
        (Display.METRIC, MM3_PER_M3),
    ):
        order = delivery(yards * MM3_PER_YD3, concrete, display, Ledger())
        assert order.gross == pytest.approx(yards * MM3_PER_YD3 * (1 + share))
        assert -1e-5 * unit <= order.ordered - order.gross < 0.2501 * unit
        assert (order.loads - 1) * order.truck < order.ordered <= order.loads * order.truck + 1
        assert sum(order.sizes) == pytest.approx(order.ordered)
        assert all(0 < size <= order.truck + 1 for size in order.sizes)


def test_the_strategies_leave_room_for_the_edges():
    """The widest edge drawn above stays under half the narrowest leg."""
    assert CELL / 2 > 300 + 1.0 * 350
