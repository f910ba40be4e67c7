"""Sentences about what can hurt someone or spoil the slab, each said where it holds and nowhere else."""

import math
from types import SimpleNamespace

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.day import SawMethod
from kerfline.model.slab import KeepOut, Slab
from kerfline.placement.cautions import (
    CAUSTIC,
    buried_cautions,
    crew_cautions,
    cutting_cautions,
    dust,
    end_cautions,
    noise,
    pour_cautions,
    under_wall_lines,
)
from kerfline.placement.cut_ends import EndAt, SawnEnd
from kerfline.placement.cutting import Cut, CuttingPlan, Run, SawNeed
from kerfline.placement.kerf import cut_end
from kerfline.units import Display

FEET, METRIC = Display.FEET_INCHES, Display.METRIC
SAW = SawMethod.CONVENTIONAL


def window(joint="J1", pour="1", *, opens=12.0, closes=18.0, hidden=False):
    """As much of a line's window as the sentences ask for."""
    return SimpleNamespace(
        sawn=SimpleNamespace(joint=joint, hidden=hidden),
        pours=(pour,),
        opens=SimpleNamespace(likely=opens),
        workable=opens <= closes,
    )


def cut(joint="J1", *, start=13.0, end=14.0, late=0.0, late_by=0.0, saw=1, **more):
    run = Run(start=start, end=end, late=late, late_by=late_by)
    return Cut(order=1, window=window(joint, **more), saw=saw, run=run)


def plan(*cuts, need=1, planned=1, given=None, emergency=False, relief=("J4",)):
    return CuttingPlan(
        cuts=cuts,
        need=SawNeed(warm=need, likely=need, cool=need),
        planned=planned,
        given=given,
        blades=1,
        hours=1.0,
        emergency=emergency,
        relief=relief,
    )


def said(*cuts, method=SAW, display=FEET, **more):
    return " ".join(cutting_cautions(plan(*cuts, **more), method, display))


def test_a_calm_day_has_no_word_on_cutting():
    assert said(cut()) == ""


def test_an_emergency_names_its_relief_cuts():
    words = said(cut(), emergency=True, relief=("J4", "J6"))
    assert words.startswith("EMERGENCY ORDER: sawing starts late, so relief cuts (J4 and J6) come")


@pytest.mark.parametrize(
    ("need", "given", "told"), [(1, None, False), (2, None, True), (2, 2, False), (3, 2, True)]
)
def test_more_saws_than_there_are_is_told(need, given, told):
    assert (f"{need} saws needed" in said(cut(), need=need, given=given)) is told


def test_where_no_number_of_saws_will_do_the_placement_is_to_be_divided():
    assert "divide the placement, place faster, or use early-entry saws." in said(cut(), need=None)
    early = said(cut(), need=None, method=SawMethod.EARLY_ENTRY)
    assert early.endswith("divide the placement, place faster.")


@pytest.mark.parametrize(("late", "told"), [(1.0, False), (1.1, True)])
def test_a_millimetre_is_not_late(late, told):
    assert ("Cut too late" in said(cut(late=late))) is told


def test_lost_lines_are_named_with_their_feet_and_the_hours_of_the_worst():
    words = said(
        cut("J2", late=3048.0, late_by=0.5),
        cut("J3", late=3048.0, late_by=1.26),
        cut("J2", late=0.0),
        need=3,
        planned=1,
    )
    assert "Cut too late with 1 saw: J2 and J3, 20 ft in all, by up to 1.3 h. " in words
    assert "Bring 2 more saws; early-entry saws are ready sooner; " in words
    assert "if neither comes, cut J4 first as relief." in words


def test_in_several_placements_relief_is_cut_within_each():
    words = said(cut("J2", late=99.0, pour="1"), cut("J3", late=99.0, pour="2"))
    assert "cut J4 first within each placement as relief" in words
    early = said(cut("J2", late=99.0), method=SawMethod.EARLY_ENTRY, relief=())
    assert "Bring 1 more saw. A late cut" in early


def test_a_line_that_closes_before_it_opens_is_followed_from_the_end_placed_first():
    words = said(cut("J5", start=12.0, opens=13.0, closes=12.5))
    assert words.startswith("On J5 the first concrete is at risk before the last is ready")
    assert said(cut("J5", start=13.0, opens=13.0, closes=12.5)) == ""
    assert said(cut("J5", start=12.0, opens=13.0, closes=13.0)) == ""


