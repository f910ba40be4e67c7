"""Keep-outs that no panel within the span can hold: the concrete stays whole there, with joints around it."""

from dataclasses import replace

import pytest
import shapely

from kerfline.engine import method
from kerfline.engine.effort import Effort
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.region import Cut, PlacedRegion, RegionLayout
from kerfline.engine.whole import _told, beside, whole_areas
from kerfline.model.layout import Reason, Status
from kerfline.model.slab import KeepOut, Zone
from kerfline.units import MM_PER_FOOT as FOOT
from unit.engine.plans import box, feet, layout, region_of, ring, slab, wall

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
        # no joint passes between the two halves
        ((20, 10, 25, 20, 25.1, 10, 31, 20), [(19.8, 9.8, 31.2, 20.2)]),
        ((20, 10, 25, 20, 25.2, 10, 31, 20), []),
    ],
)
def test_a_keep_out_longer_than_a_panel_stays_whole(given, found):
    plan = slab(box(60, 40), keep_outs=kept(*(given[n : n + 4] for n in range(0, len(given), 4))))
    assert boxes(plan) == [pytest.approx(one, abs=0.1) for one in found]


def test_two_with_a_strip_between_them_stay_whole_as_one():
    near = slab(box(80, 40), keep_outs=kept((20, 10, 35, 20), (36.5, 12, 55, 25)))
    assert boxes(near) == [pytest.approx((19.8, 9.8, 55.2, 25.2), abs=0.1)]
    apart = slab(box(80, 40), keep_outs=kept((20, 10, 35, 20), (45, 12, 60, 25)))
    assert len(boxes(apart)) == 2


@pytest.mark.parametrize(
    ("given", "found"),
    [
        # 12'-4" long it must be 8'-3" wide: as much more on both sides, or from the border on
        ((20, 10, 32, 14), (19.8, 7.7, 32.2, 16.2)),
        ((10, 8, 14, 20), (7.7, 7.8, 16.2, 20.2)),
        ((20, 4, 32, 8), (19.8, 0.0, 32.2, 8.4)),
        ((20, 32, 32, 36), (19.8, 31.6, 32.2, 40.0)),
        ((20, 10, 32, 18), (19.8, 9.8, 32.2, 18.2)),
        # 15'-6" long 10'-4" wide, but 16 ft long wider than a panel may be
        ((20, 15, 35.2, 19), (19.8, 11.7, 35.3, 22.3)),
        ((20, 15, 35.8, 19), (19.8, 14.8, 36.0, 19.2)),
    ],
)
def test_what_stays_whole_is_wide_enough_for_its_length_where_a_panel_may_be_so_wide(given, found):
    assert boxes(slab(box(60, 40), keep_outs=kept(given))) == [pytest.approx(found, abs=0.1)]


def test_it_stays_narrow_where_the_slab_is():
    """Five feet wide, where 8'-3" are asked for."""
    plan = slab(box(60, 5), keep_outs=kept((20, 0, 32, 2)))
    assert boxes(plan) == [pytest.approx((19.8, 0.0, 32.2, 2.2), abs=0.1)]


@pytest.mark.parametrize(("zone", "whole"), [((0, 0, 24, 40), True), ((35, 0, 10, 40), False)])
def test_the_strictest_zone_that_a_keep_out_reaches_into_decides(zone, whole):
    """14 ft long where the slab, 6 in thick, may be 15 ft and the zone, 4 in, 10 ft."""
    x, y, wide, high = zone
    thin = Zone(id="Z1", outline=box(wide, high, x, y), thickness=101.6, joint_at_border=False)
    plan = slab(box(60, 40), zones=(thin,), keep_outs=kept((20, 10, 34, 20)))
    plan = replace(plan, thickness=152.4)
    assert bool(boxes(plan)) is whole


