"""What kind of joint a layer holds, by the words in its name."""

from pathlib import Path

import pytest

from drawn_curves import said
from kerfline.errors import InputRefused
from kerfline.files.drawing.joint_kinds import (
    is_ambiguous,
    kind_in,
    kinds_of,
    meaning_of_cj,
    names_joints,
    question,
)
from kerfline.model.slab import JointKind

CONTROL, CONSTRUCTION, ISOLATION = JointKind.CONTROL, JointKind.CONSTRUCTION, JointKind.ISOLATION
PLAN = Path("plan.dxf")


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("S-JNTS-CTLJ", CONTROL),
        ("SAWCUTS", CONTROL),
        ("Contraction joints", CONTROL),
        ("COLDJOINT", CONSTRUCTION),
        ("S-CNTJ", CONSTRUCTION),
        ("EXPANSION", ISOLATION),
        ("S-ISO", ISOLATION),
        ("ISOBAR", None),
        ("JOINTS", None),
        ("CONTROL AND ISOLATION", None),
    ],
)
def test_the_kind_that_a_name_says(name, kind):
    assert kind_in(name) is kind


@pytest.mark.parametrize("name", ["CJ", "S-C.J", "JOINTS_CJS", "C-J"])
def test_cj_by_itself_has_two_meanings(name):
    assert is_ambiguous(name)


@pytest.mark.parametrize("name", ["CJ-CONTROL", "ACJ", "CJK", "S-SLAB"])
def test_what_is_clear_or_no_cj(name):
    assert not is_ambiguous(name)


def test_names_that_speak_of_joints():
    assert all(map(names_joints, ("S-JNTS", "JOINT LAYOUT", "CTLJ", "SAW", "CJ", "SAWCUTS")))
    assert not any(map(names_joints, ("S-SLAB", "CTL", "POUR", "JNTSX")))


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("CJ = CONTROL JOINT", CONTROL),
        ("CJ: SAW CUT CONTROL JOINT", CONTROL),
        ("C.J. DENOTES CONSTRUCTION JOINT", CONSTRUCTION),
        ("Construction joint (CJ)", CONSTRUCTION),
        ("CJ", None),
        ("SEE CONTROL JOINT DETAIL", None),
    ],
)
def test_what_a_legend_says_of_cj(text, kind):
    assert meaning_of_cj([said(text)]) is kind


def test_a_legend_that_says_both_says_nothing():
    assert meaning_of_cj([said("CJ = CONTROL JOINT"), said("CJ = CONSTRUCTION JOINT")]) is None


def test_a_legend_of_two_columns_is_read_along_the_line():
    meaning = said("CONTROL JOINT", (1000, 90))
    assert meaning_of_cj([said("CJ", (0, 0)), meaning]) is CONTROL
    assert meaning_of_cj([said("CJ", (0, 200)), meaning]) is None  # 110 up over 1000 across
    assert meaning_of_cj([said("CJ", (2000, 90)), meaning]) is None


def test_layers_are_sorted_by_kind_as_the_user_says_first():
    layers = ("CTLJ", "ISO", "JOINTS", "CJ-A")
    kinds, notes = kinds_of(
        PLAN, layers, (), ("CTLJ = isolation", "ISO", "JOINTS", "CJ-A = control")
    )
    assert kinds == [(CONTROL, ["CJ-A"]), (ISOLATION, ["CTLJ", "ISO"]), (None, ["JOINTS"])]
    assert notes == []


def test_the_drawings_own_legend_answers_for_cj():
    kinds, notes = kinds_of(PLAN, ("CJ",), [said("CJ = CONTROL JOINT")], ("CJ",))
    assert kinds == [(CONTROL, ["CJ"])]
    assert notes == ["CJ: CJ is control joint, as the drawing's own legend says."]
    kinds, notes = kinds_of(PLAN, ("L1",), (), ("L1",), {"L1": CONSTRUCTION})
    assert kinds == [(CONSTRUCTION, ["L1"])]
    assert notes == ["L1: construction joints, as the drawing's own legend shows."]


def test_a_cj_that_nothing_explains_is_asked_for_each_layer():
    with pytest.raises(InputRefused) as refused:
        kinds_of(PLAN, ("CJ", "S-CJ"), (), ("*CJ",))
    assert list(refused.value.mistakes) == [question(PLAN, "CJ"), question(PLAN, "S-CJ")]
    assert 'joints = ["CJ = control"]' in question(PLAN, "CJ").remedy
