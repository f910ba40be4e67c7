"""Joints brought together out of the pieces that are drawn."""

import pytest

from drawn_curves import bow, line
from kerfline.files.drawing.joint_pieces import BRIDGED, DOUBLE, brought_together
from kerfline.model.slab import JointKind
from kerfline.units import Display


def together(*curves):
    return brought_together(list(curves), JointKind.CONTROL, Display.METRIC)


def test_a_line_is_a_joint_of_its_kind():
    (joint,), notes = together(line("J", (0, 0), (6000, 0)))
    assert joint.line == ((0, 0), (6000, 0))
    assert joint.kind is JointKind.CONTROL
    assert (joint.repairs, joint.dash_gap, notes) == ((), 0.0, [])


def test_nothing_drawn_is_no_joint():
    assert together() == ([], [])


@pytest.mark.parametrize(("gap", "count"), [(BRIDGED - 0.1, 1), (BRIDGED + 1, 2)])
def test_a_gap_of_two_inches_is_closed_and_told(gap, count):
    joints, _ = together(line("J", (0, 0), (3000, 0)), line("J", (3000 + gap, 0), (6000, 0)))
    assert len(joints) == count
    if count == 1:
        assert joints[0].repairs == ("joined from 2 pieces in one line, the widest gap 51 mm",)


def test_a_joint_drawn_twice_counts_once():
    joints, notes = together(line("J", (0, 0), (6000, 0)), line("J", (1000, 0), (5000, 0)))
    assert [j.line for j in joints] == [((0, 0), (6000, 0))]
    assert notes == ["1 joint drawn twice, in all or part; each was taken once."]


@pytest.mark.parametrize(("apart", "count"), [(DOUBLE, 1), (DOUBLE + 1, 2)])
def test_the_two_sides_of_a_joint_former_are_read_at_their_centre(apart, count):
    joints, notes = together(line("J", (0, 0), (6000, 0)), line("J", (0, apart), (6000, apart)))
    assert len(joints) == count
    if count == 1:
        assert joints[0].line[0][1] == pytest.approx(DOUBLE / 2)
        assert notes == [
            "1 pair of parallel lines up to 65 mm apart, taken as joint formers and read at their centre."
        ]


def test_lines_beside_each_other_for_a_short_part_are_two_joints():
    assert len(together(line("J", (0, 0), (6000, 0)), line("J", (3000, 50), (9000, 50)))[0]) == 2


def test_a_corner_parts_a_polyline_into_two_joints():
    joints, _ = together(line("J", (0, 0), (6000, 0), (6000, 4000)))
    assert sorted(j.shape.length for j in joints) == [4000, 6000]


def test_an_arc_that_goes_on_from_a_line_is_one_joint():
    joints, _ = together(line("J", (-3000, 0), (0, 0)), bow("J", (0, 0), (2000, 2000), 0.41421356))
    (joint,) = joints
    assert joint.shape.length == pytest.approx(3000 + 2000 * 3.14159265 / 2, rel=1e-3)


def test_arcs_in_pieces_on_one_circle_are_joined():
    one = bow("J", (1000, 0), (0, 1000), 0.41421356)
    other = bow("J", (0, 1000), (-1000, 0), 0.41421356)
    (joint,), _ = together(one, other)
    assert joint.shape.length == pytest.approx(3141.6, rel=1e-3)


def test_two_arcs_about_one_middle_are_a_curved_former():
    joints, notes = together(
        bow("J", (3000, 0), (-3000, 0), 1.0), bow("J", (3050, 0), (-3050, 0), 1.0)
    )
    assert len(joints) == 1
    assert joints[0].shape.length == pytest.approx(3.14159 * 3025, rel=1e-3)
    assert notes[0].startswith("1 pair of parallel lines up to 50 mm apart")
