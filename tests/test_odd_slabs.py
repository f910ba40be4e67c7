"""Slabs of any shape and size get clean sheets, or one plain sentence."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, PourChoice, Side
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.areas import pour_areas
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import Unit
from shapes import layout_of
from sheet_checks import assert_clean, grid_lines
from strategies import arc_rings, convex_plans, slabs, turned

RULES = SlabRules(rule_set=load("floor"))
units = st.sampled_from([Unit.FT, Unit.M])


def gridded(slab, spacing=3000.0):
    lines = [(JointKind.CONTROL, Reason.SPAN, list(g.coords)) for g in grid_lines(slab, spacing)]
    return layout_of(slab, lines)


def both(slab, layout, unit, **choice):
    job = Job(name="Odd", units=unit, slab=slab, sheet=SheetChoice(**choice))
    return (*joint_plan(job, layout, (), RULES), *cut_sheet(job, layout, RULES))


@settings(max_examples=10)
@given(arc_rings(), units)
def test_curved_slabs(ring, unit):
    slab = Slab(outline=ring, thickness=100.0)
    assert_clean(both(slab, gridded(slab), unit))


@settings(max_examples=10)
@given(convex_plans(), units)
def test_slanting_slabs(plan, unit):
    slab = Slab(outline=Ring.of(plan), thickness=100.0)
    assert_clean(both(slab, gridded(slab), unit))


@settings(max_examples=8)
@given(slabs(most_boxes=3), st.floats(-80.0, 80.0), units)
def test_turned_slabs(slab, degrees, unit):
    slab = turned(slab, degrees)
    assert_clean(both(slab, gridded(slab), unit))


@settings(max_examples=6)
@given(slabs(most_boxes=3), st.floats(-80.0, 80.0), units, st.floats(0.15, 0.6))
def test_placements_of_turned_slabs_have_clean_cut_sheets_that_share_out_the_lines(
    slab, degrees, unit, share
):
    """Every sawn foot of the day stands on one sheet and no more, whatever way the slab is turned."""
    slab = turned(slab, degrees)
    day = DayInput(pours=PourChoice(area=share * slab.concrete.area, access=(Side.LEFT,)))
    layout = placed_layout(slab, gridded(slab), day, unit.display)
    plan = plan_day(slab, layout, RULES, day, unit.display)
    areas = pour_areas(plan)
    job = Job(name="Odd", units=unit, slab=slab)
    for area in areas:
        assert_clean(cut_sheet(job, layout, RULES, area=area))
    if areas:
        sawn = sum(w.sawn.line.length for w in plan.placement.windows)
        told = sum(one.sawn.line.length for area in areas for one in area.passes)
        lines = sum(len(area.passes) for area in areas)
        assert told == pytest.approx(sawn, abs=2.0 * lines + 1.0)


def test_a_round_slab():
    ring = Ring(((-5000.0, 0.0), (5000.0, 0.0)), (1.0, 1.0))
    slab = Slab(outline=ring, thickness=100.0)
    assert_clean(both(slab, gridded(slab), Unit.M))


def test_a_slab_with_hundreds_of_corners():
    points = tuple(
        (
            (9000 + 300 * math.sin(9 * a)) * math.cos(a),
            (9000 + 300 * math.sin(9 * a)) * math.sin(a),
        )
        for a in (2 * math.pi * i / 300 for i in range(300))
    )
    slab = Slab(outline=Ring(points), thickness=100.0)
    assert_clean(both(slab, gridded(slab), Unit.FT))


@pytest.mark.parametrize("side", [300.0, 1000.0, 150_000.0])
def test_small_and_large_squares(side):
    slab = Slab(outline=Ring(((0, 0), (side, 0), (side, side), (0, side))), thickness=100.0)
    assert_clean(both(slab, gridded(slab, max(side / 20, 3000.0)), Unit.FT))


def test_a_long_strip():
    slab = Slab(outline=Ring(((0, 0), (120_000, 0), (120_000, 1200), (0, 1200))), thickness=100.0)
    sheets = both(slab, gridded(slab, 1500.0), Unit.M)
    assert_clean(sheets)
    assert sum(len(s.views) for s in sheets) > 2
    assert len([s for s in sheets if s.views and s.name == "joint-plan"]) == 1


def test_joints_a_sixteenth_apart_have_dimensions_that_do_not_overlap():
    slab = Slab(outline=Ring(((0, 0), (9000, 0), (9000, 6000), (0, 6000))), thickness=100.0)
    lines = [
        (JointKind.CONTROL, Reason.SPAN, [(x, 0), (x, 6000)])
        for x in (3000.0, 3001.6, 3004.0, 3030.0)
    ]
    assert_clean(both(slab, layout_of(slab, lines), Unit.FT))


def test_no_joints_at_all():
    slab = Slab(outline=Ring(((0, 0), (3000, 0), (3000, 3000), (0, 3000))), thickness=100.0)
    assert_clean(both(slab, layout_of(slab, []), Unit.M))


def test_long_words_in_the_title_block_are_cut_not_spilled():
    slab = Slab(outline=Ring(((0, 0), (3000, 0), (3000, 3000), (0, 3000))), thickness=100.0)
    fields = dict.fromkeys(("project", "owner", "number", "drawn"), "A very long entry " * 9)
    assert_clean(both(slab, layout_of(slab, []), Unit.M, fields=fields))


def test_a_scale_that_would_need_hundreds_of_sheets_is_refused():
    slab = Slab(outline=Ring(((0, 0), (90000, 0), (90000, 90000), (0, 90000))), thickness=100.0)
    with pytest.raises(InputRefused, match="sheets"):
        both(slab, layout_of(slab, []), Unit.M, size="a4", scale=10)


def test_an_unknown_paper_is_refused_with_the_names_there_are():
    slab = Slab(outline=Ring(((0, 0), (3000, 0), (3000, 3000), (0, 3000))), thickness=100.0)
    with pytest.raises(InputRefused, match="letter, tabloid"):
        both(slab, layout_of(slab, []), Unit.M, size="poster")
