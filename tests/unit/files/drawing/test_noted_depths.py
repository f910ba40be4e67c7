"""Depths of cut in the words that drawings use for them."""

import pytest

from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.noted_depths import noted_depths, with_depths
from kerfline.files.slab_parts import with_shares_taken
from kerfline.geometry.ring import Ring
from kerfline.model.slab import GivenJoint, JointKind, Slab, Zone
from kerfline.units import Display

INCH = 25.4


def label(text, at=(0.0, 0.0)):
    return Label(layer="NOTES", text=text, at=at)


@pytest.mark.parametrize(
    ("text", "depth"),
    [
        ('SAWCUT 1 1/4" DEEP', 1.25 * INCH),
        ('SAW CUT JOINT, 1-1/4" DEEP, TYP.', 1.25 * INCH),
        ("Control joint 1.5 in. deep", 1.5 * INCH),
        ("SAWCUT 3/4 IN DEEP", 0.75 * INCH),
        ("CTLJ, depth of cut: 32 mm", 32.0),
        ("SAWN CONTRACTION JOINT DEPTH = 30MM", 30.0),
        ("TOOLED JOINT 1 INCH DP", INCH),
    ],
)
def test_a_depth_is_read_in_the_words_of_the_trade(text, depth):
    (found,) = noted_depths([label(text)])
    assert found.depth == pytest.approx(depth)


@pytest.mark.parametrize(
    "text",
    [
        'FOOTING 12" DEEP',
        'SAWCUT 1/4" WIDE',
        "CONTROL JOINT",
        'TRENCH BESIDE JOINT 24" DEEP',
        "SAWCUT DEEP",
        'SAWCUT 1/0" DEEP',
    ],
)
def test_what_is_no_depth_of_a_cut_is_left(text):
    assert noted_depths([label(text)]) == ()


JOINTS = (
    GivenJoint(id="G1", path=((0.0, 0.0), (0.0, 5000.0))),
    GivenJoint(id="G2", path=((4000.0, 0.0), (4000.0, 5000.0))),
    GivenJoint(id="G3", path=((8000.0, 0.0), (8000.0, 5000.0)), kind=JointKind.CONSTRUCTION),
)


def test_one_depth_holds_for_every_control_joint():
    joints, notes = with_depths(
        JOINTS, [label("SAWCUT 32 MM DEEP", (-9000.0, 0.0))], Display.METRIC
    )
    assert [j.depth for j in joints] == [32.0, 32.0, None]
    assert "32 mm" in notes[0]


def test_of_several_depths_each_holds_for_the_joint_beside_it():
    labels = [
        label("SAWCUT 32 MM DEEP", (200.0, 2000.0)),
        label("SAWCUT 25 MM DEEP", (4100.0, 900.0)),
    ]
    joints, notes = with_depths(JOINTS, labels, Display.METRIC)
    assert [j.depth for j in joints] == [32.0, 25.0, None]
    assert "2 joints" in notes[0]
    far = [labels[0], label("SAWCUT 25 MM DEEP", (-9000.0, 900.0))]
    assert [j.depth for j in with_depths(JOINTS, far, Display.METRIC)[0]] == [32.0, None, None]


def test_without_a_note_no_depth_is_assumed():
    assert with_depths(JOINTS, [label("A FLOOR")], Display.METRIC) == (JOINTS, [])


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("SAWCUT T/4 DEEP", 1 / 4),
        ("SAW CUT D/4", 1 / 4),
        ("CONTROL JOINT, DEPTH = T/3", 1 / 3),
        ("Sawed joint, 1/4 of slab thickness", 1 / 4),
        ("SAWCUT 1/4 T", 1 / 4),
        ("SAWCUT 1/4 SLAB DEPTH", 1 / 4),
        ("SAWN JOINT ONE-QUARTER OF THE SLAB DEPTH", 1 / 4),
    ],
)
def test_a_depth_is_read_as_a_share_of_the_thickness(text, share):
    (found,) = noted_depths([label(text)])
    assert found.share == pytest.approx(share)
    assert found.depth == 0


@pytest.mark.parametrize(
    "text",
    [
        "SEE DETAIL D/4",
        "SAWCUT, SEE D/4",
        "SAWN JOINT, DETAIL T/3",
        "JOINT DETAIL 3/S4",
        'SAWCUT 1/4" WIDE',
        "SAWCUT 1/8 IN WIDE",
    ],
)
def test_a_fraction_that_is_no_share_of_the_thickness_is_left(text):
    assert noted_depths([label(text)]) == ()


def test_a_share_is_taken_of_the_thickness_where_the_joint_lies():
    zone = Zone(
        id="Z1", outline=Ring(((3000, 0), (6000, 0), (6000, 5000), (3000, 5000))), thickness=200.0
    )
    joints, notes = with_depths(JOINTS, [label("SAWCUT T/4 DEEP")], Display.METRIC)
    slab = Slab(
        outline=Ring(((-4000, 0), (12000, 0), (12000, 5000), (-4000, 5000))),
        thickness=120.0, zones=(zone,), joints=joints,
    )  # fmt: skip
    assert [j.depth for j in with_shares_taken(slab).joints] == [30.0, 50.0, None]
    assert "1/4 of the slab's thickness" in notes[0]
