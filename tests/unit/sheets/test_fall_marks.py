"""Arrows on the planes of a floor that falls to a drain."""

import math
from dataclasses import replace

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import Fall, JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Path
from kerfline.sheets.plan_labels import path_line
from kerfline.units import Unit
from shapes import feet, layout_of
from sheet_checks import assert_clean, box_of

RULES = SlabRules(rule_set=load("floor"))
LEGEND = "the floor falls to its drain"


def sheets(*falls):
    slab = Slab(
        outline=Ring(feet((0, 0), (24, 0), (24, 24), (0, 24))), thickness=127.0, falls=falls
    )
    lines = [feet((0, 12), (24, 12)), feet((12, 0), (12, 24))]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, line) for line in lines])
    return joint_plan(Job(name="Bay", units=Unit.FT, slab=slab), layout, (), RULES)


def arrows(made):
    return [
        m
        for m in made[0].marks
        if isinstance(m, Path) and m.ref == "D1" and m.in_plan and len(m.points) == 2
    ]


BASIN = Fall(id="D1", area=Ring(feet((2, 2), (22, 2), (22, 22), (2, 22))), to=feet((9, 14)))


def test_every_plane_has_an_arrow_to_the_drain():
    made = sheets(BASIN)
    found = arrows(made)
    assert len(found) == 4
    ways = [(b[0] - a[0], b[1] - a[1]) for a, b in (arrow.points for arrow in found)]
    spots = [arrow.points[0] for arrow in found]
    for (x, y), (dx, dy) in zip(spots, ways, strict=True):
        # All arrows, run on, meet in one place: the drain.
        for (u, v), (du, dv) in zip(spots, ways, strict=True):
            cross = dx * dv - dy * du
            if abs(cross) > 1e-6:
                share = ((u - x) * dv - (v - y) * du) / cross
                assert share > 1
                meet = (x + share * dx, y + share * dy)
                assert math.dist(meet, _drain_on(made)) < 0.1
    assert_clean(made)
    assert LEGEND in {t.text for t in made[0].texts}


def _drain_on(made):
    """The drain's place on the paper, from where the joints cross (12, 12) and the scale."""
    joints = {
        m.ref: m.points for m in made[0].marks if isinstance(m, Path) and m.ref in ("J1", "J2")
    }
    (upright,) = [p for p in joints.values() if p[0][0] == pytest.approx(p[1][0])]
    (level,) = [p for p in joints.values() if p[0][1] == pytest.approx(p[1][1])]
    foot = math.dist(*upright) / 24
    return (upright[0][0] - 3 * foot, level[0][1] + 2 * foot)


def test_no_label_stands_on_an_arrow():
    made = sheets(BASIN)
    assert arrows(made)
    boxes = [box_of(t) for t in made[0].texts]
    assert not [b for b in boxes for a in arrows(made) if path_line(a).intersects(b)]


def test_a_level_floor_has_no_arrows_and_no_word_of_them():
    made = sheets()
    assert arrows(made) == []
    assert LEGEND not in {t.text for s in made for t in s.texts}


def test_a_fall_too_small_to_show_has_no_arrow():
    small = Fall(id="D1", area=Ring(feet((5, 5), (6, 5), (6, 6), (5, 6))), to=feet((5.5, 5.5)))
    assert arrows(sheets(small)) == []


def test_its_slope_stands_beside_an_arrow_and_in_the_notes():
    made = sheets(replace(BASIN, slope=1.5))
    said = [t for t in made[0].texts if t.in_plan and t.text == "1.5 %"]
    assert 1 <= len(said) <= 4
    for text in said:
        reach = min(path_line(a).distance(box_of(text)) for a in arrows(made))
        assert reach < 6.0
    assert "Falls to the drains: D1 1.5 %." in " ".join(t.text for t in made[0].texts)
    assert_clean(made)


def test_a_slope_that_is_not_told_is_not_said():
    assert not [t for s in sheets(BASIN) for t in s.texts if "%" in t.text and t.in_plan]
