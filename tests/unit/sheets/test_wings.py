"""A wing with a direction of its own is drawn again, turned, and what its sheet tells agrees with the slab."""

import math
from dataclasses import replace

import pytest

from kerfline.app.lay_out import lay_out_job
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.slab import Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Fill, Layer, Path
from kerfline.sheets.wings import wings
from kerfline.units import Unit
from shapes import feet
from sheet_checks import assert_clean, assert_no_text_on_ink

RULES = SlabRules(rule_set=load("floor"))


def house(degrees):
    """A house of 48 x 36 ft and a wing of 36 x 24 ft that turns away from its right side."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    low, high = (48.0, 6.0), (48.0 - 24 * sin, 6.0 + 24 * cos)
    ends = [(low[0] + 36 * cos, low[1] + 36 * sin), (high[0] + 36 * cos, high[1] + 36 * sin)]
    back = 48.0 - high[0]  # how far the far side of the wing begins inside the house
    meets = (48.0, high[1] + back * math.tan(math.radians(degrees)))
    points = [(0, 0), (48, 0), low, ends[0], ends[1], meets, (48, 40), (0, 40)]
    return Slab(outline=Ring(feet(*points)), thickness=125.0)


@pytest.fixture(scope="module")
def drawn():
    outcome = lay_out_job(Job(name="House", units=Unit.FT, slab=house(27.0)))
    sheets = joint_plan(outcome.job, outcome.layout, outcome.findings, outcome.rules)
    return outcome.job, outcome.layout, sheets


def test_a_wing_at_27_degrees_has_a_sheet_on_which_its_joints_lie_along_the_paper(drawn):
    job, layout, sheets = drawn
    (wing,) = wings(job.slab, layout, baselines(job.slab))
    assert wing.name == "wing turned 27 degrees"
    plans = [s for s in sheets if s.views]
    assert [round(s.view.turn, 6) for s in plans] == [0.0, -27.0]
    joints = {j.id for j in layout.joints}
    square = [
        m for m in plans[1].marks
        if isinstance(m, Path) and m.ref in joints and m.in_view
        and min(abs(m.points[0][k] - m.points[-1][k]) for k in (0, 1)) < 0.2
    ]  # fmt: skip
    assert len(square) >= 4
    assert_clean(sheets)


def test_north_turns_with_the_wing(drawn):
    """From the notch of each arrow to its tip."""
    _, _, sheets = drawn
    ways = []
    for sheet in (s for s in sheets if s.views):
        letter = next(t for t in sheet.texts if t.text == "N" and t.layer is Layer.SYMBOL)
        arrows = [m for m in sheet.marks if isinstance(m, Fill) and m.layer is Layer.SYMBOL]
        arrow = min(arrows, key=lambda m: math.dist(m.rings[0][0], letter.at))
        tip, _, notch = arrow.rings[0]
        ways.append(math.degrees(math.atan2(tip[1] - notch[1], tip[0] - notch[0])))
    assert ways == pytest.approx([90.0, 63.0])


def test_every_running_dimension_of_the_wing_is_a_line_of_the_slab(drawn):
    """Taken back to the slab, each station lies on a joint's end, a corner, or the edge where they stand."""
    job, layout, sheets = drawn
    sheet = [s for s in sheets if s.views][1]
    (wing,) = wings(job.slab, layout, baselines(job.slab))
    own = baselines(job.slab, wing.region)
    spots = [own.local(p) for j in wing.layout(layout).joints for p in j.path]
    spots += [own.local(p) for p in wing.region.exterior.coords]
    running = [m for m in sheet.measures if m.running]
    assert len(running) >= 4
    for measure in running:
        axis = 1 if measure.upright else 0
        length = (measure.end[axis] - measure.start[axis]) * sheet.view.scale
        assert min(abs(spot[axis] - length) for spot in spots) < 20.0


def test_the_main_sheet_names_the_sheet_of_the_wing_and_keeps_its_joints(drawn):
    _, layout, sheets = drawn
    words = [t.text for t in sheets[0].texts if t.in_plan]
    assert any("sheet 2" in w for w in words)
    named = {w.split(" ")[0] for w in words}
    assert {j.id for j in layout.joints} <= named
    assert {p.id for p in layout.panels} <= named


@pytest.mark.parametrize("degrees", [0.0, 3.0])
def test_a_wing_that_hardly_turns_has_no_sheet_of_its_own(degrees):
    outcome = lay_out_job(Job(name="House", units=Unit.FT, slab=house(degrees)))
    assert wings(outcome.job.slab, outcome.layout, baselines(outcome.job.slab)) == ()


@pytest.mark.parametrize("degrees", [27.0, -20.0])
def test_no_text_stands_on_a_text_or_a_line_of_a_wing(degrees):
    outcome = lay_out_job(Job(name="House", units=Unit.FT, slab=house(degrees)))
    for size in ("letter", "tabloid", "a3"):
        job = replace(outcome.job, sheet=SheetChoice(size=size))
        assert_no_text_on_ink(joint_plan(job, outcome.layout, (), outcome.rules))