def test_the_floor_around_is_one_piece_or_what_is_left_on_either_side():
    """A strip across the slab parts it; what stands on each side goes with it."""
    walls = (wall("W1", (10, 0), (10, 20)), wall("W2", (50, 0), (50, 20)))
    region = region_of(slab(box(60, 40), walls=walls, keep_outs=kept((20, 0, 35, 40))))
    left, right = beside(region, whole_areas(region))
    assert [[w.id for w in part.walls] for part in (left, right)] == [["W1"], ["W2"]]
    around = region_of(slab(box(60, 40), keep_outs=kept((20, 10, 35, 20))))
    (piece,) = beside(around, whole_areas(around))
    assert len(piece.gross.interiors) == 1


def test_places_where_joints_arrive_stay_with_the_piece_that_they_lie_on():
    region = region_of(slab(box(60, 40), keep_outs=kept((20, 0, 35, 40))))
    x0, y0, x1, _ = region.gross.bounds
    ends = ((x0 + 1000.0, y0), (x1 - 1000.0, y0))
    parts = beside(replace(region, landings=ends), whole_areas(region))
    assert [part.landings for part in parts] == [ends[:1], ends[1:]]


def test_joints_beside_one_and_from_its_corners_say_so_on_a_grid_too():
    found = layout(slab(box(60, 40), keep_outs=kept((20, 10, 35, 22))))
    told = [j.note for j in found.joints if j.reason is Reason.KEEP_OUT]
    assert told == ["beside an area where no saw may go"] * 4
    assert not any("opening" in j.note or "re-entrant" in j.note for j in found.joints)


def test_walls_over_one_are_told_as_far_as_they_stand_on_it():
    """Of W1 10 ft 2 in of 20 ft lie over it, W2 lies over it whole, W3 is beside it."""
    walls = (
        wall("W1", (25, 0), (25, 20)),
        wall("W2", (30, 11), (30, 19)),
        wall("W3", (50, 0), (50, 20)),
    )
    found = layout(slab(box(60, 40), walls=walls, keep_outs=kept((20, 10, 35, 20)))).walls_left
    why = "a joint under wall {} would cross an area where no joint may go"
    assert found["W1"].endswith(", " + why.format("W1"))
    assert found["W1"].startswith("along {3098.80}")
    assert found["W2"] == why.format("W2")
    assert "W3" not in found


def test_effort_goes_to_the_pieces_by_their_areas(monkeypatch):
    """A strip leaves 20 ft of 60 on one side and 25 ft on the other."""
    seen = []

    def laid_out(place, options, effort):
        seen.append((place.region.gross.area, effort.left))
        return RegionLayout(cuts=(), cost=1000.0, bound=900.0, status=Status.TIME_LIMIT)

    monkeypatch.setattr(method, "_best_layout", laid_out)
    region = region_of(slab(box(60, 40), keep_outs=kept((20.2, 0, 34.8, 40))))
    place = PlacedRegion(region=region)
    found = method.region_layout(place, EngineOptions(), Effort(9.0))
    (one, first), (other, second) = seen
    assert first / second == pytest.approx(one / other)
    assert first + second == pytest.approx(9.0)
    assert found.status is Status.PARTS
    beside_it = sum(cut.line.length for cut in found.cuts)
    assert beside_it == pytest.approx(2 * 40 * FOOT)
    assert (found.cost, found.bound) == (beside_it + 2000.0, beside_it + 1800.0)


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


@pytest.mark.parametrize(
    ("reason", "at", "told"),
    [
        (Reason.CORNER, (1000.0, 0.0), True),
        (Reason.OPENING, (1000.0, 0.0), True),
        (Reason.CORNER, (1001.0, 0.0), False),
        (Reason.CORNER, None, False),
        (Reason.COLUMN, (1000.0, 0.0), False),
    ],
)
def test_a_joint_from_a_corner_of_what_stays_whole_says_so(reason, at, told):
    """One from a corner of the slab beside it, or from a column there, keeps its own reason."""
    cut = Cut(path=((1000.0, 0.0), (5000.0, 0.0)), reason=reason, at=at)
    found = _told(cut, [shapely.box(0, 0, 1000, 2000)])
    assert found.reason is (Reason.KEEP_OUT if told else reason)
    assert bool(found.note) is told
