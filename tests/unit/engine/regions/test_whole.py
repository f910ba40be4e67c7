"""Keep-outs that no panel within the span can hold: the concrete stays whole there, with joints around it."""

import pytest
import shapely

from kerfline.engine.regions.whole import whole_areas
from kerfline.model.layout import Reason
from kerfline.model.slab import KeepOut, Zone
from kerfline.units import MM_PER_FOOT as FOOT
from unit.engine.plans import box, feet, layout, region_of, ring, slab

TAPERED = ((0, 0), (60, 0), (45, 40), (0, 40))


def kept(*corners):
    """Keep-outs as boxes: left, bottom, right, top, feet."""
    rings = [feet((a, b), (c, b), (c, d), (a, d)) for a, b, c, d in corners]
    return tuple(
        KeepOut(id=f"K{n}", outline=ring(*((x / FOOT, y / FOOT) for x, y in points)))
        for n, points in enumerate(rings, 1)
    )


def boxes(plan):
    """The areas that stay whole, as boxes in feet to a tenth."""
    areas = whole_areas(region_of(plan))
    return [tuple(round(edge / FOOT, 1) for edge in area.bounds) for area in areas]


@pytest.mark.parametrize(
    ("given", "found"),
    [
        # spans of 10 ft, and half a foot more: what a panel holds is left to the search
        ((20, 10, 30, 20), []),
        ((20, 10, 31, 20), [(19.8, 9.8, 31.2, 20.2)]),
        ((20, 10, 30, 21), [(19.8, 9.8, 30.2, 21.2)]),
        # a strip of less than 2 ft to the edge would be too narrow for a panel
        ((2.1, 10, 30, 20), [(0.0, 9.8, 30.2, 20.2)]),
        ((2.4, 10, 30, 20), [(2.2, 9.8, 30.2, 20.2)]),
        ((20, 6, 45, 34), [(19.8, 5.8, 45.2, 34.2)]),
        # most of it lies beyond the slab
        ((55, 10, 90, 20), []),
    ],
)
def test_a_keep_out_longer_than_a_panel_stays_whole(given, found):
    plan = slab(box(60, 40), keep_outs=kept(given))
    assert boxes(plan) == [pytest.approx(one, abs=0.1) for one in found]


def test_two_with_a_strip_between_them_stay_whole_as_one():
    near = slab(box(80, 40), keep_outs=kept((20, 10, 35, 20), (36.5, 12, 55, 25)))
    assert boxes(near) == [pytest.approx((19.8, 9.8, 55.2, 25.2), abs=0.1)]
    apart = slab(box(80, 40), keep_outs=kept((20, 10, 35, 20), (45, 12, 60, 25)))
    assert len(boxes(apart)) == 2


@pytest.mark.parametrize("given", [(10, 10, 35, 30), (42, 10, 70, 30), (-1, -1, 61, 41)])
def test_no_joint_enters_a_large_keep_out_of_a_slab_that_is_not_square(given):
    plan = slab(ring(*TAPERED), keep_outs=kept(given))
    found = layout(plan)
    inside = plan.keep_outs[0].outline.polygon.buffer(-1.0)
    assert not shapely.union_all([j.line for j in found.joints]).intersects(inside)
    assert sum(p.polygon.area for p in found.panels) == pytest.approx(plan.concrete.area, rel=1e-6)
    beside = [j for j in found.joints if j.reason is Reason.KEEP_OUT]
    assert all(len(j.line.coords) == 2 for j in beside)  # a saw cuts no corner
    assert bool(beside) is (len(found.panels) > 1)
    others = [p.polygon for p in found.panels if not p.polygon.intersects(inside)]
    assert all(shapely.minimum_rotated_rectangle(p).length < 4 * 12.6 * FOOT for p in others)


def test_each_side_of_a_zone_is_a_joint_of_its_own_too():
    """Around a zone amid a slab that is not square the border was one joint that turned three corners."""
    zone = Zone(
        id="Z1",
        outline=ring((10, 10), (35, 10), (35, 30), (10, 30)),
        thickness=228.6,
        joint_at_border=True,
    )
    found = layout(slab(ring(*TAPERED), zones=(zone,)))
    border = [j for j in found.joints if j.reason is Reason.ZONE]
    assert len(border) == 4
    assert all(len(j.line.coords) == 2 for j in border)
