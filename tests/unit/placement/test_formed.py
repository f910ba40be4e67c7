"""Joints between placements are formed, joints within one are sawn, and one truth holds for both."""

import pytest
import shapely

from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, PourChoice, Side, SteelChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab, Wall
from kerfline.placement.formed import in_placements
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from shapes import feet, layout_of, workshop_layout, workshop_slab

ROOM = Slab(outline=Ring(feet((0, 0), (30, 0), (30, 20), (0, 20))), thickness=101.6)
"""Four bays of 15 x 10 ft: P1 and P2 below, P3 and P4 above."""


def layout():
    lines = [feet((0, 10), (30, 10)), feet((15, 0), (15, 20))]
    return layout_of(ROOM, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])


def ends(joint):
    return [tuple(round(c / MM_PER_FOOT, 6) for c in at) for at in joint.path]


def named(parted, kind):
    return {j.id: ends(j) for j in parted.joints if j.kind is kind}


def test_one_placement_changes_nothing():
    assert in_placements(layout(), ROOM, [0, 0, 0, 0], renumber=True) == layout()


def test_one_bay_placed_alone_forms_half_of_each_joint():
    """The other halves are sawn; nothing is lost and nothing doubled."""
    parted = in_placements(layout(), ROOM, [0, 1, 1, 1], renumber=True)
    formed = named(parted, JointKind.CONSTRUCTION)
    assert formed == {"CNTJ1": [(15, 0), (15, 10)], "CNTJ2": [(0, 10), (15, 10)]}
    sawn = named(parted, JointKind.CONTROL)
    assert sawn == {"J1": [(15, 10), (15, 20)], "J2": [(15, 10), (30, 10)]}
    assert all(j.depth == 0 for j in parted.joints if j.kind is JointKind.CONSTRUCTION)
    assert all(j.note.startswith("between placements; ") for j in parted.joints if j.depth == 0)


def test_a_line_beyond_a_construction_joint_is_another_joint():
    """Its concrete is of another age: two passes, two names."""
    parted = in_placements(layout(), ROOM, [0, 0, 1, 1], renumber=True)
    assert named(parted, JointKind.CONSTRUCTION) == {"CNTJ1": [(0, 10), (30, 10)]}
    assert named(parted, JointKind.CONTROL) == {
        "J1": [(15, 0), (15, 10)],
        "J2": [(15, 10), (15, 20)],
    }


def test_names_that_somebody_gave_stay():
    """What is cut off takes the next free name, and a second time nothing changes."""
    parted = in_placements(layout(), ROOM, [0, 0, 1, 1], renumber=False)
    assert [j.id for j in parted.joints] == ["CNTJ1", "J2", "J3"]
    assert in_placements(parted, ROOM, [0, 0, 1, 1], renumber=False) == parted


def test_what_lies_under_a_wall_is_shared_out():
    """A wall over the left 10 ft of the joint across hides 10 ft of the left half and none of the right."""
    wall = Wall(id="W1", path=feet((0, 10), (10, 10)), thickness=100.0)
    slab = Slab(outline=ROOM.outline, thickness=ROOM.thickness, walls=(wall,))
    parted = in_placements(layout(), slab, [0, 1, 1, 1], renumber=True)
    hidden = {j.id: j.hidden / MM_PER_FOOT for j in parted.joints}
    assert hidden == pytest.approx({"CNTJ1": 0, "CNTJ2": 10, "J1": 0, "J2": 0}, abs=0.2)


def test_the_day_s_limit_divides_and_the_dowels_are_those_of_the_table():
    """UFC 3-260-02, table 12-8, under 8 in: 3/4 in x 16 in at 12 in; 24 ft take 24 of them, 6 in off each end."""
    day = DayInput(
        pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)),
        steel=SteelChoice(dowels="ufc-3-260-02"),
    )
    parted = placed_layout(workshop_slab(), workshop_layout(), day, Display.FEET_INCHES)
    formed = [j for j in parted.joints if j.kind is JointKind.CONSTRUCTION]
    assert len(formed) >= 2
    assert parted.joint_length == pytest.approx(workshop_layout().joint_length, abs=1.0)
    for joint in formed:
        inches = (
            joint.dowels.diameter / 25.4,
            joint.dowels.length / 25.4,
            joint.dowels.spacing / 25.4,
        )
        assert inches == pytest.approx((0.75, 16, 12))
        assert joint.dowels.count == int(joint.length / MM_PER_FOOT - 1 + 1e-9) + 1
    again = placed_layout(workshop_slab(), parted, day, Display.FEET_INCHES, renumber=False)
    assert again == parted


def test_no_two_joints_lie_on_each_other():
    """Whatever the division, the joints cover the same ground once."""
    for volume in (5, 8, 12, 20):
        day = DayInput(pours=PourChoice(volume=volume * MM3_PER_YD3, access=(Side.LEFT,)))
        parted = placed_layout(workshop_slab(), workshop_layout(), day, Display.FEET_INCHES)
        whole = shapely.union_all([j.line for j in parted.joints])
        assert whole.length == pytest.approx(parted.joint_length, abs=1.0)
        assert len({j.id for j in parted.joints}) == len(parted.joints)
