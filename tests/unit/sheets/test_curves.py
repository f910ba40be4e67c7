"""Curves: radius, centre and how far along the edge each joint ends, against the angles that they were drawn at."""

import math
import re

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.curves import curve_table, curves, stations_on
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import Display, Unit
from shapes import feet, layout_of
from sheet_checks import assert_clean, assert_no_text_on_ink

RULES = SlabRules(rule_set=load("floor"))
QUARTER = math.tan(math.radians(90.0) / 4)
FOOT = 304.8
ANGLES = (15.0, 37.5, 60.0)
"""Where radial joints stand, degrees clockwise from where the curve begins."""


def bend():
    """A path 6 ft wide that turns a quarter of a circle about (30, 20): 30 ft outside, 24 ft inside."""
    points = feet((0, 0), (6, 0), (6, 20), (30, 44), (50, 44), (50, 50), (30, 50), (0, 20))
    return Slab(outline=Ring(points, (0, 0, -QUARTER, 0, 0, 0, QUARTER, 0)), thickness=100.0)


def radial(angle):
    """A joint across the path at an angle from its level radius."""
    cos, sin = math.cos(math.radians(180.0 - angle)), math.sin(math.radians(180.0 - angle))
    return [(FOOT * (30 + r * cos), FOOT * (20 + r * sin)) for r in (24, 30)]


LINES = [(f"J{n}", radial(angle)) for n, angle in enumerate(ANGLES, 1)]


def test_each_curve_has_its_radius_and_centre():
    slab = bend()
    found = curves(slab, baselines(slab))
    assert [round(c.arc.radius / FOOT, 3) for c in found] == [24.0, 30.0]
    for curve in found:
        assert [v / FOOT for v in curve.arc.centre] == pytest.approx([30.0, 20.0])


def test_stations_are_the_radius_times_the_angle():
    slab = bend()
    for curve in curves(slab, baselines(slab)):
        told = {name: along for name, along, *_ in stations_on(curve, LINES)}
        assert told == pytest.approx(
            {f"J{n}": curve.arc.radius * math.radians(a) for n, a in enumerate(ANGLES, 1)}, abs=1.0
        )


def test_a_curve_is_walked_from_its_end_near_the_corner_whichever_way_it_was_drawn():
    slab = bend()
    points, bulges = slab.outline.points, slab.outline.bulges
    back = Ring(
        points[::-1],
        tuple(-bulges[(len(points) - 2 - i) % len(points)] for i in range(len(points))),
    )
    other = Slab(outline=back, thickness=100.0)
    for one, two in zip(
        curves(slab, baselines(slab)), reversed(curves(other, baselines(other))), strict=True
    ):
        assert one.begins == pytest.approx(two.begins)
        first, second = ([round(a) for _, a, *_ in stations_on(c, LINES)] for c in (one, two))
        assert first == second


def test_a_whole_circle_is_one_curve_and_opposite_ends_lie_half_of_it_apart():
    disc = Slab(outline=Ring(feet((0, 10), (20, 10)), (1.0, 1.0)), thickness=100.0)
    (curve,) = curves(disc, baselines(disc))
    slant = math.radians(40.0)
    across = [
        (FOOT * (10 + 10 * s * math.cos(slant)), FOOT * (10 + 10 * s * math.sin(slant)))
        for s in (-1, 1)
    ]
    (_, near, *_), (_, far, *_) = stations_on(curve, [("J1", across)])
    assert far - near == pytest.approx(math.pi * 10 * FOOT, rel=1e-6)


def test_a_joint_that_ends_off_the_curve_has_no_station():
    slab = bend()
    straight = [("J9", [(0.0, FOOT * 8), (FOOT * 6, FOOT * 8)])]
    assert all(stations_on(curve, straight) == [] for curve in curves(slab, baselines(slab)))


@pytest.mark.parametrize("sheet", ["joint plan", "cut sheet"])
def test_the_sheets_list_the_stations_and_name_the_curve_on_the_plan(sheet):
    slab = bend()
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, line) for _, line in LINES])
    job = Job(name="Path", units=Unit.FT, slab=slab, sheet=SheetChoice(size="arch-d"))
    plan = (
        joint_plan(job, layout, (), RULES)
        if sheet == "joint plan"
        else cut_sheet(job, layout, RULES)
    )
    words = " ".join(t.text.replace("\u00a0", " ") for s in plan for t in s.texts)
    for radius in (24, 30):
        length = radius * math.radians(37.5)
        feet_, inches = divmod(round(length * 12 * 8) / 8, 12)
        assert re.search(rf"(?:J|cut )\d {int(feet_)}'-{int(inches)}", words)
    tags = [t.text for s in plan for t in s.texts if t.in_plan]
    assert {t.split(" = ")[0] for t in tags if t.startswith("R")} == {"R1", "R2"}
    assert any(t.startswith("arc ") for t in tags)
    assert_clean(plan)
    assert_no_text_on_ink(plan)


def test_a_slab_without_curves_has_no_table_of_them():
    slab = Slab(outline=Ring(feet((0, 0), (9, 0), (9, 9), (0, 9))), thickness=100.0)
    assert curve_table(slab, baselines(slab), [], Display.FEET_INCHES, 2.5).rows == ()
