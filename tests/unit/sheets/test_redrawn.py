"""What has no room for its number on the plan is drawn larger on a further sheet, and nothing is left unnamed."""

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.sheets.redrawn import drawn_larger
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


def larger_boxes(at, room, first=1):
    """Parts about panels of 1 m in a row of 60, at those of the given numbers."""
    slab = Slab(outline=Ring(((0, 0), (60e3, 0), (60e3, 1e3), (0, 1e3))), thickness=100.0)
    lines = [[(1e3 * n, 0.0), (1e3 * n, 1e3)] for n in range(1, 60)]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, line) for line in lines])
    places = [(1e3 * n + 500.0, 500.0) for n in at]
    return drawn_larger(slab, layout, baselines(slab), places, 50.0, room=room, first=first)


def test_few_parts_are_drawn_larger_each_by_itself():
    parts = larger_boxes([0, 10, 20, 40], room=(60e3, 60e3))
    assert [part.region.bounds[0] for part in parts] == [0.0, 10e3, 20e3, 40e3]


def test_of_many_parts_those_that_a_sheet_holds_are_one_and_the_nearest_go_together():
    parts = larger_boxes([0, 2, 30, 32, 34], room=(6e3, 2e3))
    spans = [(part.region.bounds[0], part.region.bounds[2]) for part in parts]
    assert spans == [(0.0, 3e3), (30e3, 35e3)]
    assert [part.name for part in parts] == ["part 1 drawn larger", "part 2 drawn larger"]
    low = larger_boxes([0, 2, 30, 32, 34], room=(6e3, 999.0))
    assert len(low) == 5
    narrow = larger_boxes([0, 2, 30, 32, 34], room=(4e3, 2e3))
    assert len(narrow) == 3


def test_further_parts_are_numbered_on():
    (part,) = larger_boxes([7], room=(6e3, 2e3), first=3)
    assert (part.id, part.name) == ("L3", "part 3 drawn larger")
    (alone,) = larger_boxes([7], room=(6e3, 2e3))
    assert (alone.id, alone.name) == ("L1", "part drawn larger")
