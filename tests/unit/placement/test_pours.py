"""Dividing the workshop and a hall into placements."""

import pytest
from shapely import LineString

from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, Delivering, Ledger, PourChoice, Side
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.placement.panel_graph import borders, chains
from kerfline.placement.pours import plan_pours, reach_notes
from kerfline.quantities.concrete import concrete_body
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from shapes import feet, layout_of, workshop_layout, workshop_slab

YARD = MM3_PER_YD3


def plan(slab, layout, ledger=None, **choice):
    body = concrete_body(slab)
    day = DayInput(starts=(7.0,), pours=PourChoice(**choice))
    parted = placed_layout(slab, layout, day, Display.FEET_INCHES)
    return plan_pours(slab, parted, day, 20 * YARD, body.volume, ledger or Ledger())


def hall(width, depth, bay=15, thickness=152.4):
    """A rectangle with a square grid of joints, feet."""
    slab = Slab(
        outline=Ring(feet((0, 0), (width, 0), (width, depth), (0, depth))), thickness=thickness
    )
    lines = [((x, 0), (x, depth)) for x in range(bay, width, bay)]
    lines += [((0, y), (width, y)) for y in range(bay, depth, bay)]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, feet(*li)) for li in lines])


def test_without_a_limit_only_planned_construction_joints_divide():
    """The workshop's own construction joint makes two placements of one day, and the limit is asked for."""
    ledger = Ledger()
    found = plan(workshop_slab(), workshop_layout(), ledger)
    assert [p.day for p in found.pours] == [1, 1]
    assert [j.length / MM_PER_FOOT for j in found.joints] == pytest.approx([24])
    assert any("day.pours.volume" in q for q in ledger.questions)
    assert any("day.pours.access" in q for q in ledger.questions)


def test_a_hall_is_placed_in_equal_strips():
    """180 x 120 ft at 6 in is 400 yd3; 80 a day makes six strips of 30 ft along the planned joints."""
    found = plan(*hall(180, 120), volume=80 * YARD, screed=16 * MM_PER_FOOT, access=(Side.LEFT,))
    assert [p.volume / YARD for p in found.pours] == pytest.approx([400 / 6] * 6)
    assert [p.day for p in found.pours] == [1, 2, 3, 4, 5, 6]
    assert [len(p.clock.lanes) for p in found.pours] == [2] * 6
    places = sorted(j.path[0][0] / MM_PER_FOOT for j in found.joints)
    assert places == pytest.approx([30, 60, 90, 120, 150])


def test_placing_backs_towards_the_trucks():
    """Farthest strip first, and each strip from its far end."""
    found = plan(*hall(120, 60), volume=40 * YARD, access=(Side.BOTTOM, Side.LEFT))
    reach = [min(p.area.centroid.x, p.area.centroid.y) for p in found.pours]
    assert reach == sorted(reach, reverse=True)


def test_no_placement_of_several_wraps_the_corner():
    """The notch of the workshop is met by a construction joint."""
    found = plan(workshop_slab(), workshop_layout(), volume=16 * YARD, access=(Side.BOTTOM,))
    assert all(not p.corners for p in found.pours)
    assert plan(workshop_slab(), workshop_layout()).pours[0].corners == ()


def ell():
    """An L that fits one day, with a joint from its corner."""
    slab = Slab(
        outline=Ring(feet((0, 0), (30, 0), (30, 15), (15, 15), (15, 30), (0, 30))), thickness=101.6
    )
    lines = [feet((15, 0), (15, 15)), feet((0, 15), (15, 15))]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.CORNER, li) for li in lines])


def test_a_small_ell_is_one_placement_that_names_its_corner():
    """No joint is forced on a slab of one day, but the corner is told."""
    found = plan(*ell(), volume=30 * YARD)
    assert len(found.pours) == 1
    (corner,) = found.pours[0].corners
    assert corner == pytest.approx(feet((15, 15))[0])


def test_a_small_ell_is_divided_where_the_user_wants_it():
    """``always_split`` cuts at the corner; both parts go in one day, one after the other."""
    found = plan(*ell(), volume=30 * YARD, always_split=True)
    assert len(found.pours) == 2
    assert all(not p.corners for p in found.pours)
    assert found.pours[1].start == pytest.approx(found.pours[0].end)


