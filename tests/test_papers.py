"""All kinds of sheets on all six papers: nothing small, nothing over anything else, nothing cut off."""

from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.checks.check import check
from kerfline.model.day import (
    Concrete,
    DayInput,
    PourChoice,
    Side,
    SteelChoice,
    WeatherHour,
)
from kerfline.model.job import SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.check_sheet import check_sheet
from kerfline.sheets.cut.areas import pour_areas
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.day.sheet import day_sheets
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.lettering import text_width
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.sheets.paper import SIZES
from kerfline.units import MM3_PER_YD3, MM_PER_INCH, Display, Unit
from shapes import workshop_job, workshop_layout
from sheet_checks import assert_clean, marks_outside, overlapping_texts, texts_outside

RULES = SlabRules(rule_set=load("floor"))
WEATHER = tuple(
    WeatherHour(clock=float(h), air=30.0, humidity=0.3, wind=30.0, wind_height=10_000.0)
    for h in range(48)
)
DAY = DayInput(
    date="2026-06-14",
    weather=WEATHER,
    concrete=Concrete(temperature=28.0),
    sunrise=7.5,
    sunset=16.5,
    pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)),
    steel=SteelChoice(dowels="ufc-3-260-02"),
)
LEAST = 3 / 32 * MM_PER_INCH
"""Least height of letters that is read on the full sheet: 3/32 in (trade consensus for notes)."""


@pytest.fixture(scope="module", params=sorted(SIZES))
def sets(request):
    unit = Unit.FT if SIZES[request.param].display is Display.FEET_INCHES else Unit.MM
    job = replace(workshop_job(unit), sheet=SheetChoice(size=request.param))
    layout = placed_layout(job.slab, workshop_layout(), DAY, job.display)
    found = check(job.slab, layout, RULES, job.display)
    plan = plan_day(job.slab, layout, RULES, DAY, job.display)
    return {
        "joint plan": joint_plan(job, layout, found, RULES),
        "panel sheet": panel_sheet(job, layout, found, RULES),
        "check sheet": check_sheet(job, layout, found, RULES),
        "cut sheet": cut_sheet(job, layout, RULES),
        "placement": cut_sheet(job, layout, RULES, area=pour_areas(plan)[0]),
        "day": day_sheets(job, layout, plan),
    }


def test_no_letter_is_lower_than_three_32nds_of_an_inch(sets):
    for name, sheets in sets.items():
        least = min(t.height for s in sheets for t in s.texts)
        assert least >= LEAST - 0.02, name


def test_no_text_overlaps_and_none_leaves_the_frame(sets):
    for name, sheets in sets.items():
        if name == "day":  # its map's numbers stand on white plates over the joints
            for sheet in sheets:
                assert overlapping_texts(sheet) == []
                assert texts_outside(sheet) == []
                assert marks_outside(sheet) == []
        else:
            assert_clean(sheets)


def test_no_set_is_longer_than_its_tables_ask(sets):
    """A table wider than its sheet once went on for 400 empty sheets."""
    for name, sheets in sets.items():
        # The check sheet on A4: 1:200 leaves panels without a number, 1:100 takes four parts, and its tables six.
        assert len(sheets) <= 10, name
        assert all(len(s.texts) > 20 for s in sheets), name


def test_no_cell_of_a_table_is_cut_short(sets):
    for name, sheets in sets.items():
        short = [t.text for s in sheets for t in s.texts if t.text.endswith("...")]
        assert short == [], name


def test_every_text_has_a_length(sets):
    for sheets in sets.values():
        assert all(text_width(t.text, t.height) > 0 for s in sheets for t in s.texts)
