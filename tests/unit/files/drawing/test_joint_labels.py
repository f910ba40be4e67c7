"""The kind of joints on layers that do not say it, from the labels beside them."""

import pytest
from shapely import LineString

from drawn_curves import said
from kerfline.errors import InputRefused
from kerfline.files.drawing.joint_labels import JointLabel, joint_labels, kinds_by_label
from kerfline.model.slab import JointKind
from kerfline.units import Display

CONTROL, ISOLATION = JointKind.CONTROL, JointKind.ISOLATION
ROW = [LineString([(0, y), (5000, y)]) for y in (0, 5000)]


def label(kind, at, text="x"):
    return JointLabel(kind=kind, text=text, at=at)


def test_labels_are_short_texts_that_say_a_kind():
    texts = ["ISOLATION JOINT", " CONTROL JOINT ", "NOTE", "JOINT", "CONTROL JOINT " + "x" * 27]
    found = joint_labels([said(t) for t in texts])
    assert [(f.kind, f.text) for f in found] == [
        (ISOLATION, "ISOLATION JOINT"),
        (CONTROL, "CONTROL JOINT"),
    ]
    assert len(joint_labels([said("CONTROL JOINT " + "x" * 26)])) == 1


def test_cj_takes_its_kind_from_the_legend_and_is_open_without():
    assert joint_labels([said("CJ")])[0].kind is None
    assert joint_labels([said("CJ"), said("CJ = CONTROL JOINT")])[0].kind is CONTROL


@pytest.mark.parametrize(("off", "kind"), [(1000.0, CONTROL), (1001.0, None)])
def test_a_label_belongs_to_the_joint_within_a_metre(off, kind):
    labels = [label(CONTROL, (100, -off))]
    assert kinds_by_label(ROW, [False, False], labels, Display.METRIC) == [kind, None]


def test_labels_that_disagree_say_nothing_and_those_that_agree_do():
    labels = [
        label(CONTROL, (0, 10)),
        label(ISOLATION, (900, 10)),
        label(CONTROL, (0, 5010)),
        label(CONTROL, (9, 4990)),
    ]
    assert kinds_by_label(ROW, [False, False], labels, Display.METRIC) == [None, CONTROL]


def test_a_joint_whose_layer_tells_its_kind_does_not_ask_its_label():
    labels = [label(None, (0, 10), "CJ")]
    assert kinds_by_label(ROW, [True, False], labels, Display.METRIC) == [None, None]
    with pytest.raises(InputRefused, match=r"label 'CJ' at \(0 mm, 10 mm\)"):
        kinds_by_label(ROW, [False, False], labels, Display.METRIC)


def test_without_joints_labels_say_nothing():
    assert kinds_by_label([], [], [label(None, (0, 0))], Display.METRIC) == []