def test_a_limit_by_area_and_by_hours():
    """Twelve bays of 225 ft2 in days of 900; 20 yd3/h for 1 h is 20 yd3."""
    by_area = plan(*hall(60, 45), area=900 * MM_PER_FOOT**2, access=(Side.LEFT,))
    assert max(p.area.area for p in by_area.pours) <= 900.01 * MM_PER_FOOT**2
    assert len(by_area.pours) == 3
    by_hours = plan(*hall(60, 45), hours=1.0, access=(Side.LEFT,))
    assert all(p.volume <= 20.001 * YARD for p in by_hours.pours)


def test_a_panel_over_the_limit_stands_alone():
    """Nothing can be cut off it along a joint; the others go in days of their own."""
    found = plan(*hall(30, 15), volume=2 * YARD)
    assert [len(p.panels) for p in found.pours] == [1, 1]


def test_joints_in_one_line_are_one_chain_across_a_boxout():
    """Two stretches that part at a column are cut as one; a parallel line is another."""
    lines = [feet((0, 10), (9, 10)), feet((11, 10), (20, 10)), feet((0, 12), (20, 12))]
    lines.append(feet((10, 0), (10, 9)))
    first, second, other, across = chains([LineString(p) for p in lines])
    assert first == second
    assert len({first, other, across}) == 3


def test_borders_know_their_length_and_chain():
    """Four bays about one crossing share four borders on two chains."""
    _, layout = hall(30, 30)
    found = borders(layout)
    assert len(found) == 4
    assert len({b.chain for b in found}) == 2
    assert [b.length / MM_PER_FOOT for b in found] == pytest.approx([15] * 4, abs=0.01)


def test_pinned_joints_cut_the_slab_the_same_way_again():
    """The construction joints found once, planned as such, give the same placements."""
    slab, layout = hall(60, 45)
    first = plan(slab, layout, volume=30 * YARD, access=(Side.LEFT,))
    lines = [(JointKind.CONSTRUCTION, Reason.PINNED, j.path) for j in first.joints]
    kept = [
        (j.kind, j.reason, j.path)
        for j in layout.joints
        if not any(LineString(k.path).buffer(1).covers(j.line) for k in first.joints)
    ]
    again = plan(slab, layout_of(slab, [*lines, *kept]), volume=30 * YARD, access=(Side.LEFT,))
    for then, now in zip(first.pours, again.pours, strict=True):
        assert now.area.bounds == pytest.approx(then.area.bounds)


def test_the_farthest_lane_comes_first_so_bottom_and_top_differ():
    """Two lanes of 30 ft along 120 ft: from the bottom the upper lane is placed first, from the top the lower."""
    for side, low in ((Side.BOTTOM, 30), (Side.TOP, 0)):
        found = plan(*hall(120, 60), screed=30 * MM_PER_FOOT, access=(side,))
        (pour,) = found.pours
        assert len(pour.clock.lanes) == 2
        world = 1 if pour.clock.angle % 360 < 90 else -1
        assert pour.clock.lanes[0].low * world / MM_PER_FOOT == pytest.approx(
            low if world == 1 else low + 30, abs=0.01
        )
        assert pour.width / MM_PER_FOOT == pytest.approx(60)


def test_several_starts_in_a_day():
    """The second placement waits for its own start, and never for less than the end of the first."""
    slab, layout = ell()
    body = concrete_body(slab)

    def starts(*hours):
        day = DayInput(starts=hours, pours=PourChoice(volume=30 * YARD, always_split=True))
        parted = placed_layout(slab, layout, day, Display.FEET_INCHES)
        return [
            p.start for p in plan_pours(slab, parted, day, 20 * YARD, body.volume, Ledger()).pours
        ]

    assert starts(7.0, 13.0) == [7.0, 13.0]
    first, second = starts(7.0)
    assert second == starts(7.0, 7.1)[1] > 7.1
    assert first == 7.0


def test_what_lies_out_of_reach_of_the_chute_is_told():
    """60 ft deep from the bottom: 20 ft by chute, 30 by conveyor; a pump reaches all, a strip of 20 ft is in reach."""

    def notes(delivery, depth=60, **choice):
        found = plan(*hall(60, depth, bay=10), access=(Side.BOTTOM,), delivery=delivery, **choice)
        given = PourChoice(delivery=delivery, **choice)
        return " ".join(reach_notes(found, given, Display.FEET_INCHES, Ledger()))

    assert "reaches up to 60'-0\" from the side that trucks come to" in notes(Delivering.CHUTE)
    assert "the conveyor reaches 30'-0\"" in notes(Delivering.CONVEYOR)
    assert notes(Delivering.PUMP) == ""
    assert notes(Delivering.CHUTE, depth=20) == ""
    assert notes(Delivering.CHUTE, reach=60 * MM_PER_FOOT) == ""
