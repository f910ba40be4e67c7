"""The take-off: rows that follow the input, questions for what it does not say."""

import re
from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, PourChoice, SteelChoice
from kerfline.model.slab import Edge, EdgeKind, Slab, Wall
from kerfline.quantities.dowels import dowel_table
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, MM_PER_INCH, MPA_PER_PSI, N_PER_POUND, Display
from shapes import feet, layout_of, workshop_layout, workshop_slab

RULES = SlabRules(rule_set=load("floor"))
FULL = SteelChoice(
    dowels="ufc-3-260-02",
    corner_bars=2,
    tee_bars=3,
    bar=4,
    bar_length=3 * MM_PER_FOOT,
    filler_width=MM_PER_INCH / 8,
    filler_depth=MM_PER_INCH,
    isolation=MM_PER_INCH / 2,
    friction=1.5,
    steel_stress=30_000 * MPA_PER_PSI,
    bond=350 * MPA_PER_PSI,
    restraint=0.8,
    expansion=9.9e-6,
    temperature_drop=42.0,
    shrinkage=5e-4,
    modulus=4e6 * MPA_PER_PSI,
    subgrade=100 * 0.000271447,
    curing_cover=4.9,
)


def planned(steel=FULL, slab=None, **pours):
    day = DayInput(steel=steel, pours=PourChoice(**pours))
    slab = slab or workshop_slab()
    layout = placed_layout(slab, workshop_layout(), day, Display.FEET_INCHES)
    return plan_day(slab, layout, RULES, day, Display.FEET_INCHES)


def rows(plan):
    return {row.item: row for row in plan.take_off.rows}


def test_concrete_rows_add_up():
    """Parts make the net, net and allowance make no more than the order."""
    found = rows(planned())
    net, allowance, order = (found[name].amount for name in ("net, in place", "allowance", "order"))
    assert found["slab"].amount == pytest.approx(net)
    assert net + allowance <= order < net + allowance + 0.25


def test_construction_joints_are_taken_out_of_the_sawn_ones():
    """What the pours form is not sawn: the two always make the layout's joints."""
    whole = workshop_layout().joint_length / MM_PER_FOOT
    for limit in (None, 12 * MM3_PER_YD3):
        found = rows(planned(volume=limit))
        assert found['sawn, 1" deep'].amount + found["construction joints"].amount == (
            pytest.approx(whole, abs=0.05)
        )


def test_more_placements_take_more_dowels():
    """A joint of 24 ft takes 24 dowels at 12 in; the joint under W1 adds 36 ft and 36."""
    assert rows(planned())["dowels"].amount == 24
    assert rows(planned(volume=20 * MM3_PER_YD3))["dowels"].amount == 24
    assert rows(planned(volume=12 * MM3_PER_YD3))["dowels"].amount == 60


def test_corner_bars_are_counted_where_no_joint_leaves_the_corner():
    """The notch has its joint; the four corners of the pit have none."""
    assert rows(planned())["corner bars"].amount == 8


def test_isolation_runs_round_boxouts_and_along_isolated_edges():
    """Two diamonds of 18 in, a circle of 18 in, and the 24 ft edge at the right."""
    edge = Edge(ring=0, segment=1, kind=EdgeKind.ISOLATED)
    around = 2 * 4 * 1.5 + 3.1416 * 1.5
    assert rows(planned())["isolation strip"].amount == pytest.approx(around, abs=0.05)
    walled = replace(workshop_slab(), edges=(edge,))
    assert rows(planned(slab=walled))["isolation strip"].amount == pytest.approx(
        around + 24, abs=0.05
    )


def test_tie_bars_hold_the_slab_behind_their_own_edge():
    """By hand: the left edge of 40 ft holds 60 ft of slab: 60 ft x 50 lb/ft2 x 1.5 / 30,000 psi is 0.15 in2/ft;
    No. 4 (0.196 in2) at 15 in, 32 in 40 ft. The lower edge of 60 ft holds 40 ft: 0.1 in2/ft, 23 in, 31 bars."""
    left = Edge(ring=0, segment=5, kind=EdgeKind.CONTINUOUS)
    found = rows(planned(slab=replace(workshop_slab(), edges=(left,))))["tie bars"]
    assert found.amount == 32
    assert '21 7/16" long, at 15"' in found.note
    lower = Edge(ring=0, segment=0, kind=EdgeKind.CONTINUOUS)
    found = rows(planned(slab=replace(workshop_slab(), edges=(lower,))))["tie bars"]
    assert found.amount == 31
    assert 'at 23", for 40' in found.note


def test_tie_bars_come_no_wider_than_30_inches():
    """A strip of 10 ft behind the edge would do with 94 in; TM 5-822-5 has 30."""
    edge = Edge(ring=0, segment=0, kind=EdgeKind.CONTINUOUS)
    ring = Ring(feet((0, 0), (60, 0), (60, 10), (0, 10)))
    slab = Slab(outline=ring, thickness=101.6, edges=(edge,))
    found = plan_day(slab, layout_of(slab, []), RULES, DayInput(steel=FULL), Display.FEET_INCHES)
    assert 'at 30"' in rows(found)["tie bars"].note


def test_tie_bars_need_both_stresses_and_room():
    """Without bond they are asked for; under a stress of 1 N/mm2 no spacing would do."""
    slab = replace(workshop_slab(), edges=(Edge(ring=0, segment=5, kind=EdgeKind.CONTINUOUS),))
    asked = planned(replace(FULL, bond=None), slab)
    assert "tie bars" not in rows(asked)
    assert any("day.steel.bond" in q for q in asked.questions)
    weak = planned(replace(FULL, steel_stress=1.0), slab)
    assert "tie bars" not in rows(weak)
    assert any("closer than an inch" in q for q in weak.questions)


