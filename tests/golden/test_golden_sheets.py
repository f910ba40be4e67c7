"""Sheets that a person has looked at: joint plan, a placement's cut sheet, panel sheet, check sheet.

The layout is drawn by hand, so that only a change of the sheets changes them. Renew them, then look at each:

    KERFLINE_RENEW=1 pytest -n 0 tests/golden
"""

import os
import re
from dataclasses import replace
from pathlib import Path

import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.checks.check import check
from kerfline.files.sheet_svg import svg_bytes
from kerfline.model.day import DayInput, PourChoice, Side
from kerfline.model.job import SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.check_sheet import check_sheet
from kerfline.sheets.cut.areas import pour_areas
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.units import MM3_PER_YD3
from shapes import workshop_job, workshop_layout

FOLDER = Path(__file__).parent / "sheets"
RULES = SlabRules(rule_set=load("floor"))
DAY = DayInput(pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)))
NAMES = ("joint-plan", "cut-sheet-placement-1", "panel-sheet", "check-sheet")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SLIGHT = 0.02
"""Millimetres by which a mark may move unseen: rounding on another machine."""


def first_sheets():
    """The first sheet of each kind, of the workshop."""
    job = workshop_job()
    layout = placed_layout(job.slab, workshop_layout(), DAY, job.display)
    job = replace(job, sheet=SheetChoice(size="tabloid", north=30.0))
    found = check(job.slab, layout, RULES, job.display)
    plan = plan_day(job.slab, layout, RULES, DAY, job.display)
    area = pour_areas(plan)[0]
    sets = (
        joint_plan(job, layout, found, RULES),
        cut_sheet(job, layout, RULES, area=area),
        panel_sheet(job, layout, found, RULES),
        check_sheet(job, layout, found, RULES),
    )
    return dict(zip(NAMES, (sheets[0] for sheets in sets), strict=True))


@pytest.fixture(scope="module")
def made():
    return {name: normal(svg_bytes(sheet).decode()) for name, sheet in first_sheets().items()}


def normal(svg):
    """The drawing without its font, a mark to the line, every number to a hundredth of a millimetre."""
    plain = re.sub(r"data:font/ttf;base64,[A-Za-z0-9+/=]*", "font", svg)
    lines = plain.replace("><", ">\n<")
    return re.sub(r"\d+\.\d{3,}", lambda n: f"{float(n[0]):.2f}", lines) + "\n"


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_is_drawn_as_it_was_looked_at(made, name):
    """The same words in the same order, and every number within two hundredths of a millimetre."""
    path = FOLDER / f"{name}.svg"
    if os.environ.get("KERFLINE_RENEW"):
        path.write_text(made[name])
    kept = path.read_text()
    assert NUMBER.sub("#", made[name]).splitlines() == NUMBER.sub("#", kept).splitlines()
    drawn, known = ([float(n) for n in NUMBER.findall(text)] for text in (made[name], kept))
    assert drawn == pytest.approx(known, abs=SLIGHT)