def test_concrete_too_cold_to_cut_is_told():
    never = cut("J6", start=math.inf, end=math.inf, saw=0)
    assert said(never).startswith("On J6 the concrete is too cold to be cut within ten days")


def test_joints_that_walls_will_hide_are_listed_once():
    lines = plan(cut("J1", hidden=True), cut("J2"), cut("J1", hidden=True), cut("J3", hidden=True))
    assert under_wall_lines(lines) == ("J1", "J3")


@pytest.mark.parametrize(
    ("wrapped", "words"),
    [((), None), (("2",), "Placement 2 wraps"), (("1", "3"), "Placements 1 and 3 wrap ")],
)
def test_placements_that_wrap_a_corner_are_named(wrapped, words):
    pours = [
        SimpleNamespace(id=i, corners=((0.0, 0.0),) if i in wrapped else ())
        for i in ("1", "2", "3")
    ]
    found = pour_cautions(pours)
    assert len(found) == (words is not None)
    assert all(f.startswith(words) for f in found)


def test_dust_by_the_saw():
    """29 CFR 1926.1153, Table 1, row (iv): none outdoors, APF 10 indoors; a dry early-entry saw is not in it."""
    assert "needs no respirator outdoors and a respirator of APF 10 indoors" in dust(SAW)
    assert "is not in 29 CFR 1926.1153" in dust(SawMethod.EARLY_ENTRY)


def test_noise_at_100_dba():
    """2 h by 29 CFR 1926.52, Table D-2; 15 min by NIOSH 98-126."""
    assert "100 dBA: 2 h a day by 29 CFR 1926.52, 15 min by NIOSH" in noise()


def test_a_crew_elsewhere_is_told_of_its_own_rules():
    own, other = crew_cautions(SAW, "US"), crew_cautions(SAW, "CA")
    assert len(own) == len(other) == 7
    assert "29 CFR" in " ".join(own)
    assert "29 CFR" not in " ".join(other)
    assert CAUSTIC in own
    assert CAUSTIC in other


def end(meets, depth=25.4, guard=0.0):
    return SawnEnd(joint="J1", at=(0, 0), meets=meets, cut=cut_end(254.0, depth, guard))


def test_what_stays_uncut_at_walls_is_that_of_the_worst_end():
    """10 in blade: 1 in deep leaves 2 in; half an inch deep leaves 5 - sqrt(4.75) in, 2.82."""
    assert end_cautions([end(EndAt.FREE_EDGE), end(EndAt.JOINT)], FEET) == []
    (one,) = end_cautions([end(EndAt.WALL)], FEET)
    assert one.startswith('One line ends at a wall: 2" stays uncut at the surface and 5" short')
    (two,) = end_cautions([end(EndAt.WALL), end(EndAt.WALL, depth=12.7)], FEET)
    assert two.startswith('2 lines end at a wall: 2 13/16" stays')


def test_ends_at_boxouts_and_openings_are_told_together():
    """The deepest runs out farthest: 2 in deep, 4 in."""
    (words,) = end_cautions([end(EndAt.BOXOUT), end(EndAt.OPENING, depth=50.8)], FEET)
    assert words.startswith("2 lines end at a boxout or opening")
    assert 'to cut 4" past' in words


@pytest.mark.parametrize(
    ("cover", "words"),
    [
        (None, "cover not known, so no cut may go there."),
        (31.7, "can strike it; lower it or move the joint."),
        (31.75, "leaves less than 1/2 in (13 mm); hold the depth strictly."),
        (44.45, None),
    ],
)
def test_what_lies_under_a_cut_is_told_unless_it_is_clear(cover, words):
    """A cut of 1 in with a quarter of tolerance and a half to spare."""
    ring = Ring(((0, 0), (1000, 0), (1000, 1000)))
    area = KeepOut(id="K1", outline=ring, what="tubing", cover=cover)
    found = buried_cautions(Slab(outline=ring, thickness=100.0, keep_outs=(area,)), 25.4, FEET)
    assert len(found) == (words is not None)
    assert all(f.startswith("K1 (tubing)") and f.endswith(words) for f in found)
