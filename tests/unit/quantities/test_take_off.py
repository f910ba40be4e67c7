"""The take-off: rows that follow the input, questions for what it does not say."""

from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.model.day import DayInput, PourChoice, SteelChoice
from kerfline.model.slab import Edge, EdgeKind
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, MM_PER_INCH, MPA_PER_PSI, Display
from shapes import workshop_layout, workshop_slab

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


def test_metric_rows_are_metric():
    """No foot, yard, pound or gallon in a metric take-off."""
    day = DayInput(steel=FULL)
    plan = plan_day(workshop_slab(), workshop_layout(), RULES, day, Display.METRIC)
    units = {row.unit for row in plan.take_off.rows}
    assert units <= {"m3", "m", "m2", "L", "kg", "mm", "mm2/m", "trucks", "pieces"}
