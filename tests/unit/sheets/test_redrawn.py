"""What has no room for its number on the plan is drawn larger on a further sheet, and nothing is left unnamed."""

import pytest

from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.units import Unit
from shapes import closets, layout_of
from sheet_checks import assert_clean, assert_no_text_on_ink

RULES = SlabRules(rule_set=load("floor"))
SMALL = [("letter", 192.0), ("letter", 240.0), ("tabloid", 240.0)]


def house(size, scale):
    slab = closets()
    lines = [(JointKind.CONTROL, Reason.WALL, list(wall.line.coords)) for wall in slab.walls]
    job = Job(name="House", units=Unit.FT, slab=slab, sheet=SheetChoice(size=size, scale=scale))
    return job, layout_of(slab, lines)


def named(sheets):
    return {t.text.split(" ")[0] for s in sheets for t in s.texts if t.in_plan}


@pytest.mark.parametrize(("size", "scale"), SMALL)
def test_everything_has_its_number_at_a_scale_that_is_too_small_for_it(size, scale):
    job, layout = house(size, scale)
    sheets = joint_plan(job, layout, (), RULES)
    things = [*layout.joints, *layout.panels, *job.slab.walls]
    assert {thing.id for thing in things} <= named(sheets)
    assert_clean(sheets)
    assert_no_text_on_ink(sheets)


@pytest.mark.parametrize(("size", "scale"), SMALL)
def test_the_plan_keeps_the_scale_that_was_asked_for_and_says_where_it_is_drawn_larger(size, scale):
    job, layout = house(size, scale)
    plans = [s for s in joint_plan(job, layout, (), RULES) if s.views]
    assert plans[0].view.scale == scale
    further = [s for s in plans if s.view.scale != scale]
    assert further
    assert all(s.view.scale < scale for s in further)
    words = " ".join(t.text for s in plans for t in s.texts if t.in_plan and s not in further)
    for sheet in further[:1]:
        assert f"sheet {sheet.number}" in words
    assert any("drawn larger" in t.text for s in further for t in s.texts)


def test_a_part_that_is_drawn_larger_tells_the_same_offsets():
    """Its running dimensions are some of those of a plan that has room for all of them."""
    job, layout = house("letter", 192.0)
    plans = [s for s in joint_plan(job, layout, (), RULES) if s.views]
    wide, same = house("arch-d", 0.0)
    (whole,) = [s for s in joint_plan(wide, same, (), RULES) if s.views]
    for upright in (False, True):
        known = {m.text.text for m in whole.measures if m.running and m.upright == upright}
        larger = [
            m.text.text for s in plans[1:] for m in s.measures if m.running and m.upright == upright
        ]
        assert larger
        assert set(larger) <= known


def test_crew_and_finishers_find_every_number_too():
    job, layout = house("letter", 240.0)
    cuts = cut_sheet(job, layout, RULES)
    assert {f"{n}" for n in range(1, len(layout.joints) + 1)} <= named(cuts)
    panels = panel_sheet(job, layout, (), RULES)
    assert {p.id for p in layout.panels} <= named(panels)
    assert_clean((*cuts, *panels))


def test_a_plan_with_room_has_no_further_sheet():
    job, layout = house("arch-d", 0.0)
    assert not any(
        "drawn larger" in t.text for s in joint_plan(job, layout, (), RULES) for t in s.texts
    )
