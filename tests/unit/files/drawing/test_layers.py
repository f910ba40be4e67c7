"""How layer names meet patterns."""

from pathlib import Path

import pytest

from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.joint_kinds import meaning_of_cj
from kerfline.files.drawing.layers import (
    Layers,
    chosen,
    closest_first,
    matches,
    own_name,
    stated_kind,
    unmatched,
)
from kerfline.model.slab import JointKind


@pytest.mark.parametrize(
    ("layer", "pattern"),
    [
        ("S-SLAB-EDGE", "S-SLAB-EDGE"),
        ("S-SLAB-EDGE", "s-slab-*"),
        ("S-SLAB-EDGE", "?-SLAB*"),
        ("PLAN-08$0$A-WALL", "A-WALL"),
        ("PLAN-08$12$A-WALL", "a-w*"),
        ("PLAN|A-WALL", "A-WALL"),
        ("PLAN|A-WALL", "PLAN|*"),
        ("PLAN-08$0$A-WALL", "PLAN-08$0$A-WALL"),
        ("[OLD] SLAB", "[OLD] SLAB"),
        ("A=B", "A=B"),
        ("S-CJ", "S-CJ = control"),
        ("S-CJ", "S-*=control"),
    ],
)
def test_a_layer_meets_a_pattern(layer, pattern):
    assert matches(layer, pattern)


@pytest.mark.parametrize(
    ("layer", "pattern"),
    [("S-SLAB-EDGE", "SLAB"), ("A-WALL", "A-WALLS"), ("PLAN$0$A-WALL", "PLAN"), ("A$B", "B")],
)
def test_a_layer_does_not_meet_a_pattern(layer, pattern):
    assert not matches(layer, pattern)


def test_the_own_name_is_what_follows_the_last_bound():
    assert own_name("SITE$0$PLAN$1$A-WALL") == own_name("X|Y|A-WALL") == "A-WALL"


def test_layers_are_chosen_once_and_sorted():
    assert chosen(["B-WALL", "A-WALL", "C"], ("*WALL", "A-*")) == ("A-WALL", "B-WALL")


def test_the_kind_after_the_pattern():
    assert stated_kind("S-CJ = Construction") is JointKind.CONSTRUCTION
    assert stated_kind("S-CJ") is None


def test_every_pattern_without_a_layer_is_a_mistake():
    found = unmatched(Path("plan.dxf"), ["SLAB"], Layers(outline=("SLAB", "EDGE"), walls=("WALL",)))
    assert [m.where for m in found] == ["plan.dxf, outline", "plan.dxf, walls"]


def test_the_layers_most_like_a_pattern_come_first_and_many_are_not_all_listed():
    names = [f"LAYER-{i:02}" for i in range(30)] + ["S-SLAB-EDGE"]
    assert closest_first("*SLAB-EDGES", names)[0] == "S-SLAB-EDGE"
    (mistake,) = unmatched(Path("p"), names, Layers(outline=("X",)))
    assert "and 19 more" in mistake.found


@pytest.mark.parametrize(
    ("texts", "kind"),
    [
        (["CJ: SAW CUT CONTROL JOINT"], JointKind.CONTROL),
        (["CONTROL JOINT (CJ)"], JointKind.CONTROL),
        (['CONSTRUCTION JOINTS = "CJ"'], JointKind.CONSTRUCTION),
        (["LEGEND\nC.J.\nCONTRACTION JOINT"], JointKind.CONTROL),
        (["CJ - KEYED CONSTRUCTION JOINT"], JointKind.CONSTRUCTION),
        (["CJ", "CONTROL JOINT"], JointKind.CONTROL),
        (["CJ: CONTROL JOINT", "CONSTRUCTION JOINT (CJ)"], None),
        (["CJ", "SLAB ON GRADE"], None),
        (["CONTROL JOINT"], None),
    ],
)
def test_what_a_legend_says_that_cj_means(texts, kind):
    labels = [Label(layer="0", text=t, at=(3000.0 * i, 0.0)) for i, t in enumerate(texts)]
    assert meaning_of_cj(labels) is kind


def test_a_text_above_is_no_column_of_a_legend():
    labels = [
        Label(layer="0", text="CJ", at=(0.0, 0.0)),
        Label(layer="0", text="CONTROL JOINT", at=(3000.0, 3000.0)),
    ]
    assert meaning_of_cj(labels) is None