def test_a_choice_of_diameters_is_shown_as_one():
    """A 14 in slab by UFC 3-260-02: 1 to 1-1/4 in."""
    thick = replace(workshop_slab(), thickness=14 * MM_PER_INCH)
    assert '1" to 1 1/4" round' in rows(planned(slab=thick))["dowels"].note


def test_a_slab_thinner_than_the_table_of_wall_loads_is_asked_about():
    """3 in."""
    bare = Wall(id="W9", path=feet((40, 7), (58, 7)), bearing=True)
    thin = replace(workshop_slab(), walls=(bare,), thickness=3 * MM_PER_INCH)
    found = planned(slab=thin)
    assert not any(item.startswith("W9") for item in rows(found))
    assert any(
        "thinner, or its ground softer, than the UFC 3-320-06A" in q for q in found.questions
    )


def test_a_bearing_wall_in_a_panel_has_its_row():
    """4 in at 550 psi: 425 lb/ft by UFC 3-320-06A's table; a strip of its own needs no row."""
    bare = Wall(id="W9", path=feet((40, 7), (58, 7)), bearing=True)
    strip = replace(bare, id="W8", strip_width=300.0, strip_depth=300.0)
    found = rows(planned(slab=replace(workshop_slab(), walls=(bare, strip))))
    assert found["W9 on the plain slab, at most"].amount == pytest.approx(425)
    assert "UFC 3-320-06A" in found["W9 on the plain slab, at most"].note
    assert not any(item.startswith("W8") for item in found)


def test_soft_ground_carries_a_bearing_wall_on_less():
    """At 50 pci a thickness is the table's times 1.1: 5 in there is 4 in in the table, and 4 in is none."""
    bare = Wall(id="W9", path=feet((40, 7), (58, 7)), bearing=True)
    soft = replace(FULL, subgrade=50 * N_PER_POUND / MM_PER_INCH**3)
    five = replace(workshop_slab(), walls=(bare,), thickness=5 * MM_PER_INCH)
    row = rows(planned(soft, five))["W9 on the plain slab, at most"]
    assert row.amount == pytest.approx(425)
    assert "k 50 pci (14 MPa/m)" in row.note
    asked = planned(soft, replace(five, thickness=4 * MM_PER_INCH))
    assert any("its ground softer" in q for q in asked.questions)


def test_no_load_is_named_for_a_bearing_wall_over_a_plain_joint():
    """The joint across at 12 ft lies under it: asked, with the joint's name."""
    bare = Wall(id="W9", path=feet((0, 12), (36, 12)), bearing=True)
    found = planned(slab=replace(workshop_slab(), walls=(bare,)))
    assert not any(item.startswith("W9") for item in rows(found))
    asked = next(q for q in found.questions if "W9" in q)
    cut = {c.window.sawn.joint: c.window.sawn.line for c in found.placement.cutting.cuts}
    named = re.search(r"along ([J\d, ]+):", asked)[1].split(", ")
    assert named
    assert all(abs(cut[name].centroid.y - 12 * MM_PER_FOOT) < 1 for name in named)


def test_a_seal_is_as_wide_as_the_opening_over_its_range():
    """W = dL / 0.35."""
    found = rows(planned())
    opening = found["opening of a joint"].amount
    assert found["compression seal, least width"].amount == pytest.approx(opening / 0.35)


def test_a_full_input_leaves_no_question_about_steel():
    """Every steel key given."""
    plan = planned()
    assert not [q for q in plan.questions if "day.steel" in q]
    assert not [a for a in plan.assumptions if "day.steel" in a.text]


def test_an_empty_input_asks_and_shows_no_made_up_movement():
    """No temperature drop, no opening; no table, no dowels; no filler width, no filler."""
    plan = planned(SteelChoice())
    found = rows(plan)
    for item in ("opening of a joint", "dowels", "filler in sawn joints", "drag steel"):
        assert item not in found
    asked = " ".join(plan.questions)
    for key in ("temperature_drop", "dowels", "filler_width", "isolation"):
        assert key in asked


def test_open_joints_are_an_answer():
    """A filler width of 0 is no filler and no question."""
    plan = planned(replace(FULL, filler_width=0.0, filler_depth=None))
    assert "filler in sawn joints" not in rows(plan)
    assert not [q for q in plan.questions if "filler" in q]


def test_a_thickness_that_the_table_does_not_know_is_asked_about():
    """The floor table begins at 5 in."""
    plan = planned(replace(FULL, dowels="floor-eighth"))
    assert "dowels" not in rows(plan)
    assert any("ask the engineer" in q for q in plan.questions)


def test_an_unknown_table_is_refused_with_those_that_are():
    """The names are listed."""
    with pytest.raises(InputRefused, match="ufc-3-260-02"):
        dowel_table("best")


def test_metric_rows_are_metric():
    """No foot, yard, pound or gallon in a metric take-off."""
    day = DayInput(steel=FULL)
    plan = plan_day(workshop_slab(), workshop_layout(), RULES, day, Display.METRIC)
    units = {row.unit for row in plan.take_off.rows}
    assert units <= {"m3", "m", "m2", "L", "kg", "mm", "mm2/m", "trucks", "pieces"}
