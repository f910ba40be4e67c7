"""What the sheets say in words is true of the slab: pads, zones, keep-outs, walls, tags without room."""

import re
from dataclasses import replace

from checked import box_ring, feet, findings, grid_slab, joint
from kerfline.app.check import check_job
from kerfline.app.summary import summary
from kerfline.checks.given import given_layout
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import Edge, EdgeKind, JointKind, KeepOut, Penetration, Slab, Wall, Zone
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.lines import cut_lines
from kerfline.sheets.cut.passes import passes_along
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.cut.words import ends_words
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import MM_PER_INCH, Display, Unit
from shapes import layout_of

RULES = SlabRules(rule_set=load("floor"))
ZONE = Zone(id="Z1", outline=box_ring(20, 0, 40, 30), thickness=8 * MM_PER_INCH)
TUBING = KeepOut(id="K1", outline=box_ring(12, 12, 18, 18), what="tubing")


def job_of(slab, unit=Unit.FT):
    return Job(name="Told", units=unit, slab=slab)


def said(sheets):
    return " ".join(t.text for s in sheets for t in s.texts).replace("\u00a0", " ")


def plan_of(slab):
    return said(joint_plan(job_of(slab), given_layout(slab), (), RULES))


def cuts_of(slab):
    return said(cut_sheet(job_of(slab), given_layout(slab), RULES))


def test_a_pad_without_joints_is_told_so_and_nothing_of_cutting():
    words = plan_of(grid_slab(1, 1, bay=6.0))
    assert "1 panel, no joints." in words
    assert "Cut control joints" not in words
    assert "may be moved" not in words


def test_a_zone_has_its_thickness_span_and_depth_on_the_plan():
    """30 times 8 in is 20 ft, but no more than 15 ft advised, 36 times is 24 ft, but no more than 18 (the floor set's caps); a quarter of 8 in is 2 in."""
    words = plan_of(grid_slab(zones=(ZONE,)))
    assert 'Z1 8" thick' in words
    assert 'Z1 is 8" thick: panels of 15\'-0" a side, 18\'-0" at most, cuts 2" deep.' in words


def test_the_summary_holds_the_longest_panel_against_its_own_zone():
    """A panel of 20 x 15 ft in the 8 in zone is 133 % of the 15 ft there, not 200 % of the 10 ft elsewhere."""
    slab = grid_slab(2, 2, bay=20.0, aside=15.0)
    wide = replace(slab, zones=(replace(ZONE, outline=slab.outline),))
    assert "133% of 15'-0\"" in summary(check_job(job_of(wide)), ())


def test_a_cut_on_a_zones_border_has_the_thickness_that_its_depth_comes_from():
    border = joint("B", (20, 0), (20, 30), depth=2 * MM_PER_INCH)
    words = cuts_of(grid_slab(zones=(ZONE,), joints=(border,)))
    assert '2" deep in 8" slab: 1 line, 30 ft' in words


def test_a_keep_out_without_known_cover_allows_no_cut():
    slab = grid_slab(keep_outs=(TUBING,))
    for words in (plan_of(slab), cuts_of(slab)):
        assert "K1 no cut: tubing" in words
        assert "K  no cut here" in words


def test_a_keep_out_under_cover_says_how_deep_a_saw_may_go():
    """3 in of cover less the 3/4 in that must stay leaves 2 1/4 in; half an inch of cover leaves nothing."""
    deep = replace(TUBING, cover=3 * MM_PER_INCH)
    slab = grid_slab(keep_outs=(deep,))
    for words in (plan_of(slab), cuts_of(slab)):
        assert 'K1, tubing: cut no deeper than 2 1/4".' in words
        assert "K  no cut, or no deeper than the notes say" in words
    shallow = grid_slab(keep_outs=(replace(TUBING, cover=0.5 * MM_PER_INCH),))
    assert "K1 no cut: tubing" in plan_of(shallow)
    assert "K  no cut here" in plan_of(shallow)


def test_lines_that_only_end_under_a_wall_are_not_said_to_carry_it():
    wall = Wall(id="W1", path=feet((20, 0), (20, 30)))
    slab = Slab(outline=box_ring(0, 0, 40, 30), thickness=101.6, walls=(wall,))
    paths = [feet((20, 0), (20, 30)), feet((0, 15), (20, 15))]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.WALL, path) for path in paths])
    hidden = replace(layout, joints=tuple(replace(j, hidden=60.0) for j in layout.joints))
    words = said(cut_sheet(job_of(slab), hidden, RULES))
    assert "Cut 2: a wall will stand on it." in words
    assert "Cut 1: a wall will stand on a short piece of it." in words


def test_sixty_pipes_on_one_spot_are_all_named():
    """Their names stand at the ends of long leaders, or the plan is drawn larger."""
    pipes = tuple(
        Penetration(id=f"N{n}", at=feet((5 + n / 12, 5))[0], diameter=25.0) for n in range(60)
    )
    words = plan_of(grid_slab(1, 1, penetrations=pipes))
    named = set(re.findall(r"\bN\d+\b", words))
    assert {pipe.id for pipe in pipes} <= named


def test_a_panel_that_no_joint_bounds_is_not_to_be_mended_by_moving_joints():
    slab = Slab(outline=Ring(feet((0, 0), (6, 0), (6, 4), (0, 4))), thickness=101.6)
    (found,) = findings(slab)
    assert found.remedy == "No joint bounds it: the slab itself has this shape."


def test_a_cut_that_ends_on_another_joint_is_not_said_to_run_out():
    slab = Slab(outline=box_ring(0, 0, 40, 30), thickness=101.6)
    paths = [feet((20, 0), (20, 30)), feet((0, 15), (20, 15))]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, path) for path in paths])
    base = baselines(slab)
    cuts = cut_lines(job_of(slab), passes_along(layout, base), base)
    told = {cut.joint: ends_words(cut, Display.FEET_INCHES) for cut in cuts}
    assert told == {"J1": "runs out", "J2": "end on a joint"}


def test_strips_and_turned_down_edges_have_their_measures_on_the_plan():
    wall = Wall(
        id="W1", path=feet((10, 0), (10, 30)), bearing=True, strip_width=457.2, strip_depth=304.8
    )
    edge = Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, width=304.8, depth=406.4)
    words = plan_of(grid_slab(walls=(wall,), edges=(edge,)))
    assert 'W1 stands on a thickened strip 18" wide, 12" deep in all.' in words
    assert 'Turned-down edge 12" wide, 16" deep in all.' in words


def test_span_and_aspect_are_each_told_with_their_own_source():
    """The floor set takes them from two editions of ACI 302.1R: 1996 for the span, 1980 for the aspect."""
    words = plan_of(grid_slab())
    limits = RULES.limits(grid_slab().thickness)
    assert limits.span.source != limits.aspect.source
    assert f"12'-0\" at most (source: {limits.span.source})" in words
    assert f"length over width 1.5 at most (source: {limits.aspect.source})" in words
